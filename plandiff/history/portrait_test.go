package history

import (
	"context"
	"fmt"
	"io/fs"
	"maps"
	"slices"
	"strings"
	"testing"
)

// portrait writes down everything that the package tells of a repository: its
// commits, names, files, merge bases and history. truth writes the same down
// from the output of the real git.
func portrait(t testing.TB, r *Repository) string {
	t.Helper()
	ctx := context.Background()
	var b strings.Builder
	refs, err := r.references(ctx)
	if err != nil {
		t.Fatalf("%s: %v", r.Backing(), err)
	}
	names := slices.Sorted(maps.Keys(refs.byName))
	commits := make(map[string]Commit)
	for _, name := range names {
		c := mustResolve(t, r, name)
		commits[c.Hash] = c
		fmt.Fprintf(&b, "ref %s %s\n", name, c.Hash)
	}
	head := mustResolve(t, r, "HEAD")
	err = r.Walk(ctx, Commit{}, head, "", func(c Commit, changes []BlobChange) error {
		writeCommit(&b, c, changes)
		return nil
	})
	if err != nil {
		t.Fatalf("%s: Walk: %v", r.Backing(), err)
	}
	for _, hash := range slices.Sorted(maps.Keys(commits)) {
		writeTree(t, &b, r, commits[hash])
		for _, other := range slices.Sorted(maps.Keys(commits)) {
			bases, err := r.mergeBases(ctx, commits[hash], commits[other])
			if err != nil {
				t.Fatal(err)
			}
			fmt.Fprintf(&b, "bases %s\n", strings.Join(sortedHashes(bases), " "))
		}
	}
	return b.String()
}

func sortedHashes(commits []Commit) []string {
	var list []string
	for _, c := range commits {
		list = append(list, c.Hash)
	}
	slices.Sort(list)
	return list
}

func writeCommit(b *strings.Builder, c Commit, changes []BlobChange) {
	fmt.Fprintf(b, "commit %s [%s] %s <%s> %d %s %d: %s | %s\n", c.Hash, strings.Join(c.Parents, " "), c.Author, c.AuthorEmail,
		c.When.Unix(), c.When.Format("-0700"), c.Committed.Unix(), c.Subject, strings.ReplaceAll(c.Body, "\n", "/"))
	for _, ch := range changes {
		sides := append([]Version{ch.Old}, ch.Others...)
		fmt.Fprintf(b, "  %q", ch.Path)
		for _, v := range append(sides, ch.New) {
			fmt.Fprintf(b, " %s:%s", v.Mode, v.Hash)
		}
		b.WriteString("\n")
	}
}

func writeTree(t testing.TB, b *strings.Builder, r *Repository, c Commit) {
	t.Helper()
	files, err := r.Tree(context.Background(), c, "")
	if err != nil {
		t.Fatal(err)
	}
	var lines []string
	err = fs.WalkDir(files, ".", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		info, err := d.Info()
		if err != nil {
			return err
		}
		content := ""
		switch {
		case info.Mode().IsRegular():
			data, err := fs.ReadFile(files, path)
			if err != nil {
				return err
			}
			content = string(data)
		case info.Mode()&fs.ModeSymlink != 0:
			if content, err = fs.ReadLink(files, path); err != nil {
				return err
			}
		}
		lines = append(lines, fmt.Sprintf("file %q %s %d %q", path, info.Mode(), info.Size(), content))
		return nil
	})
	if err != nil {
		t.Fatalf("%s: %s: %v", r.Backing(), c.Short(), err)
	}
	slices.Sort(lines)
	fmt.Fprintf(b, "tree of %s\n%s\n", c.Hash, strings.Join(lines, "\n"))
}

// truth is portrait by way of the real git.
func (f *fixture) truth() string {
	f.t.Helper()
	var b strings.Builder
	commits := make(map[string]bool)
	names := append(strings.Fields(f.git("for-each-ref", "--format=%(refname)")), "HEAD")
	slices.Sort(names)
	for _, name := range names {
		hash := f.git("rev-parse", name+"^{commit}")
		commits[hash] = true
		fmt.Fprintf(&b, "ref %s %s\n", name, hash)
	}
	for _, e := range f.realLog("HEAD", "", "") {
		writeCommit(&b, e.commit, e.changes)
	}
	for _, hash := range slices.Sorted(maps.Keys(commits)) {
		f.writeRealTree(&b, hash)
		for _, other := range slices.Sorted(maps.Keys(commits)) {
			bases := strings.Fields(f.gitAllowing(1, "merge-base", "--all", hash, other))
			slices.Sort(bases)
			fmt.Fprintf(&b, "bases %s\n", strings.Join(bases, " "))
		}
	}
	return b.String()
}

func (f *fixture) writeRealTree(b *strings.Builder, hash string) {
	f.t.Helper()
	var lines []string
	for line := range strings.SplitSeq(f.git("ls-tree", "-r", "-z", "--full-tree", hash), "\x00") {
		if line == "" {
			continue
		}
		meta, path, _ := strings.Cut(line, "\t")
		fields := strings.Fields(meta)
		mode := map[string]string{"100644": "-r--r--r--", "100755": "-r-xr-xr-x", "120000": "Lrwxrwxrwx", "160000": "?---------"}[fields[0]]
		content := ""
		if fields[1] == "blob" {
			out, err := f.command("cat-file", "blob", fields[2]).Output()
			if err != nil {
				f.t.Fatal(err)
			}
			content = string(out)
		}
		lines = append(lines, fmt.Sprintf("file %q %s %d %q", path, mode, len(content), content))
	}
	slices.Sort(lines)
	fmt.Fprintf(b, "tree of %s\n%s\n", hash, strings.Join(lines, "\n"))
}

// firstDifference shows where two portraits part.
func firstDifference(got, want string) string {
	g, w := strings.Split(got, "\n"), strings.Split(want, "\n")
	for i := range max(len(g), len(w)) {
		if i >= len(g) || i >= len(w) || g[i] != w[i] {
			return fmt.Sprintf("line %d\n got %s\nwant %s", i+1, strings.Join(g[min(i, len(g)):min(i+2, len(g))], "\n     "),
				strings.Join(w[min(i, len(w)):min(i+2, len(w))], "\n     "))
		}
	}
	return "equal"
}
