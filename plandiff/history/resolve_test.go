package history

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// What a person may type, held against "git rev-parse REV^{commit}" (gitrevisions).
func TestResolve(t *testing.T) {
	f := newFixture(t).harrow()
	tip := f.git("rev-parse", "main")
	f.git("update-ref", "refs/remotes/origin/main", "main~1")
	f.git("symbolic-ref", "refs/remotes/origin/HEAD", "refs/remotes/origin/main")
	f.git("tag", "feature/knob", "main") // a tag and a branch of one name
	f.git("branch", tip[:7], "main~2")   // a branch that looks like a short hash
	f.git("branch", "deadbee", "main~1")
	f.git("update-ref", "ORIG_HEAD", "main~2")
	other := f.git("rev-parse", "v1^{}")
	for _, rev := range []string{
		"HEAD", "@", "main", "heads/main", "refs/heads/main", "origin/main", "origin", "remotes/origin/main", "ORIG_HEAD",
		"light", "v1", "nested", "tags/v1", "refs/tags/nested", "feature/knob", "heads/feature/knob",
		"HEAD~", "HEAD~1", "HEAD~2", "HEAD^", "HEAD^^", "HEAD^0", "HEAD~0", "main~1^2", "main~1^2~1", "@~1", "v1^{}", "v1^{commit}~1", "nested~1", "nested^{}^",
		tip, strings.ToUpper(tip), tip[:12], other[:8], strings.ToUpper(other[:9]), other[:5] + "~1", tip[:7], "deadbee",
	} {
		want := f.git("rev-parse", "--verify", rev+"^{commit}")
		for _, backing := range []string{"go-git", "git"} {
			if got := mustResolve(t, mustOnly(t, f.dir, backing), rev); got.Hash != want {
				t.Errorf("%s: Resolve(%q) = %s %q, git says %s", backing, rev, got.Hash, got.Subject, want)
			}
		}
	}
}

func TestResolveRefuses(t *testing.T) {
	f := newFixture(t).harrow()
	f.git("tag", "a-tree", "HEAD^{tree}")
	f.git("tag", "-a", "-m", "names a file", "a-blob", "HEAD:README")
	f.git("branch", "mainline", "main")
	cases := []struct{ rev, why, want string }{
		{"", "nothing typed", "the revision is empty"},
		{"main..v1", "two commits", "it is a range"},
		{"main...v1", "three dots", "it is a range"},
		{"HEAD:README", "go-git answers the commit", "a colon picks a file"},
		{":/Ridge", "search by message", "a colon"},
		{"main@{1}", "go-git answers main", "depends on this one clone"},
		{"main@{upstream}", "go-git answers main", "depends on this one clone"},
		{"-main", "could be taken for an option", "begins with a hyphen"},
		{"--all", "could be taken for an option", "begins with a hyphen"},
		{"^main", "an exclusion", "not a name that a branch"},
		{"~1", "no name", "not a name that a branch"},
		{"main^{tree}", "not a commit", "only ~ and ^"},
		{"main^{/Ridge}", "search by message", "only ~ and ^"},
		{"main~x", "no number", "only ~ and ^"},
		{"main~99999999999999999999", "a number beyond any history", "only ~ and ^"},
		{"a b", "a space", "not a name that a branch"},
		{"main\n", "a line end would confuse the conversation with git", "not a name that a branch"},
		{"main\x00", "a zero byte", "not a name that a branch"},
		{"../HEAD", "a path", "it is a range"},
		{"heads//main", "an empty part", "not a name that a branch"},
		{"/main", "an absolute path", "not a name that a branch"},
		{"config", "a file in the git folder", `there is no branch, tag or commit "config"`},
		{"main~50", "beyond the first commit", "is the first commit"},
		{"main^2", "not a merge", "has only 1 parent"},
		{"main~1^3", "go-git answers the second parent", "has only 2 parent"},
		{"mian", "a slip", "nearest: main"},
		{"feature/knop", "a slip", "nearest: feature/knob"},
		{"mainlin", "two are near", "nearest: mainline"},
		{"knob", "the part after the slash", "nearest: feature/knob"},
		{"zzzzzzzz", "nothing is near", `there is no branch, tag or commit "zzzzzzzz" here`},
		{"abc", "too short for a hash", "there is no branch"},
		{"0123456789012345678901234567890123456789", "a hash that is not here", "there is no branch, tag or commit"},
		{strings.Repeat("0", 64), "a hash of the other kind", "there is no branch, tag or commit"},
		{"a-tree", "a tag on a folder", "stands for a tree"},
		{"a-blob", "a tag on a file", "stands for a blob"},
	}
	for _, backing := range []string{"go-git", "git"} {
		r := mustOnly(t, f.dir, backing)
		for _, c := range cases {
			_, err := r.Resolve(context.Background(), c.rev)
			if !errors.Is(err, ErrUnknownRevision) || !strings.Contains(err.Error(), c.want) {
				t.Errorf("%s: Resolve(%q), %s: error = %v, want one with %q", backing, c.rev, c.why, err, c.want)
			}
			if r.IsRevision(context.Background(), c.rev) {
				t.Errorf("%s: %q counts as a revision", backing, c.rev)
			}
		}
	}
}

