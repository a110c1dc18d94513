package history

import (
	"context"
	"errors"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestMergeBase(t *testing.T) {
	cases := []struct {
		name, why string
		build     func(f *fixture)
		a, b      string
		want      string // a revision, "" for none
	}{
		{"a branch", "the common case: where feature left main", func(f *fixture) {
			f.commit("base")
			f.git("tag", "base")
			f.git("checkout", "-q", "-b", "feature")
			f.commit("on feature")
			f.git("checkout", "-q", "main")
			f.commit("on main")
		}, "main", "feature", "base"},
		{"an ancestor", "a branch that main has not left behind", func(f *fixture) {
			f.commit("one")
			f.commit("two")
		}, "main", "main~1", "main~1"},
		{"itself", "a commit is its own merge base", func(f *fixture) { f.commit("one") }, "main", "main", "main"},
		{"unrelated", "two histories without a common commit", func(f *fixture) {
			f.commit("one")
			f.git("checkout", "-q", "--orphan", "other")
			f.commit("another start")
		}, "main", "other", ""},
		{"criss-cross", "two best ancestors: the one committed last is taken", crissCross, "main", "other", "right"},
		{"a wrong clock", "y was made after x by a machine whose clock was slow", wrongClock, "p", "q", "y"},
		{"octopus", "a merge of three", func(f *fixture) {
			f.commit("base")
			f.git("tag", "base")
			for _, branch := range []string{"b1", "b2"} {
				f.git("checkout", "-q", "-b", branch, "base")
				f.commit(branch, branch, branch)
			}
			f.git("checkout", "-q", "main")
			f.commit("on main", "m", "m")
			f.merge("b1", "b2")
		}, "main", "b2", "b2"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			f := newFixture(t)
			c.build(f)
			for _, backing := range []string{"go-git", "git"} {
				r := mustOnly(t, f.dir, backing)
				for _, pair := range [][2]string{{c.a, c.b}, {c.b, c.a}} {
					got, ok, err := r.MergeBase(context.Background(), mustResolve(t, r, pair[0]), mustResolve(t, r, pair[1]))
					if err != nil {
						t.Fatal(err)
					}
					want := ""
					if c.want != "" {
						want = f.git("rev-parse", c.want+"^{}")
					}
					if ok != (want != "") || got.Hash != want {
						t.Errorf("%s: %s: MergeBase(%v) = %q %q, want %q", backing, c.why, pair, got.Hash, got.Subject, want)
					}
				}
			}
		})
	}
}

// wrongClock has x and its child y, with y dated earlier; p and q reach both.
func wrongClock(f *fixture) {
	start := f.now
	f.commit("x")
	f.now = start - 10_000
	f.git("checkout", "-q", "-b", "y")
	f.commit("y", "y", "y")
	f.now = start + 10_000
	for _, branch := range []string{"p", "q"} {
		f.git("checkout", "-q", "-b", branch, "main")
		f.commit(branch, branch, branch)
		f.merge("y")
	}
}

// crissCross merges left and right into both main and other.
func crissCross(f *fixture) {
	f.commit("base")
	f.git("checkout", "-q", "-b", "left")
	f.commit("left", "l", "l")
	f.git("checkout", "-q", "-b", "right", "main")
	f.commit("right", "r", "r")
	f.git("checkout", "-q", "-b", "other", "left")
	f.merge("right")
	f.git("checkout", "-q", "main")
	f.git("reset", "-q", "--hard", "right")
	f.merge("left")
}

// In a shallow clone, no common ancestor may mean that it was not fetched.
func TestMergeBaseInShallowClone(t *testing.T) {
	f := newFixture(t)
	f.commit("base")
	f.git("checkout", "-q", "-b", "feature")
	f.commit("on feature", "f", "f")
	f.git("checkout", "-q", "main")
	f.commit("on main", "m", "m")
	f.git("clone", "-q", "--depth=1", "--no-single-branch", "file://"+f.dir, f.dir+"-2")
	for _, backing := range []string{"go-git", "git"} {
		r := mustOnly(t, f.dir+"-2", backing)
		_, _, err := r.MergeBase(context.Background(), mustResolve(t, r, "main"), mustResolve(t, r, "origin/feature"))
		if !errors.Is(err, ErrShallow) || !strings.Contains(err.Error(), "fetch-depth: 0") {
			t.Errorf("%s: error = %v, want ErrShallow with the line to change", backing, err)
		}
	}
}

// All best common ancestors agree with the real git, whatever the shape; and
// with their definition, also where clocks are wrong.
func TestMergeBasesAgreeWithGit(t *testing.T) {
	f := newStoryFixture(t)
	rapid.Check(t, func(rt *rapid.T) {
		s := drawStory(rt, rapid.Bool().Draw(rt, "skewed"))
		ids := f.tell(s)
		a, b := rapid.IntRange(0, len(ids)-1).Draw(rt, "a"), rapid.IntRange(0, len(ids)-1).Draw(rt, "b")
		want := s.bestCommonAncestors(ids, a, b)
		real := strings.Fields(f.gitAllowing(1, "merge-base", "--all", ids[a], ids[b]))
		slices.Sort(real)
		if !slices.Equal(real, want) {
			rt.Fatalf("git finds %v, by definition %v", real, want)
		}
		for _, r := range f.both {
			bases, err := r.mergeBases(context.Background(), f.commitOf(r, ids[a]), f.commitOf(r, ids[b]))
			if err != nil {
				rt.Fatal(err)
			}
			if got := sortedHashes(bases); !slices.Equal(got, want) {
				rt.Fatalf("%s: got %v, want %v", r.Backing(), got, want)
			}
		}
	})
}

// bestCommonAncestors is the definition, taken literally.
func (s story) bestCommonAncestors(ids []string, a, b int) []string {
	var reach func(i int, seen map[int]bool)
	reach = func(i int, seen map[int]bool) {
		if !seen[i] {
			seen[i] = true
			for _, p := range s.commits[i].parents {
				reach(p, seen)
			}
		}
	}
	from := func(i int) map[int]bool {
		seen := make(map[int]bool)
		reach(i, seen)
		return seen
	}
	ofA, ofB := from(a), from(b)
	var best []string
	for i := range ids {
		if !ofA[i] || !ofB[i] {
			continue
		}
		dominated := false
		for j := range ids {
			if j != i && ofA[j] && ofB[j] && from(j)[i] {
				dominated = true
			}
		}
		if !dominated {
			best = append(best, ids[i])
		}
	}
	slices.Sort(best)
	return best
}
