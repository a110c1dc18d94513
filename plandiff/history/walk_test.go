package history

import (
	"context"
	"fmt"
	"io/fs"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// told writes down what Walk tells in the form of "git log --raw", a line a file.
func told(t testing.TB, r *Repository, from, to Commit, dir string) string {
	t.Helper()
	var b strings.Builder
	err := r.Walk(context.Background(), from, to, dir, func(c Commit, changes []BlobChange) error {
		fmt.Fprintln(&b, c.Hash)
		for _, ch := range changes {
			writeRaw(&b, ch)
		}
		return nil
	})
	if err != nil {
		t.Fatalf("%s: Walk: %v", r.Backing(), err)
	}
	return b.String()
}

func writeRaw(b *strings.Builder, ch BlobChange) {
	sides := append(append([]Version{ch.Old}, ch.Others...), ch.New)
	fmt.Fprint(b, strings.Repeat(":", len(sides)-1))
	for _, v := range sides {
		octal := map[fs.FileMode]string{0: "000000", 0o444: "100644", 0o555: "100755", fs.ModeSymlink | 0o777: "120000"}[v.Mode]
		fmt.Fprintf(b, "%s ", octal)
	}
	for _, v := range sides {
		hash := v.Hash
		if hash == "" {
			hash = strings.Repeat("0", 40)
		}
		fmt.Fprintf(b, "%s ", hash)
	}
	fmt.Fprintf(b, "%s\n", ch.Path)
}

// realRaw is "git log --raw" without the status letters and without commits that list no file.
func (f *fixture) realRaw(dir string, revs ...string) string {
	f.t.Helper()
	args := append([]string{"log", "--format=@%H", "--raw", "-c", "--no-renames", "--no-abbrev"}, revs...)
	if dir == "" {
		args = append(args, "--", ".")
	} else {
		args = append(args, "--", dir)
	}
	var b strings.Builder
	hash := ""
	for line := range strings.SplitSeq(f.git(args...), "\n") {
		switch {
		case strings.HasPrefix(line, "@"):
			hash = line[1:]
		case strings.HasPrefix(line, ":"):
			if hash != "" {
				fmt.Fprintln(&b, hash)
				hash = ""
			}
			meta, path, _ := strings.Cut(line, "\t")
			if dir != "" {
				if path = strings.TrimPrefix(strings.TrimPrefix(path, dir), "/"); path == "" {
					path = "."
				}
			}
			fmt.Fprintf(&b, "%s %s\n", meta[:strings.LastIndexByte(meta, ' ')], path)
		}
	}
	return b.String()
}

// Walk over a whole history agrees with the real git, whatever the shape of the
// history and the clocks of those who made it.
func TestWalkAgreesWithGit(t *testing.T) {
	f := newStoryFixture(t)
	rapid.Check(t, func(rt *rapid.T) {
		ids := f.tell(drawStory(rt, rapid.Bool().Draw(rt, "skewed")))
		f.compareWalk(rt, "", ids[len(ids)-1])
	})
}

// The same for a stretch of history, with clocks that run forward, wherever the
// real git's answer is settled (see story.settled).
func TestWalkOfSpanAgreesWithGit(t *testing.T) {
	f := newStoryFixture(t)
	rapid.Check(t, func(rt *rapid.T) {
		s := drawStory(rt, false)
		from := rapid.SampledFrom(s.settled()).Draw(rt, "from")
		ids := f.tell(s)
		f.compareWalk(rt, ids[from], ids[len(ids)-1])
	})
}

// compareWalk holds Walk by both backings against the real git. from may be "".
func (f *storyFixture) compareWalk(rt *rapid.T, from, to string) {
	dir := rapid.SampledFrom([]string{"", "plans", "plans/sub"}).Draw(rt, "dir")
	revs := []string{to}
	if from != "" {
		revs = append(revs, "^"+from)
	}
	want := f.realRaw(dir, revs...)
	for _, r := range f.both {
		if diff := cmp.Diff(want, told(f.t, r, f.commitOf(r, from), f.commitOf(r, to), dir)); diff != "" {
			rt.Fatalf("%s, below %q, -git +Walk:\n%s", r.Backing(), dir, diff)
		}
	}
}

// Where a merge equals the lower end of a span, the other side is not followed;
// where it equals another commit beyond that, it is (git-log, and revision.c of
// git: only relevant parents simplify).
func TestWalkAtTheLowerEnd(t *testing.T) {
	f := newFixture(t)
	f.commit("base", "plans/a.yaml", "1")
	f.git("tag", "older")
	f.commit("end", "README", "x")
	f.git("tag", "end")
	f.git("checkout", "-q", "-b", "side", "older")
	f.commit("there", "plans/a.yaml", "2")
	f.commit("and back", "plans/a.yaml", "1")
	f.git("checkout", "-q", "-b", "at-the-end", "end")
	f.merge("side")
	f.git("checkout", "-q", "-b", "beyond", "side")
	f.git("merge", "-q", "--no-ff", "-s", "ours", "-m", "x", "end")
	f.git("checkout", "-q", "-b", "at-an-older", "older")
	f.merge("side")
	for _, tip := range []string{"at-the-end", "beyond", "at-an-older"} {
		for _, dir := range []string{"", "plans"} {
			want := f.realRaw(dir, tip, "^end")
			for _, backing := range []string{"go-git", "git"} {
				r := mustOnly(t, f.dir, backing)
				if got := told(t, r, mustResolve(t, r, "end"), mustResolve(t, r, tip), dir); got != want {
					t.Errorf("%s: %s below %q: got\n%s\ngit says\n%s", backing, tip, dir, got, want)
				}
			}
		}
	}
}

// A folder's name is a name, not a pattern and not a pathspec with magic.
func TestWalkTakesNamesLiterally(t *testing.T) {
	f := newFixture(t)
	f.commit("odd names", "p*/a", "1", "pq/a", "1", ":(top)x/a", "1", "[ab]/a", "1", "a/a", "1", "-p/a", "1", "sp ace/ä", "1")
	for _, dir := range []string{"p*", "pq", ":(top)x", "[ab]", "a", "-p", "sp ace", "p", "P*"} {
		var paths [2]string
		for i, backing := range []string{"go-git", "git"} {
			r := mustOnly(t, f.dir, backing)
			err := r.Walk(t.Context(), Commit{}, mustResolve(t, r, "HEAD"), dir, func(_ Commit, changes []BlobChange) error {
				for _, ch := range changes {
					paths[i] += ch.Path + " "
				}
				return nil
			})
			if err != nil {
				t.Errorf("%s: %q: %v", backing, dir, err)
			}
		}
		want := map[bool]string{true: "", false: "a "}[dir == "p" || dir == "P*"]
		if dir == "sp ace" {
			want = "ä "
		}
		if paths != [2]string{want, want} {
			t.Errorf("below %q: %q, want %q", dir, paths, want)
		}
	}
}

// Replacements and grafts show one history to one clone; they are not applied.
func TestReplacedObjectsAreNotApplied(t *testing.T) {
	f := newFixture(t).harrow()
	want := f.realRaw("plans/harrow", "main")
	f.git("replace", "main~1", "light")
	f.git("replace", f.git("rev-parse", "main:README"), f.git("rev-parse", "light:README"))
	appendFile(t, f.dir+"/.git/info/grafts", f.git("--no-replace-objects", "rev-parse", "main")+"\n")
	for _, backing := range []string{"go-git", "git"} {
		r := mustOnly(t, f.dir, backing)
		c := mustResolve(t, r, "main")
		if got := told(t, r, Commit{}, c, "plans/harrow"); got != want {
			t.Errorf("%s: %s", backing, firstDifference(got, want))
		}
		files, err := r.Tree(t.Context(), c, "")
		if err != nil {
			t.Fatal(err)
		}
		if data, err := fs.ReadFile(files, "README"); string(data) != "more notes\n" || err != nil {
			t.Errorf("%s: README = %q, %v", backing, data, err)
		}
	}
}
