package tables

import (
	"bytes"
	"testing"

	"passband.example/plandiff"
	"passband.example/plandiff/plan"
	"passband.example/plandiff/plan/plantest"
)

// TestMadeAnew makes a plan of the tables of one and nothing else. The tables of that are
// the same bytes, and what differs from the first plan was told to be missing, or is a
// zone that lists its channels instead of a pattern.
func TestMadeAnew(t *testing.T) {
	l, err := Neutral()
	if err != nil {
		t.Fatal(err)
	}
	nothing, err := New("Nothing yet")
	if err != nil {
		t.Fatal(err)
	}
	x := plan.Expand(plantest.Load(t, plantest.Text(400, 1)))
	out, err := Write(x, "", l)
	if err != nil {
		t.Fatal(err)
	}
	in, err := Read(nothing, "", l, out.Files)
	if err != nil || len(in.Problems) > 0 {
		t.Fatal(err, in.Problems)
	}
	_, after, err := Carry(nil, nothing, in)
	if err != nil {
		t.Fatal(err)
	}
	again, err := Write(after, "", l)
	if err != nil {
		t.Fatal(err)
	}
	for i, f := range out.Files {
		if !bytes.Equal(f.Data, again.Files[i].Data) {
			t.Errorf("%s differs", f.Name)
		}
	}
	told := make(map[plan.Thing]bool)
	for _, m := range out.Missing {
		told[plan.Thing{Kind: m.Kind, Key: m.Field}] = true
	}
	for _, c := range plandiff.Compare(x, after).Changes {
		for _, e := range c.Edits {
			if !told[plan.Thing{Kind: c.Thing.Kind, Key: e.Field}] && c.Thing.Kind != plan.KindZone && e.Form != plan.Flag {
				t.Errorf("%s: %s was %q and is %q", c.Thing, e.Field, e.Old, e.New)
			}
		}
	}
}
