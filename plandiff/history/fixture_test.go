package history

import (
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// TestMain hides the settings of whoever runs the tests from the git that they start.
func TestMain(m *testing.M) {
	home, err := os.MkdirTemp("", "history-home")
	if err != nil {
		panic(err)
	}
	for name, value := range map[string]string{"HOME": home, "XDG_CONFIG_HOME": home} {
		if err := os.Setenv(name, value); err != nil {
			panic(err)
		}
	}
	status := m.Run()
	_ = os.RemoveAll(home)
	os.Exit(status)
}

// A fixture is a repository made by the real git, with fixed people and dates.
type fixture struct {
	t   testing.TB
	dir string
	now int64 // seconds since 1970, one minute more for each commit
}

// newFixture makes an empty repository on branch main.
func newFixture(t testing.TB, options ...string) *fixture {
	t.Helper()
	return fixtureIn(t, filepath.Join(tempDir(t), "clone"), options...)
}

func fixtureIn(t testing.TB, dir string, options ...string) *fixture {
	t.Helper()
	f := &fixture{t: t, dir: dir, now: 1767225600}
	f.git(append([]string{"init", "-q", "-b", "main", f.dir}, options...)...)
	return f
}

// tempDir has no symbolic link in its path, so that it compares with Root.
func tempDir(t testing.TB) string {
	t.Helper()
	dir, err := filepath.EvalSymlinks(t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	return dir
}

func (f *fixture) at(dir string) *fixture { return &fixture{t: f.t, dir: dir, now: f.now} }

func (f *fixture) command(args ...string) *exec.Cmd {
	cmd := exec.Command("git", args...)
	if _, err := os.Stat(f.dir); err == nil {
		cmd.Dir = f.dir
	}
	date := fmt.Sprintf("%d +0100", f.now)
	cmd.Env = append(safeEnvironment(os.Environ()),
		"GIT_CONFIG_GLOBAL=/dev/null", "GIT_CONFIG_NOSYSTEM=1", "GIT_ALLOW_PROTOCOL=file",
		"GIT_NO_LAZY_FETCH=0",
		"GIT_AUTHOR_NAME=Pat Example", "GIT_AUTHOR_EMAIL=pat@example.org", "GIT_AUTHOR_DATE="+date,
		"GIT_COMMITTER_NAME=Sam Example", "GIT_COMMITTER_EMAIL=sam@example.org", "GIT_COMMITTER_DATE="+date)
	return cmd
}

// git runs the real git and returns what it wrote, without the last line end.
func (f *fixture) git(args ...string) string {
	f.t.Helper()
	return f.gitInput("", args...)
}

func (f *fixture) gitInput(input string, args ...string) string {
	f.t.Helper()
	cmd := f.command(args...)
	cmd.Stdin = strings.NewReader(input)
	var errs strings.Builder
	cmd.Stderr = &errs
	out, err := cmd.Output()
	if err != nil {
		f.t.Fatalf("git %s: %v\n%s", strings.Join(args, " "), err, errs.String())
	}
	return strings.TrimSuffix(string(out), "\n")
}

// write puts files into the work tree: path, contents, path, contents ...
func (f *fixture) write(files ...string) *fixture {
	f.t.Helper()
	for i := 0; i < len(files); i += 2 {
		path := filepath.Join(f.dir, files[i])
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			f.t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(files[i+1]), 0o644); err != nil {
			f.t.Fatal(err)
		}
	}
	return f
}

// commit records everything in the work tree and returns the hash.
func (f *fixture) commit(message string, files ...string) string {
	f.t.Helper()
	f.write(files...)
	f.now += 60
	f.git("add", "-A")
	f.git("commit", "-q", "--allow-empty", "-m", message)
	return f.git("rev-parse", "HEAD")
}

// merge joins a branch into the current one.
func (f *fixture) merge(args ...string) string {
	f.t.Helper()
	f.now += 60
	f.git(append([]string{"merge", "-q", "--no-ff", "--no-edit"}, args...)...)
	return f.git("rev-parse", "HEAD")
}

// harrow fills a repository with a small story: a plan in a subfolder, a branch
// with a slash in its name, merges, tags of both kinds and of tags, a symbolic
// link, an executable file and odd names.
func (f *fixture) harrow() *fixture {
	f.commit("Start the plan\n\nFor the valley.\n", "plans/harrow/plan.yaml", "plan: Harrow Valley\n", "README", "notes\n")
	f.git("tag", "light")
	f.commit("Add Ridge", "plans/harrow/plan.yaml", "plan: Harrow Valley\nrepeaters: {ridge: {output: 444.325}}\n")
	f.git("tag", "-a", "-m", "first edition", "v1")
	f.git("tag", "-a", "-m", "a tag of a tag", "nested", "v1")
	f.git("checkout", "-q", "-b", "feature/knob")
	f.commit("Add Knob", "plans/harrow/knob.yaml", "repeaters: {knob: {output: 146.94}}\n", "plans/ä ö \"q\"\ttab\nline.yaml", "odd: name\n")
	f.git("checkout", "-q", "main")
	f.commit("Say more", "README", "more notes\n")
	f.link("README", "plans/link.yaml")
	if err := os.Chmod(filepath.Join(f.dir, "README"), 0o755); err != nil {
		f.t.Fatal(err)
	}
	f.commit("A link, and a file that can be run")
	f.merge("feature/knob")
	f.git("checkout", "-q", "-b", "tone", "v1^{}")
	f.commit("Add a tone", "plans/harrow/plan.yaml", "plan: Harrow Valley\nrepeaters: {ridge: {output: 444.325, fm: {tone: 103.5}}}\n")
	f.git("checkout", "-q", "main")
	f.commit("Move Ridge", "plans/harrow/plan.yaml", "plan: Harrow Valley\nrepeaters: {ridge: {output: 444.350}}\n")
	f.git("merge", "-q", "--no-commit", "-s", "ours", "tone")
	f.commit("Merge by hand", "plans/harrow/plan.yaml", "plan: Harrow Valley\nrepeaters: {ridge: {output: 444.350, fm: {tone: 103.5}}}\n")
	f.commit("Other names for people", ".mailmap", "Kim Example <kim@example.org> <pat@example.org>\n")
	return f
}

func (f *fixture) link(target, path string) {
	f.t.Helper()
	if err := os.Symlink(target, filepath.Join(f.dir, path)); err != nil {
		f.t.Fatal(err)
	}
}

// open opens with everything that is at hand.
func (f *fixture) open() *Repository {
	f.t.Helper()
	r, err := Open(context.Background(), f.dir)
	if err != nil {
		f.t.Fatal(err)
	}
	f.t.Cleanup(func() { _ = r.Close() })
	return r
}

// openOnly opens with one backing and no other to fall back on.
func openOnly(t testing.TB, dir, backing string) (*Repository, error) {
	t.Helper()
	at, err := locate(dir)
	if err != nil {
		return nil, err
	}
	r := &Repository{at: at}
	switch backing {
	case "go-git":
		r.store, err = newLibraryStore(at)
	case "git":
		r.store, err = newCommandStore(at)
	}
	if err != nil {
		return nil, err
	}
	t.Cleanup(func() { _ = r.Close() })
	return r, nil
}

func mustOnly(t testing.TB, dir, backing string) *Repository {
	t.Helper()
	r, err := openOnly(t, dir, backing)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func mustResolve(t testing.TB, r *Repository, rev string) Commit {
	t.Helper()
	c, err := r.Resolve(context.Background(), rev)
	if err != nil {
		t.Fatalf("%s: Resolve(%q): %v", r.Backing(), rev, err)
	}
	return c
}

// gitAllowing is git where one exit status besides 0 is an answer too.
func (f *fixture) gitAllowing(status int, args ...string) string {
	f.t.Helper()
	out, err := f.command(args...).Output()
	var exit *exec.ExitError
	if err != nil && (!errors.As(err, &exit) || exit.ExitCode() != status) {
		f.t.Fatalf("git %s: %v", strings.Join(args, " "), err)
	}
	return strings.TrimSuffix(string(out), "\n")
}
