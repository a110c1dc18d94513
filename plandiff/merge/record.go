package merge

import (
	"slices"
	"strings"

	"passband.example/plandiff/plan"
)

// A three is a record as the base, ours and theirs have it; nil where it is not.
type three struct {
	s                  *plan.Section
	base, ours, theirs plan.Record
}

// belong names the fields of a record that are taken from one side together where
// both changed one of them: a mix could be a frequency that nobody wrote.
func belong(kind plan.Kind) []string {
	switch kind {
	case plan.KindRepeater:
		return []string{"output", "input", "split"}
	case plan.KindChannel:
		return []string{"simplex", "receive", "path", "transmit"}
	}
	return nil
}

// fields merges the fields of a record into r.
func (m *merger) fields(w three, r plan.Record) error {
	whole := m.units(w) // the fields that are taken from the preferred side
	for i := range w.s.Fields {
		f := &w.s.Fields[i]
		texts := m.texts(f, w, whole[f.Name])
		if err := f.Set(r, texts); err != nil {
			return err
		}
	}
	return nil
}

// units finds the fields that both sides changed and that are taken whole, and
// notes the conflicts about them.
func (m *merger) units(w three) map[string]bool {
	whole := make(map[string]bool)
	together := belong(w.s.Kind)
	if slices.ContainsFunc(together, func(name string) bool { return clashes(w.s.Field(name), w) }) {
		m.clash(w, together)
		for _, name := range together {
			whole[name] = true
		}
	}
	for i := range w.s.Fields {
		flag := &w.s.Fields[i]
		if flag.Form != plan.Flag || !lostWhileEdited(flag, w) {
			continue
		}
		names := []string{flag.Name}
		for j := range w.s.Fields {
			if name := w.s.Fields[j].Name; strings.HasPrefix(name, flag.Name+".") {
				names = append(names, name)
			}
		}
		m.clash(w, names)
		for _, name := range names {
			whole[name] = true
		}
	}
	return whole
}

// clashes reports whether both sides gave a field another value, and not the same.
func clashes(f *plan.Field, w three) bool {
	return !same(f, w.base, w.ours) && !same(f, w.base, w.theirs) && !same(f, w.ours, w.theirs) && f.Form != plan.List && f.Form != plan.Set
}

// lostWhileEdited reports whether one side took a block away in which the other
// changed something.
func lostWhileEdited(flag *plan.Field, w three) bool {
	there := func(r plan.Record) bool { return len(textsOf(flag, r)) > 0 }
	if !there(w.base) || there(w.ours) == there(w.theirs) {
		return false
	}
	kept := w.ours
	if there(w.theirs) {
		kept = w.theirs
	}
	return slices.ContainsFunc(w.s.Fields, func(f plan.Field) bool {
		return strings.HasPrefix(f.Name, flag.Name+".") && !same(&f, w.base, kept)
	})
}

// texts gives the merged value of a field.
func (m *merger) texts(f *plan.Field, w three, whole bool) []string {
	ours, theirs := textsOf(f, w.ours), textsOf(f, w.theirs)
	preferred := ours
	if m.prefer == theirSide {
		preferred = theirs
	}
	switch {
	case whole:
		return preferred
	case same(f, w.base, w.ours):
		return theirs
	case same(f, w.base, w.theirs), same(f, w.ours, w.theirs):
		return ours
	case f.Form == plan.Set:
		return sets(textsOf(f, w.base), ours, theirs)
	case f.Form == plan.List:
		merged, clash := lists(textsOf(f, w.base), ours, theirs, m.prefer)
		if clash {
			m.clash(w, []string{f.Name})
		}
		return merged
	}
	m.clash(w, []string{f.Name})
	return preferred
}

// clash notes a conflict about some fields of a record.
func (m *merger) clash(w three, names []string) {
	c := Conflict{Field: m.label(w, names)}
	r := w.ours
	if r == nil {
		r = w.base
	}
	c.Thing = r.Thing()
	c.Ours, c.Theirs = version(w, w.ours, names), version(w, w.theirs, names)
	m.conflicts = append(m.conflicts, c)
}

// label names what a conflict is about: the fields that differ.
func (m *merger) label(w three, names []string) string {
	var differ []string
	for _, name := range names {
		if !same(w.s.Field(name), w.ours, w.theirs) {
			differ = append(differ, name)
		}
	}
	return strings.Join(differ, " and ")
}

// version tells what one side made of some fields.
func version(w three, r plan.Record, names []string) Version {
	v := Version{At: r.Place()}
	var parts []string
	placed := false
	for _, name := range names {
		f := w.s.Field(name)
		if same(f, w.ours, w.theirs) {
			continue
		}
		words := says(textsOf(f, r))
		if len(names) > 1 && len(textsOf(f, r)) > 0 && f.Form != plan.Flag {
			words = name + " " + strings.Join(textsOf(f, r), ", ")
		}
		if items := f.Items(r); len(items) > 0 && !placed {
			v.At, placed = items[0].At, true
		}
		if f.Form == plan.Flag && len(textsOf(f, r)) == 0 {
			return Version{Words: "takes " + name + " away", At: r.Place()}
		}
		if f.Form != plan.Flag && len(textsOf(f, r)) > 0 || len(names) == 1 {
			parts = append(parts, words)
		}
	}
	if v.Words = strings.Join(parts, ", "); v.Words == "" {
		v.Words = "takes it away"
	}
	return v
}

func textsOf(f *plan.Field, r plan.Record) []string {
	if r == nil {
		return nil
	}
	return f.Texts(r, nil)
}

// same compares a field of two records, of which one may not be there.
func same(f *plan.Field, a, b plan.Record) bool {
	if a == nil || b == nil {
		return len(textsOf(f, a)) == 0 && len(textsOf(f, b)) == 0
	}
	return f.Same(a, b)
}

// sameRecord reports whether two records say the same.
func sameRecord(s *plan.Section, a, b plan.Record) bool {
	for i := range s.Fields {
		if !same(&s.Fields[i], a, b) {
			return false
		}
	}
	return true
}
