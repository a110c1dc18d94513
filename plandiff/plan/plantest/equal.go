package plantest

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"testing/fstest"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/signal"
)

// Equal tells the first difference in meaning between two plans, or "". The
// order of records, the places of values and ways of writing them are none;
// people and acceptances, whose keys follow from their values, are compared by
// those alone.
func Equal(a, b *plan.Plan) (diff string) {
	for _, s := range plan.Sections() {
		if s.HasOwnKeys() || s.Kind == plan.KindPlan {
			diff = sameRecords(s, a, b)
		} else {
			diff = sameRows(s, a, b)
		}
		if diff != "" {
			return diff
		}
	}
	return ""
}

func sameRecords(s *plan.Section, a, b *plan.Plan) string {
	for _, r := range s.All(a) {
		other, ok := s.Find(b, r.Thing().Key)
		if !ok {
			return fmt.Sprintf("%s is in the first plan alone", r.Thing())
		}
		if diff := sameFields(s, r, other); diff != "" {
			return diff
		}
	}
	for _, r := range s.All(b) {
		if _, ok := s.Find(a, r.Thing().Key); !ok {
			return fmt.Sprintf("%s is in the second plan alone", r.Thing())
		}
	}
	return ""
}

func sameFields(s *plan.Section, a, b plan.Record) string {
	for i := range s.Fields {
		f := &s.Fields[i]
		x, y := f.Texts(a, nil), f.Texts(b, nil)
		switch same := f.Same(a, b); {
		case !same:
			return fmt.Sprintf("%s: %s is %q in the first plan and %q in the second", a.Thing(), f.Name, x, y)
		case same != f.Same(b, a):
			return fmt.Sprintf("%s: Same of %s depends on the order", a.Thing(), f.Name)
		case len(x) != len(y):
			return fmt.Sprintf("%s: %s counts as the same, but is %q and %q", a.Thing(), f.Name, x, y)
		}
	}
	return ""
}

func sameRows(s *plan.Section, a, b *plan.Plan) string {
	x, y := rows(s, a), rows(s, b)
	if slices.Equal(x, y) {
		return ""
	}
	return fmt.Sprintf("%ss differ:\n%s\nand\n%s", s.Kind, strings.Join(x, "\n"), strings.Join(y, "\n"))
}

// rows gives each record as one text, sorted.
func rows(s *plan.Section, p *plan.Plan) []string {
	var all []string
	for _, r := range s.All(p) {
		var row strings.Builder
		for i := range s.Fields {
			fmt.Fprintf(&row, " %s=%q", s.Fields[i].Name, meaning(s.Fields[i].Texts(r, nil)))
		}
		all = append(all, row.String())
	}
	slices.Sort(all)
	return all
}

// meaning gives texts in the spelling that stands for all of one signal: D023N and D047I are one.
func meaning(texts []string) []string {
	for i, text := range texts {
		if tone, err := signal.ParseTone(text); err == nil {
			if dcs, ok := tone.DCS(); ok {
				texts[i] = dcs.Canonical().String()
			}
		}
	}
	return texts
}

// FS makes a file system of the files of a plan.
func FS(files map[string][]byte) fstest.MapFS {
	fsys := make(fstest.MapFS, len(files))
	for name, data := range files {
		fsys[name] = &fstest.MapFile{Data: data}
	}
	return fsys
}

// Load reads a plan from its files, by their names. It fails the test only where
// there is no plan at all; Problems are for the test to judge.
func Load(t interface {
	Helper()
	Fatal(args ...any)
}, files map[string][]byte) *plan.Plan {
	t.Helper()
	p, err := plan.Load(context.Background(), FS(files))
	if err != nil {
		t.Fatal(err)
	}
	return p
}
