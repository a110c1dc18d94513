package demo_test

import (
	"bytes"
	"context"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"passband.example/plandiff/demo"
)

// These tests ask the git command about the repository that Write made.

func runGit(t *testing.T, dir, stdin string, args ...string) string {
	t.Helper()
	return runGitAs(t, t.TempDir(), dir, stdin, args...)
}

// runGitAs runs git with the settings of a home folder.
func runGitAs(t *testing.T, home, dir, stdin string, args ...string) string {
	t.Helper()
	cmd := exec.Command("git", args...)
	cmd.Dir = dir
	cmd.Stdin = strings.NewReader(stdin)
	cmd.Env = []string{"PATH=" + os.Getenv("PATH"), "HOME=" + home, "GIT_CONFIG_NOSYSTEM=1", "LC_ALL=C"}
	var stderr bytes.Buffer
	cmd.Stderr = &stderr
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("git %s: %v\n%s", strings.Join(args, " "), err, &stderr)
	}
	if stderr.Len() > 0 && args[0] != "fast-import" {
		t.Errorf("git %s says: %s", strings.Join(args, " "), &stderr)
	}
	return string(out)
}

func written(t *testing.T) string {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "club")
	if err := demo.Write(context.Background(), dir); err != nil {
		t.Fatal(err)
	}
	return dir
}

const allRefs = "--format=%(refname) %(objecttype) %(objectname)"

func TestGitFindsNothingWrong(t *testing.T) {
	dir := written(t)
	if out := runGit(t, dir, "", "fsck", "--strict", "--no-dangling"); out != "" {
		t.Errorf("git fsck: %s", out)
	}
	if out := runGit(t, dir, "", "status", "--porcelain", "--ignored"); out != "" {
		t.Errorf("the work tree is not clean:\n%s", out)
	}
	if got := runGit(t, dir, "", "symbolic-ref", "HEAD"); got != "refs/heads/"+demo.Main+"\n" {
		t.Errorf("the work tree is on %s", got)
	}
}

func TestGitLogTellsTheHistory(t *testing.T) {
	dir := written(t)
	want := map[string]string{}
	for _, c := range demo.History() {
		want[c.Branch] = fmt.Sprintf("%s <%s> %s\n%s\n", c.Author, c.Email, c.When.Format("2006-01-02T15:04:05-07:00"), c.Message) + want[c.Branch]
	}
	const form = "--format=tformat:%an <%ae> %aI%n%B"
	if got := runGit(t, dir, "", "log", form, demo.Main); got != want[demo.Main] {
		t.Errorf("main:\n%s\nwant:\n%s", got, want[demo.Main])
	}
	if got := runGit(t, dir, "", "log", form, demo.Main+".."+demo.Proposal); got != want[demo.Proposal] {
		t.Errorf("proposal:\n%s\nwant:\n%s", got, want[demo.Proposal])
	}
	tags := runGit(t, dir, "", "for-each-ref", "--format=%(objecttype) %(refname:short)", "refs/tags")
	if want := "tag " + demo.FirstRelease + "\ntag " + demo.SecondRelease + "\n"; tags != want {
		t.Errorf("tags:\n%s\nwant:\n%s", tags, want)
	}
}

// Git itself, given the same history as a stream, must arrive at the same hashes.
func TestGitMakesTheSameHashes(t *testing.T) {
	theirs := t.TempDir()
	runGit(t, theirs, "", "init", "--quiet", "--bare")
	runGit(t, theirs, stream(t), "fast-import", "--quiet")
	got := runGit(t, written(t), "", "for-each-ref", allRefs)
	want := runGit(t, theirs, "", "for-each-ref", allRefs)
	if got != want {
		t.Errorf("Write made\n%s\ngit makes\n%s", got, want)
	}
}

// stream writes the history in the form of git-fast-import(1).
func stream(t *testing.T) string {
	t.Helper()
	var s strings.Builder
	data := func(text string) { fmt.Fprintf(&s, "data %d\n%s\n", len(text), text) }
	mark := map[string]int{}
	for i, c := range demo.History() {
		mark[c.Name] = i + 1
		who := fmt.Sprintf("%s <%s> %d %s", c.Author, c.Email, c.When.Unix(), c.When.Format("-0700"))
		fmt.Fprintf(&s, "commit refs/heads/%s\nmark :%d\nauthor %s\ncommitter %s\n", c.Branch, i+1, who, who)
		data(c.Message)
		if c.Parent != "" {
			fmt.Fprintf(&s, "from :%d\n", mark[c.Parent])
		}
		s.WriteString("deleteall\n")
		files, err := fs.Glob(c.Plan, "*")
		if err != nil {
			t.Fatal(err)
		}
		for _, name := range files {
			text, err := fs.ReadFile(c.Plan, name)
			if err != nil {
				t.Fatal(err)
			}
			fmt.Fprintf(&s, "M 100644 inline %s\n", name)
			data(string(text))
		}
		if c.Tag != "" {
			fmt.Fprintf(&s, "tag %s\nfrom :%d\ntagger %s\n", c.Tag, i+1, who)
			data("Harrow Valley plan " + c.Tag + "\n")
		}
	}
	return s.String()
}

func TestGitKeepsTheLineEnds(t *testing.T) {
	dir, home := written(t), t.TempDir()
	write(t, filepath.Join(home, ".gitconfig"), "[core]\n\tautocrlf = true\n")
	runGitAs(t, home, dir, "", "checkout", "--quiet", demo.Proposal)
	got, err := os.ReadFile(filepath.Join(dir, "repeaters.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	want, err := fs.ReadFile(demo.Branch(), "repeaters.yaml")
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got, want) {
		t.Error("where the user's git turns line ends, it turned those of the demo")
	}
}

func TestTheUsersSettingsChangeNothing(t *testing.T) {
	want := listing(t, written(t))
	home := t.TempDir()
	write(t, filepath.Join(home, ".gitconfig"), `
[user]
	name = Somebody Else
	email = else@example.com
[core]
	autocrlf = true
	excludesFile = ~/ignored
[commit]
	gpgSign = true
[tag]
	gpgSign = true
[init]
	defaultBranch = trunk
`)
	write(t, filepath.Join(home, "ignored"), "*.csv\n")
	for key, value := range map[string]string{
		"HOME": home, "XDG_CONFIG_HOME": home, "TZ": "Asia/Kathmandu", "GIT_AUTHOR_NAME": "Somebody Else",
		"GIT_COMMITTER_DATE": "2001-01-01T00:00:00Z", "GIT_DIR": home,
	} {
		t.Setenv(key, value)
	}
	got := listing(t, written(t))
	if withoutIndex(t, got) != withoutIndex(t, want) {
		t.Error("the repository is another one where the user has settings of his own")
	}
}

// withoutIndex drops the text of .git/index, which holds when each file was written.
func withoutIndex(t *testing.T, listing string) string {
	t.Helper()
	before, rest, found := strings.Cut(listing, ".git/index\n")
	if !found {
		t.Fatal("the repository has no index")
	}
	_, after, _ := strings.Cut(rest, ".git/objects\n")
	return before + after
}
