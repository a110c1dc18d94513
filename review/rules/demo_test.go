package rules_test

import (
	"context"
	"fmt"
	"io/fs"
	"slices"
	"strings"
	"testing"

	"passband.example/plandiff"
	"passband.example/plandiff/demo"
	"passband.example/plandiff/plan"
	"passband.example/review"
	"passband.example/review/rules"
)

func expandFS(t *testing.T, fsys fs.FS) *plan.Expansion {
	t.Helper()
	p, err := plan.Load(context.Background(), fsys)
	if err != nil {
		t.Fatal(err)
	}
	return plan.Expand(p)
}

// TestDemoIsInOrder wants no finding in the demo but the note on the pair that its coordinator agreed
// to: it is what a club's plan looks like.
func TestDemoIsInOrder(t *testing.T) {
	v, err := review.Check(context.Background(), rules.All(), expandFS(t, demo.Plan()), today)
	if err != nil {
		t.Fatal(err)
	}
	if v.Rules < 30 {
		t.Errorf("only %d rules ran", v.Rules)
	}
	for _, f := range v.Findings {
		if f.Rule != rules.Coordinated.ID || !strings.Contains(f.What, "Sand Butte") {
			t.Errorf("%s: %s: %s", f.At, f.Rule, f.What)
		}
	}
	if len(v.Findings) != 1 {
		t.Errorf("%d findings", len(v.Findings))
	}
}

// TestProposal wants what package demo says was done wrong in its proposal, and nothing
// else that blocks.
func TestProposal(t *testing.T) {
	old, now := expandFS(t, demo.Plan()), expandFS(t, demo.Branch())
	v, err := review.Judge(context.Background(), rules.All(), plandiff.Compare(old, now), nil, today)
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, f := range v.Findings {
		if f.Severity == review.Block {
			got = append(got, fmt.Sprintf("%s %s", f.Rule, f.About[0].Key))
		}
	}
	slices.Sort(got)
	want := []string{
		"dangling-reference range", // a zone entry that names a group which does not exist
		"group-id-twice north-tac", // two groups with one number
		"memory-full pocket",       // more channels in a zone than a pocket radio holds
		"off-band cairn",           // an input so near the edge that wide FM spills over it
		"off-band fell",            // an output ten megahertz off
		"radio-id-shared 9990017/K0QRQ/" + nameOf(old, "K0QRQ"), // a radio ID that belongs to somebody else
	}
	if strings.Join(got, "\n") != strings.Join(want, "\n") {
		t.Errorf("got\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
}

func nameOf(x *plan.Expansion, call string) string {
	for _, o := range x.Plan.Operators.All() {
		if o.Callsign.V.String() == call && o.ID.V == 9990017 {
			return o.Person.V
		}
	}
	return ""
}
