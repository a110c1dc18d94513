package history

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// A repository may name programs in its configuration, and hooks and attributes
// beside it. None of them may run, whatever is asked.
func TestRepositoryRunsNothing(t *testing.T) {
	f := newFixture(t).harrow()
	want := f.truth()
	marker := filepath.Join(tempDir(t), "ran")
	script := filepath.Join(f.dir, ".git", "evil.sh")
	writeProgram(t, script, "#!/bin/sh\necho \"$0 $*\" >> "+marker+"\ncat\n")
	config := "\n[alias]\n"
	for _, command := range []string{"log", "cat-file", "for-each-ref", "rev-parse", "symbolic-ref"} {
		config += "\t" + command + " = !" + script + "\n"
	}
	config += "[core]\n\tfsmonitor = " + script + "\n\tpager = " + script + "\n\tsshCommand = " + script + "\n\teditor = " + script +
		"\n\taskPass = " + script + "\n\tgitProxy = " + script + "\n\talternateRefsCommand = " + script + "\n\thooksPath = " + filepath.Join(f.dir, ".git", "evil-hooks") + "\n" +
		"[diff]\n\texternal = " + script + "\n\torderFile = /dev/zero\n\trenames = copies\n\trelative = true\n\tignoreSubmodules = all\n\tnoprefix = true\n" +
		"[diff \"evil\"]\n\tcommand = " + script + "\n\ttextconv = " + script + "\n" +
		"[filter \"evil\"]\n\tsmudge = " + script + "\n\tclean = " + script + "\n\tprocess = " + script + "\n" +
		"[gpg]\n\tprogram = " + script + "\n[gpg \"ssh\"]\n\tprogram = " + script + "\n[credential]\n\thelper = !" + script + "\n" +
		"[pager]\n\tlog = " + script + "\n\tcat-file = " + script + "\n" +
		"[log]\n\tshowSignature = true\n\tshowRoot = false\n\tmailmap = true\n\tdate = relative\n\tdecorate = full\n\tfollow = true\n\tdiffMerges = first-parent\n\tabbrevCommit = true\n" +
		"[color]\n\tui = always\n[format]\n\tpretty = oneline\n[i18n]\n\tlogOutputEncoding = UTF-16\n[trace2]\n\tnormalTarget = 2\n"
	appendFile(t, filepath.Join(f.dir, ".git", "config"), config)
	appendFile(t, filepath.Join(f.dir, ".git", "info", "attributes"), "* diff=evil filter=evil\n")
	for _, hook := range []string{"reference-transaction", "post-checkout", "fsmonitor-watchman", "post-index-change"} {
		for _, dir := range []string{"hooks", "evil-hooks"} {
			writeProgram(t, filepath.Join(f.dir, ".git", dir, hook), "#!/bin/sh\necho hook >> "+marker+"\n")
		}
	}
	for _, backing := range []string{"go-git", "git"} {
		if got := portrait(t, mustOnly(t, f.dir, backing)); got != want {
			t.Errorf("%s: the configuration changed the answer:\n%s", backing, firstDifference(got, want))
		}
	}
	if ran, err := os.ReadFile(marker); err == nil {
		t.Errorf("the repository ran a program:\n%s", ran)
	}
}

// A signed commit with log.showSignature would start the program that checks signatures.
func TestSignedCommitRunsNothing(t *testing.T) {
	f := newFixture(t)
	marker := filepath.Join(tempDir(t), "ran")
	script := filepath.Join(f.dir, ".git", "evil.sh")
	writeProgram(t, script, "#!/bin/sh\necho ran >> "+marker+"\n")
	f.commit("first", "plan.yaml", "plan: x\n")
	raw := f.git("cat-file", "commit", "HEAD")
	head, message, _ := strings.Cut(raw, "\n\n")
	signed := head + "\ngpgsig -----BEGIN PGP SIGNATURE-----\n \n tree 0000\n parent of nothing\n -----END PGP SIGNATURE-----\n\n" + message + "\n"
	id := f.gitInput(signed, "hash-object", "-t", "commit", "-w", "--stdin")
	f.git("update-ref", "refs/heads/main", id)
	appendFile(t, filepath.Join(f.dir, ".git", "config"), "[log]\n\tshowSignature = true\n[gpg]\n\tprogram = "+script+"\n")
	for _, backing := range []string{"go-git", "git"} {
		r := mustOnly(t, f.dir, backing)
		c := mustResolve(t, r, "main")
		if c.Subject != "first" || len(c.Parents) != 0 || told(t, r, Commit{}, c, "") == "" {
			t.Errorf("%s: the signature was read as something else: %+v", backing, c)
		}
	}
	if _, err := os.Stat(marker); err == nil {
		t.Error("the signature checker of the repository was run")
	}
}

