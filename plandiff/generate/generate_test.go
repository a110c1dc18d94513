package generate_test

import (
	"bytes"
	"context"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"passband.example/plandiff"
	"passband.example/plandiff/generate"
	"passband.example/plandiff/plan"
	"passband.example/plandiff/plan/plantest"
	"passband.example/review"
	"passband.example/review/rules"
	"pgregory.net/rapid"
)

// A plan of any size and seed, after any edits, is read without a problem and judged without
// a block.
func TestNothingBlocks(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		size := generate.Size{
			Channels:  rapid.IntRange(40, 800).Draw(t, "channels"),
			Operators: rapid.IntRange(0, 40).Draw(t, "operators"),
			Files:     rapid.IntRange(0, 5).Draw(t, "files"),
		}
		club := generate.New(size, rapid.Uint64().Draw(t, "seed"))
		sound(t, club)
		for range rapid.IntRange(1, 30).Draw(t, "edits") {
			club.Edit()
		}
		sound(t, club)
	})
}

// sound gives the plan as it is expanded. It fails where the plan has a problem or something
// in it blocks.
func sound(t tester, club *generate.Club) *plan.Expansion {
	t.Helper()
	p := plantest.Load(t, club.Files())
	x := plan.Expand(p)
	v, err := review.Check(context.Background(), rules.All(), x, plan.Date{Year: 2026, Month: 6, Day: 1})
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range v.Findings {
		if f.Severity == review.Block {
			t.Fatalf("%v [%s]: %s", f.At, f.Rule, f.What)
		}
	}
	return x
}

// A tester is a test or one try of a property.
type tester interface {
	Helper()
	Fatal(...any)
	Fatalf(string, ...any)
}

// Each edit is to Compare what it is to the person who makes it, in one file and in several.
func TestEdits(t *testing.T) {
	tests := []struct {
		name    string
		edit    generate.Edit
		changes int
		why     string
	}{
		{"a field", (*generate.Club).Change, 1, "frequency or power of one channel"},
		{"a retune", (*generate.Club).Retune, 1, "the input follows by the split"},
		{"a group renamed", (*generate.Club).RenameGroup, 1, "its references follow"},
		{"a repeater renamed", (*generate.Club).RenameRepeater, 1, "its references follow"},
		{"a channel renamed", (*generate.Club).RenameChannel, 1, "its references follow"},
		{"a zone member moved", (*generate.Club).MoveMember, 1, "one position of the knob"},
		{"an operator", (*generate.Club).Hire, 1, "a row of the table"},
		{"another file", (*generate.Club).MoveRecord, 0, "where a record stands means nothing"},
		{"another order", (*generate.Club).Lay, 0, "the order of records means nothing"},
		{"other text", func(c *generate.Club) string {
			c.Style = generate.Style{Reversed: true, Block: true, Respelt: true}
			return ""
		}, 0, "it is the same plan"},
	}
	for _, tt := range tests {
		for _, files := range []int{1, 4} {
			club := generate.New(generate.Size{Channels: 1_000, Operators: 10, Files: files}, 1)
			before, text := sound(t, club), club.Files()
			subject := tt.edit(club)
			if maps.EqualFunc(text, club.Files(), bytes.Equal) {
				t.Errorf("%s: %q changed no text", tt.name, subject)
			}
			if c := plandiff.Compare(before, sound(t, club)); len(c.Changes) != tt.changes {
				t.Errorf("%s in %d files, %s: want %d changes, got %v", tt.name, files, tt.why, tt.changes, c.Changes)
			}
		}
	}
}

// A stream makes a repository whose last commit is the plan as it was edited, and its
// bytes hang on the seed alone.
func TestHistory(t *testing.T) {
	make := func() (*generate.Club, string) {
		var stream bytes.Buffer
		club := generate.New(generate.Size{Channels: 400, Operators: 5, Files: 3}, 7)
		if err := club.History(&stream, 60); err != nil {
			t.Fatal(err)
		}
		return club, stream.String()
	}
	club, stream := make()
	if _, again := make(); again != stream {
		t.Error("the same seed gives two histories")
	}
	dir := filepath.Join(t.TempDir(), "club.git")
	git(t, "", "init", "-q", "--bare", "-b", "main", dir)
	git(t, stream, "-C", dir, "fast-import", "--quiet")
	if n := strings.TrimSpace(git(t, "", "-C", dir, "rev-list", "--count", "main")); n != "60" {
		t.Errorf("%s commits", n)
	}
	for name, text := range club.Files() {
		if diff := cmp.Diff(string(text), git(t, "", "-C", dir, "show", "main:"+name)); diff != "" {
			t.Errorf("%s: %s", name, diff)
		}
	}
}

func git(t *testing.T, input string, args ...string) string {
	t.Helper()
	cmd := exec.Command("git", args...)
	cmd.Env = []string{"PATH=" + os.Getenv("PATH"), "HOME=" + os.DevNull, "GIT_CONFIG_NOSYSTEM=1"}
	cmd.Stdin = strings.NewReader(input)
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("git %v: %v", args, err)
	}
	return string(out)
}