// Two commits whose hashes begin with the same four digits.
func TestResolveAmbiguousHash(t *testing.T) {
	f := newStoryFixture(t)
	var s story
	for range 700 { // by the birthday bound, one of 65,536 fourfold prefixes is almost surely shared
		s.commits = append(s.commits, chapter{date: 1767225600})
	}
	seen := make(map[string]bool)
	for _, id := range f.tell(s) {
		if !seen[id[:4]] {
			seen[id[:4]] = true
			continue
		}
		for _, r := range f.both {
			if _, err := r.Resolve(context.Background(), id[:4]); err == nil || !strings.Contains(err.Error(), "write more digits") {
				t.Errorf("%s: error = %v, want the advice to write more digits", r.Backing(), err)
			}
			if c := mustResolve(t, r, id[:20]); c.Hash != id {
				t.Errorf("%s: 20 digits give %s, want %s", r.Backing(), c.Hash, id)
			}
		}
		return
	}
	t.Fatal("no two commits share four digits; the dates above must be changed")
}

// A branch that continuous integration did not make, but its remote has.
func TestResolveRemoteBranch(t *testing.T) {
	f := newFixture(t).harrow()
	f.git("clone", "-q", f.dir, f.dir+"-2")
	c := f.at(f.dir + "-2")
	c.git("checkout", "-q", "--detach")
	c.git("branch", "-D", "-q", "main")
	for _, backing := range []string{"go-git", "git"} {
		r := mustOnly(t, c.dir, backing)
		if got, want := mustResolve(t, r, "feature/knob").Hash, f.git("rev-parse", "feature/knob"); got != want {
			t.Errorf("%s: feature/knob = %s, want origin's %s", backing, got, want)
		}
	}
	c.git("remote", "add", "second", f.dir)
	c.git("update-ref", "refs/remotes/second/feature/knob", "HEAD")
	for _, backing := range []string{"go-git", "git"} {
		_, err := mustOnly(t, c.dir, backing).Resolve(context.Background(), "feature/knob")
		if err == nil || !strings.Contains(err.Error(), "nearest: origin/feature/knob, second/feature/knob") {
			t.Errorf("%s: two remotes have it, and the error is %v", backing, err)
		}
	}
}

func TestHead(t *testing.T) {
	f := newFixture(t)
	check := func(why string, want Head) {
		t.Helper()
		for _, backing := range []string{"go-git", "git"} {
			got, err := mustOnly(t, f.dir, backing).Head(context.Background())
			if err != nil || got != want {
				t.Errorf("%s, %s: Head = %+v, %v, want %+v", backing, why, got, err, want)
			}
		}
	}
	check("no commits yet", Head{Branch: "main", Unborn: true})
	for _, backing := range []string{"go-git", "git"} {
		_, err := mustOnly(t, f.dir, backing).Resolve(context.Background(), "HEAD~1")
		if !errors.Is(err, ErrUnborn) || !strings.Contains(err.Error(), "git commit") {
			t.Errorf("%s: error = %v, want ErrUnborn with what to do", backing, err)
		}
	}
	f.commit("one")
	check("on a branch", Head{Branch: "main"})
	f.git("checkout", "-q", "-b", "feature/x")
	check("a slash in the name", Head{Branch: "feature/x"})
	f.git("checkout", "-q", "--detach")
	check("detached", Head{Detached: true})
	f.git("checkout", "-q", "--orphan", "fresh")
	check("a new start beside other branches", Head{Branch: "fresh", Unborn: true})
}