func writeProgram(t *testing.T, path, text string) {
	t.Helper()
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, []byte(text), 0o755); err != nil {
		t.Fatal(err)
	}
}

func appendFile(t *testing.T, path, text string) {
	t.Helper()
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		t.Fatal(err)
	}
	old, err := os.ReadFile(path)
	if err != nil && !os.IsNotExist(err) {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, append(old, text...), 0o644); err != nil {
		t.Fatal(err)
	}
}

// A partial clone has left objects out. They are not fetched behind the user's
// back, and the message says what to do.
func TestPartialClone(t *testing.T) {
	f := newFixture(t).harrow()
	f.git("config", "uploadpack.allowFilter", "true")
	dir := f.dir + "-2"
	f.git("clone", "-q", "--filter=blob:none", "--no-checkout", "file://"+f.dir, dir)
	packs := countFiles(t, filepath.Join(dir, ".git", "objects", "pack"))
	check := func(r *Repository) {
		t.Helper()
		c := mustResolve(t, r, "HEAD")
		files, err := r.Tree(context.Background(), c, "plans/harrow")
		if err != nil {
			t.Fatalf("%s: the folders are there: %v", r.Backing(), err)
		}
		_, err = files.Open("plan.yaml")
		if !errors.Is(err, ErrMissing) || !strings.Contains(err.Error(), "clone again without --filter") {
			t.Errorf("%s: error = %v, want ErrMissing with what to do", r.Backing(), err)
		}
		if story := told(t, r, Commit{}, c, ""); !strings.Contains(story, "plans/harrow/plan.yaml") {
			t.Errorf("%s: history without contents is there, but Walk gave\n%s", r.Backing(), story)
		}
	}
	check(mustOnly(t, dir, "go-git"))
	check(mustOnly(t, dir, "git"))
	check(f.at(dir).open())
	if now := countFiles(t, filepath.Join(dir, ".git", "objects", "pack")); now != packs {
		t.Errorf("%d files in objects/pack, was %d: something was fetched", now, packs)
	}
}

func countFiles(t *testing.T, dir string) int {
	t.Helper()
	list, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	return len(list)
}

func TestDamagedRepository(t *testing.T) {
	cases := []struct {
		name, why string
		harm      func(t *testing.T, object string)
		kind      error
		want      string
	}{
		{"missing", "an object file was deleted", func(t *testing.T, object string) {
			if err := os.Remove(object); err != nil {
				t.Fatal(err)
			}
		}, ErrMissing, "git fsck"},
		{"cut short", "a crash while the disk was full", func(t *testing.T, object string) { rewrite(t, object, func(b []byte) []byte { return b[:len(b)-8] }) }, ErrDamaged, "git fsck"},
		{"flipped", "bits that went bad", func(t *testing.T, object string) {
			rewrite(t, object, func(b []byte) []byte { b[len(b)/2] ^= 0xff; b[len(b)-1] ^= 0xff; return b })
		}, ErrDamaged, "git fsck"},
		{"empty", "a crash before the data was written", func(t *testing.T, object string) { rewrite(t, object, func([]byte) []byte { return nil }) }, nil, "git fsck"},
	}
	for _, c := range cases {
		for _, what := range []string{"HEAD:plan.yaml", "HEAD^{tree}", "HEAD"} {
			f := newFixture(t)
			f.commit("one", "plan.yaml", strings.Repeat("plan: Harrow Valley\n", 50))
			id := f.git("rev-parse", what)
			c.harm(t, filepath.Join(f.dir, ".git", "objects", id[:2], id[2:]))
			for _, backing := range []string{"go-git", "git", "both"} {
				r := mustOpen(t, f, backing)
				err := readEverything(r)
				if err == nil || c.kind != nil && !errors.Is(err, c.kind) || !strings.Contains(err.Error(), c.want) {
					t.Errorf("%s, %s (%s), with %s: error = %v, want %v and what to do", what, c.name, c.why, backing, err, c.kind)
				}
			}
		}
	}
}

