package history

import (
	"context"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// A story is a made-up history: commits with up to three parents each, files
// that come, change, go, turn from file to folder and from plain to executable.
type story struct{ commits []chapter }

type chapter struct {
	parents []int
	files   map[string]file
	date    int64
}

type file struct {
	text string
	mode string
}

// drawStory makes histories in which merges often equal one of their parents
// below a folder, which is where the rules of simplification bite.
func drawStory(t *rapid.T, skewed bool) story {
	var s story
	date := int64(1_767_225_600)
	n := rapid.IntRange(1, 16).Draw(t, "commits")
	for i := range n {
		c := chapter{files: make(map[string]file)}
		c.parents = drawParents(t, i)
		if len(c.parents) > 0 {
			for _, p := range c.parents { // later parents win, file by file, or not
				for path, f := range s.commits[p].files {
					if rapid.IntRange(0, 2).Draw(t, "take") > 0 || p == c.parents[0] {
						c.put(path, f)
					}
				}
			}
		}
		for range rapid.SampledFrom([]int{0, 1, 1, 2}).Draw(t, "edits") {
			path := rapid.SampledFrom([]string{"plan.yaml", "plans/a.yaml", "plans/b.yaml", "plans/sub/c.yaml", "plans", "plans.b", "plans/sub"}).Draw(t, "path")
			if rapid.IntRange(0, 4).Draw(t, "drop") == 0 {
				delete(c.files, path)
				continue
			}
			c.put(path, file{rapid.SampledFrom([]string{"1", "2", "3"}).Draw(t, "text"),
				rapid.SampledFrom([]string{"100644", "100644", "100755", "120000"}).Draw(t, "mode")})
		}
		date += rapid.SampledFrom([]int64{0, 0, 60, 60}).Draw(t, "later")
		c.date = date
		if skewed {
			c.date += rapid.Int64Range(-300, 300).Draw(t, "skew")
		}
		s.commits = append(s.commits, c)
	}
	return s
}

func drawParents(t *rapid.T, i int) []int {
	if i == 0 {
		return nil
	}
	n := rapid.SampledFrom([]int{1, 1, 1, 2, 2, 2, 3}).Draw(t, "parents")
	if rapid.IntRange(0, 12).Draw(t, "root") == 0 {
		n = 0
	}
	var parents []int
	for range n {
		p := rapid.IntRange(max(0, i-6), i-1).Draw(t, "parent")
		if !slices.Contains(parents, p) {
			parents = append(parents, p)
		}
	}
	return parents
}

// settled lists the commits that can be the lower end of a span up to the last
// commit without git's answer hanging on the order in which it meets commits.
// git follows another side of a merge unless the merge equals a parent that it
// does not yet know to be beyond the lower end (revision.c: limit_list simplifies
// while it still marks); it is sure of the lower end and that one's parents only.
func (s story) settled() []int {
	last := len(s.commits) - 1
	upper := s.reach(last)
	var list []int
	for from := range s.commits {
		beyond, sure := s.reach(from), append([]int{from}, s.commits[from].parents...)
		hangs := func(i int) bool {
			return upper[i] && !beyond[i] && len(s.commits[i].parents) > 1 &&
				slices.ContainsFunc(s.commits[i].parents, func(p int) bool { return beyond[p] && !slices.Contains(sure, p) })
		}
		if !slices.ContainsFunc(slices.Collect(maps.Keys(upper)), hangs) {
			list = append(list, from)
		}
	}
	return list // the last commit itself at least: an empty span
}

// reach is what can be reached from a commit, itself included.
func (s story) reach(from int) map[int]bool {
	seen := make(map[int]bool)
	for stack := []int{from}; len(stack) > 0; {
		i := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		if !seen[i] {
			seen[i] = true
			stack = append(stack, s.commits[i].parents...)
		}
	}
	return seen
}

// put adds a file and removes what cannot stand beside it.
func (c chapter) put(path string, f file) {
	for other := range c.files {
		if strings.HasPrefix(other, path+"/") || strings.HasPrefix(path, other+"/") {
			delete(c.files, other)
		}
	}
	c.files[path] = f
}

// A storyFixture holds one story after another, all in one repository, because
// starting git is what takes the time.
type storyFixture struct {
	*fixture
	both []*Repository // one a backing
}

func newStoryFixture(t testing.TB) *storyFixture {
	f := newFixture(t, "--bare")
	f.git("config", "fastimport.unpackLimit", "1000000") // loose objects, which an open repository sees at once
	return &storyFixture{f, []*Repository{mustOnly(t, f.dir, "go-git"), mustOnly(t, f.dir, "git")}}
}

// commitOf reads a commit by its hash; the zero Commit for "".
func (f *storyFixture) commitOf(r *Repository, hash string) Commit {
	f.t.Helper()
	if hash == "" {
		return Commit{}
	}
	c, err := r.commit(context.Background(), hash)
	if err != nil {
		f.t.Fatalf("%s: %v", r.Backing(), err)
	}
	return c
}

// tell makes a story real with git fast-import and returns the hashes of its commits.
func (f *storyFixture) tell(s story) []string {
	var b strings.Builder
	for i, c := range s.commits {
		fmt.Fprintf(&b, "commit refs/heads/c%d\nmark :%d\ncommitter Sam <sam@example.org> %d +0000\ndata 4\nc%03d", i, i+1, c.date, i)
		b.WriteString("\n")
		for j, p := range c.parents {
			fmt.Fprintf(&b, "%s :%d\n", map[bool]string{true: "from", false: "merge"}[j == 0], p+1)
		}
		b.WriteString("deleteall\n")
		for path, f := range c.files {
			fmt.Fprintf(&b, "M %s inline %s\ndata %d\n%s\n", f.mode, path, len(f.text), f.text)
		}
	}
	hashes := make([]string, len(s.commits))
	marks := filepath.Join(f.dir, "marks")
	f.gitInput(b.String(), "fast-import", "--quiet", "--force", "--export-marks="+marks)
	text, err := os.ReadFile(marks)
	if err != nil {
		f.t.Fatal(err)
	}
	for line := range strings.Lines(string(text)) {
		var mark int
		var hash string
		if _, err := fmt.Sscanf(line, ":%d %s", &mark, &hash); err != nil {
			f.t.Fatal(err)
		}
		hashes[mark-1] = hash
	}
	return hashes
}