func TestShallowClone(t *testing.T) {
	f := newFixture(t).harrow()
	tip := f.git("rev-parse", "HEAD")
	f.git("clone", "-q", "--depth=1", "file://"+f.dir, f.dir+"-2")
	dir := f.dir + "-2"
	for _, backing := range []string{"go-git", "git"} {
		r := mustOnly(t, dir, backing)
		c := mustResolve(t, r, "HEAD")
		if c.Hash != tip || !c.Truncated || c.Parents != nil || !r.Shallow() {
			t.Errorf("%s: HEAD = %+v, Shallow %v", backing, c, r.Shallow())
		}
		for rev, want := range map[string]error{"HEAD~1": ErrShallow, "v1": ErrUnknownRevision, f.git("rev-parse", "HEAD~1"): ErrUnknownRevision} {
			_, err := r.Resolve(context.Background(), rev)
			if !errors.Is(err, want) || !strings.Contains(err.Error(), "fetch-depth: 0") {
				t.Errorf("%s: Resolve(%q): error = %v, want %v and the line to change", backing, rev, err, want)
			}
		}
		files := 0
		err := r.Walk(context.Background(), Commit{}, c, "", func(c Commit, changes []BlobChange) error {
			files += len(changes)
			if !c.Truncated {
				t.Errorf("%s: the edge of the clone is not marked", backing)
			}
			return nil
		})
		if err != nil || files != 6 {
			t.Errorf("%s: Walk gave %d files, %v, want the 6 that are there", backing, files, err)
		}
	}
}

func TestOpenErrors(t *testing.T) {
	dir := tempDir(t)
	broken := filepath.Join(dir, "broken")
	for path, text := range map[string]string{
		"plain/plan.yaml":         "plan: x\n",
		"broken/moved/.git":       "gitdir: /nowhere/at/all\n",
		"broken/strange/.git":     "what is this\n",
		"half/.git/HEAD":          "ref: refs/heads/main\n",
		"half/.git/objects/.keep": "",
	} {
		newPath := filepath.Join(dir, path)
		if err := os.MkdirAll(filepath.Dir(newPath), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(newPath, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	cases := []struct{ dir, why, want string }{
		{filepath.Join(dir, "plain"), "no repository", "git init"},
		{filepath.Join(dir, "half"), "a .git without refs is none, and git goes on upwards", "git init"},
		{filepath.Join(dir, "missing"), "no such folder", "cannot look for a git repository"},
		{filepath.Join(dir, "plain", "plan.yaml"), "a file", "it is not a folder"},
		{filepath.Join(broken, "moved"), "a work tree whose repository was moved", "git worktree repair"},
		{filepath.Join(broken, "strange"), "a .git of unknown form", "does not say where its repository is"},
	}
	for _, c := range cases {
		_, err := Open(context.Background(), c.dir)
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: error = %v, want one with %q", c.why, err, c.want)
		}
	}
	if _, err := Open(context.Background(), filepath.Join(dir, "plain")); !errors.Is(err, ErrNoRepository) {
		t.Errorf("error = %v, want ErrNoRepository", err)
	}
}

func TestWhere(t *testing.T) {
	f := newFixture(t).harrow()
	f.git("clone", "-q", "--bare", f.dir, f.dir+".git")
	f.git("worktree", "add", "-q", f.dir+"-linked", "v1")
	if err := os.Symlink(filepath.Join(f.dir, "plans"), f.dir+"-link"); err != nil {
		t.Fatal(err)
	}
	cases := []struct{ dir, why, root, prefix string }{
		{f.dir, "the top", f.dir, ""},
		{f.dir + "/plans/harrow", "a plan in a subfolder", f.dir, "plans/harrow"},
		{f.dir + "-link/harrow", "by way of a symbolic link", f.dir, "plans/harrow"},
		{f.dir + "-linked/plans", "a linked work tree", f.dir + "-linked", "plans"},
		{f.dir + ".git", "bare", "", ""},
		{f.dir + ".git/objects", "inside a bare repository", "", ""},
		{f.dir + "/.git", "the git folder itself", "", ""},
	}
	for _, c := range cases {
		r, err := Open(context.Background(), c.dir)
		if err != nil {
			t.Fatalf("%s: %v", c.why, err)
		}
		if r.Root() != c.root || r.Prefix() != c.prefix || r.Bare() != (c.root == "") {
			t.Errorf("%s: Root %q, Prefix %q, Bare %v; want %q, %q", c.why, r.Root(), r.Prefix(), r.Bare(), c.root, c.prefix)
		}
		mustResolve(t, r, "main")
		_ = r.Close()
	}
}