func mustOpen(t *testing.T, f *fixture, backing string) *Repository {
	t.Helper()
	if backing == "both" {
		return f.open()
	}
	return mustOnly(t, f.dir, backing)
}

func readEverything(r *Repository) error {
	ctx := context.Background()
	c, err := r.Resolve(ctx, "main")
	if err != nil {
		return err
	}
	files, err := r.Tree(ctx, c, "")
	if err != nil {
		return err
	}
	_, err = fs.ReadFile(files, "plan.yaml")
	return err
}

func rewrite(t *testing.T, path string, change func([]byte) []byte) {
	t.Helper()
	old, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.Chmod(path, 0o644); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, change(old), 0o644); err != nil {
		t.Fatal(err)
	}
}

// What go-git does not find is asked of git, which may: here the objects moved
// into another repository after opening.
func TestFallsBackToGit(t *testing.T) {
	f := newFixture(t).harrow()
	r := f.open()
	if r.Backing() != "go-git" {
		t.Fatalf("Backing = %s", r.Backing())
	}
	objects := filepath.Join(f.dir, ".git", "objects")
	if err := os.Rename(objects, f.dir+"-objects"); err != nil {
		t.Fatal(err)
	}
	appendFile(t, filepath.Join(objects, "info", "alternates"), f.dir+"-objects\n")
	if got, want := portrait(t, r), f.truth(); got != want {
		t.Errorf("after the fall: %s", firstDifference(got, want))
	}
	if r.Backing() != "git" {
		t.Errorf("Backing = %s, want git", r.Backing())
	}
}

// fakeGit puts a program in front of the real git.
func fakeGit(t *testing.T, script string) {
	t.Helper()
	real, err := exec.LookPath("git")
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	writeProgram(t, filepath.Join(dir, "git"), "#!/bin/sh\nREAL="+real+"\n"+script)
	t.Setenv("PATH", dir+string(os.PathListSeparator)+os.Getenv("PATH"))
}

// git has a switch for its own tests that makes every repository another user's.
func TestForeignOwner(t *testing.T) {
	f := newFixture(t).harrow()
	f.git("clone", "-q", "--shared", f.dir, f.dir+"-2")
	fakeGit(t, "GIT_TEST_ASSUME_DIFFERENT_OWNER=1 exec $REAL \"$@\"\n")
	_, err := Open(context.Background(), f.dir+"-2")
	if err == nil || !strings.Contains(err.Error(), "git config --global --add safe.directory '"+f.dir+"-2'") {
		t.Errorf("error = %v, want the command that allows it", err)
	}
	r := f.open() // go-git reads data only, so the owner does not matter
	if story := told(t, r, Commit{}, mustResolve(t, r, "HEAD"), ""); story == "" || r.Backing() != "go-git" {
		t.Errorf("Backing = %s, Walk gave %d bytes; want go-git to go on", r.Backing(), len(story))
	}
}

// Formats of the future, and what git says of them, are passed on with advice.
func TestTooNewForEither(t *testing.T) {
	f := newFixture(t).harrow()
	f.git("config", "core.repositoryformatversion", "1")
	f.git("config", "extensions.somethingNew", "true")
	_, err := Open(context.Background(), f.dir)
	if err == nil || !strings.Contains(err.Error(), "update git") {
		t.Errorf("error = %v, want the advice to update git", err)
	}
	t.Setenv("PATH", t.TempDir())
	_, err = Open(context.Background(), f.dir)
	if !errors.Is(err, ErrNeedsGit) || !strings.Contains(err.Error(), "somethingNew") {
		t.Errorf("without git: error = %v, want ErrNeedsGit and the extension's name", err)
	}
}

