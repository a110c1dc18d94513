package history

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// Each kind of repository that a club or its continuous integration may have.
// reads names the backing that Open chooses; where both can read, the test
// compares them with each other and with the real git.
func kindsOfRepository() []kind {
	return []kind{
		{"plain", "what git init and git commit leave behind", "both", func(f *fixture) string { return f.harrow().dir }},
		{"packed", "after gc, objects are deltas in a pack and names in packed-refs", "both", func(f *fixture) string {
			f.harrow().git("gc", "-q", "--aggressive", "--prune=now")
			return f.dir
		}},
		{"packed and loose", "gc once, then work goes on", "both", func(f *fixture) string {
			f.harrow().git("gc", "-q")
			f.commit("After the gc", "plans/harrow/plan.yaml", "plan: Harrow Valley\n")
			f.git("tag", "-f", "light")
			return f.dir
		}},
		{"several packs, multi-pack-index, commit-graph", "what git maintenance makes", "both", func(f *fixture) string {
			f.harrow().git("repack", "-q", "-d")
			f.commit("One more pack", "plans/harrow/more.yaml", "groups: {local: {id: 99931}}\n")
			f.git("repack", "-q", "-d")
			f.git("multi-pack-index", "write")
			f.git("commit-graph", "write", "--reachable", "--changed-paths")
			return f.dir
		}},
		{"linked work tree", "git worktree add, with a branch of its own", "both", func(f *fixture) string {
			f.harrow().git("worktree", "add", "-q", "-b", "elsewhere", f.dir+"-linked", "main~1")
			return f.dir + "-linked"
		}},
		{"bare", "what a server holds", "both", func(f *fixture) string {
			f.harrow().git("clone", "-q", "--bare", f.dir, f.dir+".git")
			return f.dir + ".git"
		}},
		{"detached", "continuous integration checks out a commit, not a branch", "both", func(f *fixture) string {
			f.harrow().git("checkout", "-q", "--detach", "main~1")
			return f.dir
		}},
		{"clone", "remote branches and origin/HEAD", "both", func(f *fixture) string {
			f.harrow().git("clone", "-q", f.dir, f.dir+"-2")
			return f.dir + "-2"
		}},
		{"submodule inside", "an entry that is a commit of another repository", "both", func(f *fixture) string {
			f.harrow().git("update-index", "--add", "--cacheinfo", "160000,"+f.git("rev-parse", "v1^{}")+",vendor/maps")
			f.git("commit", "-q", "-m", "A submodule")
			return f.dir
		}},
		{"sparse checkout", "extensions.worktreeConfig, which go-git by itself refuses", "both", func(f *fixture) string {
			f.harrow().git("config", "core.repositoryformatversion", "1")
			f.git("sparse-checkout", "set", "plans")
			return f.dir
		}},
		{"a folder below the top", "commands are run from anywhere", "both", func(f *fixture) string {
			return filepath.Join(f.harrow().dir, "plans", "harrow")
		}},
		{"shared clone", "objects are borrowed from another repository", "git", func(f *fixture) string {
			f.harrow().git("clone", "-q", "--shared", f.dir, f.dir+"-2")
			return f.dir + "-2"
		}},
		{"SHA-256", "the newer object format", "git", func(f *fixture) string {
			return fixtureIn(f.t, f.dir+"-256", "--object-format=sha256").harrow().dir
		}},
	}
}

type kind struct {
	name, why, reads string
	build            func(*fixture) string
}

// A made repository stands on disk, with what the real git says of it.
type made struct {
	kind
	dir, truth string
}

func TestKindsOfRepository(t *testing.T) {
	kinds := kindsOfRepository()
	all := make([]made, len(kinds))
	tmp := tempDir(t) // outlives the subtests
	t.Run("with git", func(t *testing.T) {
		for i, k := range kinds {
			t.Run(k.name, func(t *testing.T) {
				t.Parallel()
				f := fixtureIn(t, filepath.Join(tmp, strconv.Itoa(i)))
				m := made{kind: k, dir: k.build(f)}
				m.truth = f.at(m.dir).truth()
				m.check(t)
				all[i] = m
			})
		}
	})
	t.Setenv("PATH", t.TempDir())
	for _, m := range all {
		t.Run("without git "+m.name, m.checkWithoutGit)
	}
}

func (m made) check(t *testing.T) {
	r, err := Open(context.Background(), m.dir)
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	if want := map[string]string{"both": "go-git", "git": "git"}[m.reads]; r.Backing() != want {
		t.Errorf("%s: Open chose %s, want %s", m.why, r.Backing(), want)
	}
	if got := portrait(t, mustOnly(t, m.dir, "git")); got != m.truth {
		t.Errorf("%s: git backing differs from git:\n%s", m.why, firstDifference(got, m.truth))
	}
	if m.reads == "git" {
		if _, err := openOnly(t, m.dir, "go-git"); err == nil {
			t.Errorf("%s: go-git was trusted with it", m.why)
		}
		return
	}
	if got := portrait(t, mustOnly(t, m.dir, "go-git")); got != m.truth {
		t.Errorf("%s: go-git backing differs from git:\n%s", m.why, firstDifference(got, m.truth))
	}
}

// Without git on the PATH, what go-git reads is still read, and the rest is
// answered with what to install.
func (m made) checkWithoutGit(t *testing.T) {
	r, err := Open(context.Background(), m.dir)
	if m.reads == "git" {
		if !errors.Is(err, ErrNeedsGit) || !strings.Contains(err.Error(), "install git") {
			t.Errorf("error = %v, want the advice to install git", err)
		}
		return
	}
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	if got := portrait(t, r); got != m.truth {
		t.Errorf("differs from git:\n%s", firstDifference(got, m.truth))
	}
	if r.Backing() != "go-git" {
		t.Errorf("Backing = %s", r.Backing())
	}
}

// A hook runs with GIT_DIR and more in its environment; a cron job without HOME.
func TestSurroundings(t *testing.T) {
	other := newFixture(t)
	other.commit("Not this one", "plan.yaml", "plan: Other\n")
	f := newFixture(t).harrow()
	truth := f.truth()
	for name, value := range map[string]string{
		"GIT_DIR": filepath.Join(other.dir, ".git"), "GIT_WORK_TREE": other.dir, "GIT_OBJECT_DIRECTORY": filepath.Join(other.dir, ".git/objects"),
		"GIT_INDEX_FILE": "/nowhere", "GIT_NAMESPACE": "x", "GIT_TRACE": "2", "GIT_CONFIG_COUNT": "1", "GIT_CONFIG_KEY_0": "log.showRoot",
		"GIT_CONFIG_VALUE_0": "false", "LC_ALL": "de_DE.UTF-8",
	} {
		t.Setenv(name, value)
	}
	for _, name := range []string{"HOME", "XDG_CONFIG_HOME"} {
		t.Setenv(name, "")
		if err := os.Unsetenv(name); err != nil {
			t.Fatal(err)
		}
	}
	for _, backing := range []string{"go-git", "git"} {
		r := mustOnly(t, f.dir, backing)
		if got := portrait(t, r); got != truth {
			t.Errorf("%s: differs from git:\n%s", backing, firstDifference(got, truth))
		}
	}
}
