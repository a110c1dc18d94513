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

// The same for a stretch of history, with clocks that run forward.
func TestWalkOfSpanAgreesWithGit(t *testing.T) {
	f := newStoryFixture(t)
	rapid.Check(t, func(rt *rapid.T) {
		ids := f.tell(drawStory(rt, false))
		f.compareWalk(rt, rapid.SampledFrom(ids).Draw(rt, "from"), ids[len(ids)-1])
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
