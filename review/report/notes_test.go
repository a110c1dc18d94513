package report

import (
	"bytes"
	"context"
	"fmt"
	"io/fs"
	"strings"
	"testing"

	"passband.example/plandiff"
	"passband.example/plandiff/demo"
	"passband.example/plandiff/notes"
	"passband.example/plandiff/plan"
)

// TestNotesTellNothingInternal makes the notes of every two commits of the demo, with
// every key, note and name in them marked: none of the marks may get out, in any form.
func TestNotesTellNothingInternal(t *testing.T) {
	var plans []*plan.Expansion
	ren := plan.Renames{}
	for _, c := range demo.History() {
		plans = append(plans, marked(t, c.Plan, ren))
	}
	told := 0
	for i, before := range plans {
		for j, after := range plans {
			n := notes.Of(plandiff.Compare(before, after))
			if n.Empty() != (len(n.Changed)+len(n.New)+len(n.Gone)+len(n.Relabelled)+len(n.Zones)+len(n.ScanLists)+len(n.Messages)+len(n.Keys) == 0 && n.Contacts == notes.Contacts{}) {
				t.Errorf("%d to %d: the notes are empty: %v; and hold %+v", i, j, n.Empty(), n)
			}
			for form, text := range notesForms(t, n) {
				told += len(text)
				for _, mark := range append(radioIDs(before, after), "qq-", "QQNOTE", "Qqname", ".yaml", ".csv", "DN70") {
					if strings.Contains(text, mark) {
						t.Fatalf("%d to %d, %s: %s got out:\n%s", i, j, form, mark, text)
					}
				}
			}
		}
	}
	if told < 100_000 {
		t.Errorf("the notes are %d bytes in all", told)
	}
}

// radioIDs gives those of operators that are not also the number of a group.
func radioIDs(plans ...*plan.Expansion) []string {
	var ids []string
	for _, x := range plans {
		groups := make(map[string]bool)
		for _, g := range x.Plan.Groups.All() {
			groups[g.ID.V.String()] = true
		}
		for _, o := range x.Plan.Operators.All() {
			if id := o.ID.V.String(); !groups[id] {
				ids = append(ids, id)
			}
		}
	}
	return ids
}

func notesForms(t *testing.T, n *notes.Notes) map[string]string {
	from, to := Release{"1", "2026-01-01"}, Release{"2", "2026-02-01"}
	var text, markdown, json bytes.Buffer
	for _, err := range []error{
		Text(&text, ReleaseNotes(n, from, to), Terminal{}), Markdown(&markdown, ReleaseNotes(n, from, to)), NotesJSON(&json, n, from, to),
	} {
		if err != nil {
			t.Fatal(err)
		}
	}
	return map[string]string{"text": text.String(), "Markdown": markdown.String(), "JSON": json.String()}
}

// marked is the plan with other keys, the same for all commits, and other notes and names.
func marked(t *testing.T, files fs.FS, ren plan.Renames) *plan.Expansion {
	p, err := plan.Load(context.Background(), files)
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range plan.Sections() {
		for _, r := range s.All(p) {
			if thing := r.Thing(); s.HasOwnKeys() && s.Kind != plan.KindShortcut && ren[thing] == "" {
				ren[thing] = fmt.Sprintf("qq-%d", len(ren))
			}
		}
	}
	out := new(plan.Plan)
	for _, s := range plan.Sections() {
		for _, r := range s.All(p) {
			if err := out.Add(markedRecord(t, s, r, ren)); err != nil {
				t.Fatal(err)
			}
		}
	}
	return plan.Expand(out)
}

func markedRecord(t *testing.T, s *plan.Section, r plan.Record, ren plan.Renames) plan.Record {
	thing := r.Thing()
	thing.Key = ren.Key(thing.Kind, thing.Key)
	c, err := plan.NewRecord(thing)
	if err != nil {
		t.Fatal(err)
	}
	for i := range s.Fields {
		f := &s.Fields[i]
		texts := f.Texts(r, ren)
		switch {
		case len(texts) == 0 && f.Name == "label":
			texts = []string{"Label of " + r.Thing().Key}
		case len(texts) == 0:
			continue
		case f.Name == "note" || f.Name == "reason":
			texts = []string{"QQNOTE " + texts[0]}
		case s.Kind == plan.KindOperator && f.Name == "name":
			texts = []string{"Qqname " + texts[0]}
		}
		if err := f.Set(c, texts); err != nil {
			t.Fatalf("%s: %s: %v", thing, f.Name, err)
		}
	}
	return c
}
