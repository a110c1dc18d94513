//go:build unix

package history

import (
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"
)

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
		n, err := strconv.Atoi(pid)
		if err != nil {
			t.Fatal(err)
		}
		if err := syscall.Kill(n, 0); err == nil {
			t.Errorf("process %d is still running", n)
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
