package post_test

import (
	"testing"

	"passband.example/plandiff"
	"passband.example/plandiff/plan"
	"passband.example/review"
	"passband.example/review/post"
	"passband.example/review/report"
)

// TestSpot finds the line for a finding: its own, another that it is about, one of the
// change to what it is about, or none.
func TestSpot(t *testing.T) {
	hunks, err := post.ParsePatch("@@ -10,3 +10,3 @@\n a\n-b\n+B\n c\n")
	if err != nil {
		t.Fatal(err)
	}
	diff := post.Diff{"plans/x/plan.yaml": hunks}
	at := func(line int32) plan.Place { return plan.Place{File: "plan.yaml", Line: line, Col: 1} }
	ridge := plan.Thing{Kind: plan.KindRepeater, Key: "ridge"}
	doc := func(changes ...plandiff.Change) *report.Document {
		return &report.Document{New: &report.Origin{Folder: "plans/x"}, Comparison: &plandiff.Comparison{Causes: []plandiff.Cause{{Thing: ridge, Changes: changes}}}}
	}
	line := func(n int32) post.Spot { return post.Spot{Path: "plans/x/plan.yaml", Line: n} }
	for _, c := range []struct {
		name, why string
		doc       *report.Document
		finding   review.Finding
		want      post.Spot
	}{
		{"its own line", "that is where it is wrong", doc(), review.Finding{At: at(11), Also: []review.Related{{At: at(10)}}}, line(11)},
		{"context", "a forge takes it", doc(), review.Finding{At: at(12)}, line(12)},
		{"another of its lines", "its own is not in the diff", doc(), review.Finding{At: at(50), Also: []review.Related{{At: at(60)}, {At: at(12)}}}, line(12)},
		{"the edit", "what the change did to what it is about", doc(plandiff.Change{At: at(70), Edits: []plandiff.Edit{{NewAt: at(11)}}}), review.Finding{At: at(50), About: []plan.Thing{ridge}}, line(11)},
		{"the record", "the same", doc(plandiff.Change{At: at(10)}), review.Finding{At: at(50), About: []plan.Thing{ridge}}, line(10)},
		{"a line that is gone", "the change took it out", doc(plandiff.Change{At: at(70), Edits: []plandiff.Edit{{OldAt: at(11)}}}), review.Finding{At: at(50), About: []plan.Thing{ridge}},
			post.Spot{Path: "plans/x/plan.yaml", Side: post.OldSide, Line: 11}},
		{"another record", "it is not about that", doc(plandiff.Change{At: at(10)}), review.Finding{At: at(50), About: []plan.Thing{{Kind: plan.KindGroup, Key: "ridge"}}}, post.Spot{}},
		{"a file as a whole", "it has no line", doc(), review.Finding{At: plan.Place{File: "plan.yaml"}}, post.Spot{}},
		{"another file", "the diff has it not", doc(), review.Finding{At: plan.Place{File: "other.yaml", Line: 11}}, post.Spot{}},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := diff.Spot(c.doc, c.finding); got != c.want {
				t.Errorf("%s: %+v, want %+v", c.why, got, c.want)
			}
		})
	}
}
