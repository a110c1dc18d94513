package driver

import (
	"context"
	"io/fs"
	"os"
	"path"
	"slices"
	"strconv"
	"strings"

	"passband.example/plandiff/history"
	"passband.example/plandiff/merge"
	"passband.example/plandiff/plan"
)

// mostCommits is how many commits are looked at for the ones being merged: enough for
// those that a person works on, in a few hundredths of a second.
const mostCommits = 2000

// find gives the whole plans that git is merging, where it is certain which they are.
func (f *file) find(ctx context.Context) (three [3]merge.Files, found bool) {
	s := &search{ctx: ctx, file: f}
	commits, ok := s.commits()
	if !ok {
		return three, false
	}
	repo, err := history.Open(ctx, ".")
	if err != nil {
		return three, false
	}
	defer repo.Close()
	for i, hash := range commits {
		files, err := readPlan(ctx, repo, hash, f.root)
		if err != nil {
			return three, false
		}
		three[i] = files
	}
	// What was found must be what git handed over.
	for i, text := range [][]byte{f.base, f.ours, f.theirs} {
		if string(three[i][f.name]) != string(text) {
			return three, false
		}
	}
	return three, true
}

// readPlan reads the files of a plan at a commit.
func readPlan(ctx context.Context, repo *history.Repository, hash, root string) (merge.Files, error) {
	c, err := repo.Resolve(ctx, hash)
	if err != nil {
		return nil, err
	}
	dir := root
	if dir == "." {
		dir = ""
	}
	tree, err := repo.Tree(ctx, c, dir)
	if err != nil {
		return nil, err
	}
	return ReadPlan(tree)
}

// ReadPlan reads the files of the plan at the root of fsys.
func ReadPlan(fsys fs.FS) (merge.Files, error) {
	names, refused, err := plan.FindFiles(fsys)
	if err != nil {
		return nil, err
	}
	if len(refused) > 0 {
		return nil, refused[0]
	}
	return plan.ReadFiles(fsys, names)
}

// A search looks for the commits that git is merging.
type search struct {
	ctx  context.Context
	file *file
	want [3]string // the blobs of base, ours and theirs
}

// commits gives base, ours and theirs.
func (s *search) commits() (three [3]string, ok bool) {
	for i, name := range []string{s.file.call.Base, s.file.call.Ours, s.file.call.Theirs} {
		hash, err := git(s.ctx, ".", "hash-object", "--no-filters", "--", name)
		if err != nil {
			return three, false
		}
		s.want[i] = hash
	}
	if s.blob("HEAD") == s.want[1] {
		for _, theirs := range s.named() {
			if s.blob(theirs) != s.want[2] {
				continue
			}
			for _, base := range []string{s.parting("HEAD", theirs), theirs + "^"} {
				if base != "" && s.blob(base) == s.want[0] {
					return [3]string{s.hash(base), s.hash("HEAD"), s.hash(theirs)}, true
				}
			}
		}
	}
	return s.unique()
}

// blob gives the hash of the file at a commit, or "".
func (s *search) blob(commit string) string { return s.hash(commit + ":" + s.file.call.Path) }

func (s *search) hash(revision string) string {
	hash, err := git(s.ctx, ".", "rev-parse", "-q", "--verify", "--end-of-options", revision)
	if err != nil {
		return ""
	}
	return hash
}

// parting gives the one commit at which two histories parted, or "".
func (s *search) parting(a, b string) string {
	out, err := git(s.ctx, ".", "merge-base", "--all", a, b)
	if err != nil || strings.Contains(out, "\n") {
		return ""
	}
	return out
}

// named gives the commits that git says it is working on: git merge names them in
// its environment, the others in files of the repository.
func (s *search) named() []string {
	var all []string
	for _, pair := range s.file.call.Environ {
		if rest, ok := strings.CutPrefix(pair, "GITHEAD_"); ok {
			hash, _, _ := strings.Cut(rest, "=")
			all = append(all, hash)
		}
	}
	slices.Sort(all)
	all = append(all, "MERGE_HEAD", "CHERRY_PICK_HEAD")
	if hash := s.rebased(); hash != "" {
		all = append(all, hash)
	}
	return slices.DeleteFunc(all, func(rev string) bool { return s.hash(rev+"^{commit}") == "" })
}

// rebased gives the commit that git rebase, or a series of picks, is at.
func (s *search) rebased() string {
	name, err := git(s.ctx, ".", "rev-parse", "--git-path", "rebase-merge/done")
	if err != nil {
		return ""
	}
	done, err := os.ReadFile(name)
	if err != nil {
		return ""
	}
	lines := strings.Split(strings.TrimSpace(string(done)), "\n")
	if words := strings.Fields(lines[len(lines)-1]); len(words) > 1 {
		return words[1]
	}
	return ""
}

// unique finds each of the three among all commits by the file it holds; it is
// certain only where all commits with that file have the same plan.
func (s *search) unique() (three [3]string, ok bool) {
	list, err := git(s.ctx, ".", "rev-list", "--all", "--max-count="+strconv.Itoa(mostCommits), "HEAD")
	if err != nil || list == "" {
		return three, false
	}
	commits := strings.Split(list, "\n")
	blobs, plans := s.objects(commits, s.file.call.Path), s.objects(commits, s.file.root)
	if len(blobs) != len(commits) || len(plans) != len(commits) {
		return three, false
	}
	for i := range three {
		plan := ""
		for j, c := range commits {
			switch {
			case blobs[j] != s.want[i]:
			case plan == "":
				three[i], plan = c, plans[j]
			case plans[j] != plan:
				return three, false
			}
		}
		if plan == "" {
			return three, false
		}
	}
	return three, true
}

// objects gives the hash of a path at each commit.
func (s *search) objects(commits []string, name string) []string {
	if name = path.Clean(name); name == "." {
		name = ""
	}
	var ask strings.Builder
	for _, c := range commits {
		ask.WriteString(c + ":" + name + "\n")
	}
	out, err := gitWith(s.ctx, ".", ask.String(), "cat-file", "--batch-check=%(objectname)")
	if err != nil {
		return nil
	}
	return strings.Split(out, "\n")
}
