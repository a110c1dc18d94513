package post_test

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"passband.example/plandiff/demo"
	"passband.example/review/post"
	"pgregory.net/rapid"
)

// gitDiff gives what the git command shows for two texts.
func gitDiff(t interface {
	Helper()
	Fatal(...any)
}, dir, old, new string) string {
	t.Helper()
	for name, text := range map[string]string{"a": old, "b": new} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	cmd := exec.Command("git", "-c", "core.autocrlf=false", "diff", "--no-index", "--no-ext-diff", "--no-color", "-U3", "a", "b")
	cmd.Dir = dir
	out, err := cmd.Output()
	if exit, ok := err.(*exec.ExitError); err != nil && (!ok || exit.ExitCode() != 1) {
		t.Fatal(err)
	}
	return string(out)
}

// TestParsePatch holds the hunks against the two texts that git compared: every line
// of them must be where they say.
func TestParsePatch(t *testing.T) {
	dir := t.TempDir()
	rapid.Check(t, func(t *rapid.T) {
		old, new := drawTexts(t)
		hunks, err := post.ParsePatch(gitDiff(t, dir, old, new))
		if err != nil {
			t.Fatal(err)
		}
		proveHunks(t, hunks, old, new)
	})
}

// TestHunks works the lines out without git, and wants what git shows. The lines of
// the texts differ from each other, so that there is one shortest diff.
func TestHunks(t *testing.T) {
	dir := t.TempDir()
	rapid.Check(t, func(t *rapid.T) {
		old, new := drawTexts(t)
		want, err := post.ParsePatch(gitDiff(t, dir, old, new))
		if err != nil {
			t.Fatal(err)
		}
		got := post.Hunks([]byte(old), []byte(new))
		proveHunks(t, got, old, new)
		if d := cmp.Diff(want, got); d != "" {
			t.Fatalf("git shows other lines:\n%s", d)
		}
	})
}

// TestHunksOfDemo does the same on the demo's proposal.
func TestHunksOfDemo(t *testing.T) {
	dir := t.TempDir()
	for _, name := range []string{"groups.yaml", "repeaters.yaml", "zones.yaml", "operators.csv", "radios.yaml", "messages.yaml"} {
		old, new := read(t, demo.Plan(), name), read(t, demo.Branch(), name)
		want, err := post.ParsePatch(gitDiff(t, dir, old, new))
		if err != nil {
			t.Fatal(err)
		}
		if d := cmp.Diff(want, post.Hunks([]byte(old), []byte(new))); d != "" {
			t.Errorf("%s: git shows other lines:\n%s", name, d)
		}
	}
}

// drawTexts makes a text of distinct lines and an edit of it.
func drawTexts(t *rapid.T) (old, new string) {
	n := rapid.IntRange(0, 40).Draw(t, "lines")
	var a, b []string
	for i := range n {
		line := fmt.Sprintf("line %d", i)
		a = append(a, line)
		switch rapid.IntRange(0, 9).Draw(t, "edit") {
		case 0:
			b = append(b, fmt.Sprintf("other %d", i))
		case 1: // gone
		case 2:
			b = append(b, line, fmt.Sprintf("more %d", i))
		default:
			b = append(b, line)
		}
	}
	end := func(lines []string) string {
		if len(lines) == 0 {
			return ""
		}
		return strings.Join(lines, "\n") + rapid.SampledFrom([]string{"\n", "\n", ""}).Draw(t, "end")
	}
	return end(a), end(b)
}

// proveHunks wants the hunks to be a diff: context is the same in both texts, and
// what is in no hunk has not changed.
func proveHunks(t *rapid.T, hunks []post.Hunk, old, new string) {
	was, now := bytes.SplitAfter([]byte(old), []byte("\n")), bytes.SplitAfter([]byte(new), []byte("\n"))
	oldShown, newShown := map[int32]bool{}, map[int32]bool{}
	for _, h := range hunks {
		for _, l := range h {
			if l.Old > 0 && l.New > 0 && !bytes.Equal(was[l.Old-1], now[l.New-1]) {
				t.Fatalf("line %d is said to stay as %d", l.Old, l.New)
			}
			oldShown[l.Old], newShown[l.New] = true, true
		}
	}
	rest := func(lines [][]byte, shown map[int32]bool) string {
		var out []byte
		for i, line := range lines {
			if !shown[int32(i+1)] {
				out = append(out, line...)
			}
		}
		return string(out)
	}
	if rest(was, oldShown) != rest(now, newShown) {
		t.Fatalf("a change is in no hunk")
	}
}

func TestDiffHas(t *testing.T) {
	hunks, err := post.ParsePatch("@@ -1,4 +1,5 @@\n a\n-b\n+B\n+BB\n c\n d\n@@ -20 +21,0 @@ x\n-z\n\\ No newline at end of file\n")
	if err != nil {
		t.Fatal(err)
	}
	d := post.Diff{"plan.yaml": hunks}
	for _, c := range []struct {
		name string
		side post.Side
		line int32
		want bool
	}{
		{"context", post.NewSide, 1, true}, {"added", post.NewSide, 3, true}, {"last context", post.NewSide, 5, true}, {"outside", post.NewSide, 6, false},
		{"gone", post.OldSide, 2, true}, {"context on the old side", post.OldSide, 1, false}, {"gone at the end", post.OldSide, 20, true}, {"no line", post.NewSide, 0, false},
	} {
		if got := d.Has("plan.yaml", c.side, c.line); got != c.want {
			t.Errorf("%s: %t", c.name, got)
		}
	}
	if d.Has("other.yaml", post.NewSide, 1) {
		t.Error("a file that is not in the diff has a line")
	}
	for _, c := range []struct {
		from, to int32
		want     bool
	}{{2, 3, true}, {1, 2, false}, {3, 5, true}, {4, 6, false}, {0, 1, false}, {3, 2, false}} {
		if got := d.Whole("plan.yaml", c.from, c.to); got != c.want {
			t.Errorf("%d to %d: %t", c.from, c.to, got)
		}
	}
}

// FuzzParsePatch must not fall over anything that a forge may send.
func FuzzParsePatch(f *testing.F) {
	f.Add("@@ -1,4 +1,5 @@\n a\n-b\n+B\n")
	f.Add("@@ -1 +1 @@\n-@@ -1 +1 @@\n+x\n")
	f.Add("@@ -99999999999 +1 @@\n")
	f.Add("@@ -0,0 +1,1073741824 @@\n+a")
	f.Fuzz(func(t *testing.T, patch string) {
		hunks, err := post.ParsePatch(patch)
		lines := 0
		for _, h := range hunks {
			lines += len(h)
		}
		if err == nil && lines > strings.Count(patch, "\n")+1 {
			t.Errorf("%d lines of %q", lines, patch)
		}
	})
}
