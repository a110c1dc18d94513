package chronicle_test

import (
	"context"
	"fmt"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"passband.example/plandiff/chronicle"
	"passband.example/plandiff/history"
)

// A tester is a test, a benchmark or one try of a property.
type tester interface {
	Helper()
	Fatal(...any)
	Fatalf(string, ...any)
}

// A story is a history in the making, in the form of git-fast-import(1).
type story struct {
	in      strings.Builder
	commits int
	files   map[int]map[string]string // by commit: path and text
	Authors []string                  // of the commits, in turn
}

func newStory() *story {
	return &story{files: map[int]map[string]string{0: {}}, Authors: []string{"Pat Example <pat@example.org>"}}
}

// commit records files over those of the first parent (0 for none) and gives the
// number of the commit. A text of "" takes the file away. Each commit is a minute
// younger than the one before.
func (s *story) commit(message string, files map[string]string, parents ...int) int {
	s.commits++
	who := fmt.Sprintf("%s %d +0100", s.Authors[s.commits%len(s.Authors)], 1767225600+60*s.commits)
	fmt.Fprintf(&s.in, "commit refs/heads/main\nmark :%d\nauthor %s\ncommitter %s\ndata %d\n%s\n", s.commits, who, who, len(message), message)
	all := make(map[string]string)
	for i, p := range parents {
		if i == 0 {
			fmt.Fprintf(&s.in, "from :%d\n", p)
			maps.Copy(all, s.files[p])
		} else {
			fmt.Fprintf(&s.in, "merge :%d\n", p)
		}
	}
	for _, name := range slices.Sorted(maps.Keys(files)) {
		if text := files[name]; text != "" {
			fmt.Fprintf(&s.in, "M 100644 inline %s\ndata %d\n%s\n", name, len(text), text)
			all[name] = text
		} else {
			fmt.Fprintf(&s.in, "D %s\n", name)
			delete(all, name)
		}
	}
	s.files[s.commits] = all
	return s.commits
}

// tag names a commit.
func (s *story) tag(name string, commit int) {
	fmt.Fprintf(&s.in, "reset refs/tags/%s\nfrom :%d\n\n", name, commit)
}

// write makes a repository of the story, whose main branch is the last commit.
func (s *story) write(t tester, dir string) {
	t.Helper()
	git(t, "", "init", "-q", "--bare", "-b", "main", dir)
	git(t, s.in.String(), "-C", dir, "fast-import", "--quiet", "--force")
}

func git(t tester, input string, args ...string) string {
	t.Helper()
	cmd := exec.Command("git", args...)
	cmd.Env = []string{"PATH=" + os.Getenv("PATH"), "HOME=" + os.DevNull, "GIT_CONFIG_NOSYSTEM=1", "LC_ALL=C"}
	cmd.Stdin = strings.NewReader(input)
	var errs strings.Builder
	cmd.Stderr = &errs
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("git %s: %v\n%s", strings.Join(args, " "), err, errs.String())
	}
	return string(out)
}

// open makes the repository and opens it; dir is the folder of the plan in it.
func (s *story) open(t testing.TB, dir string) (*history.Repository, *chronicle.Reader) {
	t.Helper()
	at := filepath.Join(t.TempDir(), "club.git")
	s.write(t, at)
	repo, err := history.Open(context.Background(), at)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = repo.Close() })
	return repo, chronicle.New(repo, dir)
}

func span(t tester, repo *history.Repository, text string) chronicle.Span {
	t.Helper()
	s, err := chronicle.ParseSpan(context.Background(), repo, text)
	if err != nil {
		t.Fatal(err)
	}
	return s
}