// A git that hangs ends when the context does, in each of its uses.
func TestCancelStopsGit(t *testing.T) {
	f := newFixture(t).harrow()
	r := mustOnly(t, f.dir, "git")
	c := mustResolve(t, r, "HEAD")
	blob := f.git("rev-parse", "HEAD:README")
	pids := filepath.Join(t.TempDir(), "pids")
	fakeGit(t, "echo $$ >> "+pids+"\nexec sleep 100\n")
	slow := mustOnly(t, f.dir, "git")
	uses := map[string]func(context.Context) error{
		"Resolve":  func(ctx context.Context) error { _, err := slow.Resolve(ctx, "HEAD"); return err },
		"Blob":     func(ctx context.Context) error { _, err := slow.Blob(ctx, blob); return err },
		"BlobSize": func(ctx context.Context) error { _, err := slow.BlobSize(ctx, blob); return err },
		"Walk": func(ctx context.Context) error {
			return slow.Walk(ctx, Commit{}, c, "", func(Commit, []BlobChange) error { return nil })
		},
	}
	for name, use := range uses {
		ctx, cancel := context.WithTimeout(context.Background(), 100*time.Millisecond)
		begin := time.Now()
		err := use(ctx)
		cancel()
		if !errors.Is(err, context.DeadlineExceeded) {
			t.Errorf("%s: error = %v, want the context's", name, err)
		}
		if took := time.Since(begin); took > 20*time.Second {
			t.Errorf("%s: returned after %v", name, took)
		}
	}
	text, err := os.ReadFile(pids)
	if err != nil {
		t.Fatal(err)
	}
	for _, pid := range strings.Fields(string(text)) {
		if _, err := os.Stat("/proc/" + pid); err == nil {
			t.Errorf("process %s is still running", pid)
		}
	}
	if len(strings.Fields(string(text))) < len(uses) {
		t.Errorf("only %q were started", text)
	}
}

// After a cancelled question the same repository answers the next one.
func TestCancelIsForgotten(t *testing.T) {
	f := newFixture(t).harrow()
	for _, backing := range []string{"go-git", "git"} {
		r := mustOnly(t, f.dir, backing)
		c := mustResolve(t, r, "HEAD")
		cancelled, cancel := context.WithCancel(context.Background())
		cancel()
		if _, err := r.Blob(cancelled, f.git("rev-parse", "HEAD:README")); !errors.Is(err, context.Canceled) {
			t.Errorf("%s: Blob: error = %v", backing, err)
		}
		if _, err := r.Resolve(cancelled, "HEAD"); !errors.Is(err, context.Canceled) {
			t.Errorf("%s: Resolve: error = %v", backing, err)
		}
		err := r.Walk(cancelled, Commit{}, c, "", func(Commit, []BlobChange) error { return nil })
		if !errors.Is(err, context.Canceled) {
			t.Errorf("%s: Walk: error = %v", backing, err)
		}
		if story := told(t, r, Commit{}, c, ""); story == "" {
			t.Errorf("%s: nothing came afterwards", backing)
		}
	}
}

// git's answers are not trusted to have the form that was agreed on.
func TestStrangeGit(t *testing.T) {
	f := newFixture(t).harrow()
	f.git("clone", "-q", "--shared", f.dir, f.dir+"-2")
	for _, script := range []string{"exit 0\n", "echo nonsense\n", "echo fatal: out of luck >&2; exit 128\n", "yes | head -c 100000\n", "kill -9 $$\n"} {
		t.Run(script, func(t *testing.T) {
			fakeGit(t, script)
			r, err := Open(context.Background(), f.dir+"-2")
			if err == nil {
				defer r.Close()
				_, err = r.Resolve(context.Background(), "HEAD")
			}
			if err == nil {
				t.Error("an answer was believed")
			}
			if script == "echo fatal: out of luck >&2; exit 128\n" && !strings.Contains(fmt.Sprint(err), "out of luck") {
				t.Errorf("error = %v, want git's own words", err)
			}
		})
	}
}
