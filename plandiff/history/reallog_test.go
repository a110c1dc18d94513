package history

import (
	"fmt"
	"io/fs"
	"slices"
	"strconv"
	"strings"
	"time"
)

type logged struct {
	commit  Commit
	changes []BlobChange
}

// realLog reads the output of the real git, one process a commit and a form of
// output of its own, so that no parser of the package is trusted: which commits
// by "git log", their headers by "git show", what they changed by "git diff-tree".
func (f *fixture) realLog(to, from, dir string) []logged {
	f.t.Helper()
	args := []string{"log", "--format=%H", to}
	if from != "" {
		args = append(args, "^"+from)
	}
	path := dir
	if dir == "" {
		path = "."
	}
	args = append(args, "--", ":(top,literal)"+path)
	if path == "." {
		args[len(args)-1] = ":(top)"
	}
	var list []logged
	for _, hash := range strings.Fields(f.git(args...)) {
		if changes := f.realChanges(dir, hash); len(changes) > 0 {
			list = append(list, logged{f.realCommit(hash), changes})
		}
	}
	return list
}

func (f *fixture) realCommit(hash string) Commit {
	f.t.Helper()
	fields := strings.Split(f.git("show", "-s", "--date=iso-strict", "--format=%P%n%an%n%ae%n%aI%n%ct%n%s%n%b", hash), "\n")
	when, err := time.Parse(time.RFC3339, fields[3])
	if err != nil {
		f.t.Fatal(err)
	}
	committed, err := strconv.ParseInt(fields[4], 10, 64)
	if err != nil {
		f.t.Fatal(err)
	}
	return Commit{Hash: hash, Parents: strings.Fields(fields[0]), Author: fields[1], AuthorEmail: fields[2], When: when,
		Committed: time.Unix(committed, 0), Subject: fields[5], Body: strings.TrimSpace(strings.Join(fields[6:], "\n"))}
}

func (f *fixture) realChanges(dir string, revs ...string) []BlobChange {
	f.t.Helper()
	args := append([]string{"diff-tree", "-r", "-c", "--root", "--no-commit-id", "--no-renames", "--raw", "--no-abbrev", "-z"}, revs...)
	if dir != "" {
		args = append(args, "--", ":(top,literal)"+dir)
	}
	parts := strings.Split(f.git(args...), "\x00")
	var changes []BlobChange
	for i := 0; i+1 < len(parts); i += 2 {
		meta := strings.Fields(strings.TrimLeft(parts[i], ":"))
		sides := make([]Version, (len(meta)-1)/2)
		for j := range sides {
			sides[j] = f.version(meta[j], meta[len(sides)+j])
		}
		path := parts[i+1]
		if dir != "" {
			if path = strings.TrimPrefix(strings.TrimPrefix(path, dir), "/"); path == "" {
				path = "."
			}
		}
		c := BlobChange{Path: path, Old: sides[0], New: sides[len(sides)-1]}
		if len(sides) > 2 {
			c.Others = sides[1 : len(sides)-1]
		}
		changes = append(changes, c)
	}
	slices.SortFunc(changes, func(a, b BlobChange) int { return strings.Compare(a.Path, b.Path) })
	return changes
}

func (f *fixture) version(mode, hash string) Version {
	f.t.Helper()
	switch mode {
	case "000000":
		return Version{}
	case "100644":
		return Version{hash, 0o444}
	case "100755":
		return Version{hash, 0o555}
	case "120000":
		return Version{hash, 0o777 | fs.ModeSymlink}
	case "160000":
		return Version{hash, fs.ModeIrregular}
	}
	f.t.Fatal(fmt.Errorf("mode %q", mode))
	return Version{}
}
