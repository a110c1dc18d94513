package merge

import (
	"fmt"
	"strings"

	"passband.example/plandiff"
	"passband.example/plandiff/plan"
)

// A merger merges plans whose keys have been made the same. Where only a person
// could decide, it takes the preferred side, and notes a conflict.
type merger struct {
	prefer    side
	conflicts []Conflict
	out       *plan.Plan
}

// plans merges what ours and theirs made of the base.
func (m *merger) plans(ours, theirs *plandiff.Comparison) error {
	m.out = &plan.Plan{}
	o, t := newDeed(ours), newDeed(theirs)
	for _, s := range plan.Sections() {
		for _, w := range threes(s, o, t) {
			if one := alone(w, o, t); one != nil {
				if err := m.add(one); err != nil {
					return err
				}
			} else if err := m.record(w); err != nil {
				return err
			}
		}
	}
	return nil
}

// A deed is what one side did to the base.
type deed struct {
	base, now *plan.Plan
	to        map[plan.Thing]plan.Thing // under which key it has records of the base whose keys follow from their fields
	touched   map[plan.Thing]bool       // the records of the base that it changed; nil where that cannot be told so
}

func newDeed(made *plandiff.Comparison) deed {
	d := deed{base: made.Old.Plan, now: made.New.Plan, to: make(map[plan.Thing]plan.Thing)}
	if len(made.Renames) == 0 { // else references to the old keys are no change to the comparison
		d.touched = make(map[plan.Thing]bool)
	}
	for _, c := range made.Changes {
		if d.touched != nil {
			d.touched[c.Was] = true
		}
		if s := plan.SectionOf(c.Thing.Kind); s.HasOwnKeys() || s.Kind == plan.KindPlan {
			continue
		}
		switch c.Op {
		case plandiff.Removed:
			d.to[c.Was] = plan.Thing{}
		case plandiff.Changed:
			d.to[c.Was] = c.Thing
		}
	}
	return d
}

// leaves reports whether the side left a record of the base as it was.
func (d *deed) leaves(r plan.Record) bool { return d.touched != nil && !d.touched[r.Thing()] }

// alone gives the record as one side has it, where the other did nothing to it. Those
// whose keys follow from their fields are merged in any case.
func alone(w three, o, t deed) plan.Record {
	switch {
	case !w.s.HasOwnKeys() || w.base == nil || w.ours == nil || w.theirs == nil:
		return nil
	case o.leaves(w.base):
		return w.theirs
	case t.leaves(w.base):
		return w.ours
	}
	return nil
}

// threes puts together what the three plans have of a section.
func threes(s *plan.Section, o, t deed) []three {
	if s.HasOwnKeys() {
		return threesByKey(s, o, t)
	}
	var all []three
	find := func(in *deed, taken map[plan.Record]bool, thing plan.Thing, moved map[plan.Thing]plan.Thing) plan.Record {
		if now, ok := moved[thing]; ok {
			thing = now
		}
		r, ok := s.Find(in.now, thing.Key)
		if !ok || thing.Kind == 0 || taken[r] {
			return nil
		}
		taken[r] = true
		return r
	}
	inO, inT := make(map[plan.Record]bool), make(map[plan.Record]bool)
	for _, r := range s.All(o.base) {
		all = append(all, three{s, r, find(&o, inO, r.Thing(), o.to), find(&t, inT, r.Thing(), t.to)})
	}
	for _, r := range s.All(o.now) {
		if !inO[r] {
			all = append(all, three{s, nil, r, find(&t, inT, r.Thing(), nil)})
		}
	}
	for _, r := range s.All(t.now) {
		if !inT[r] {
			all = append(all, three{s, nil, nil, r})
		}
	}
	return all
}

// threesByKey does it for a section whose records are written with their keys.
func threesByKey(s *plan.Section, o, t deed) []three {
	find := func(p *plan.Plan, r plan.Record) plan.Record {
		found, _ := s.Find(p, r.Thing().Key)
		return found
	}
	all := make([]three, 0, len(s.All(o.base)))
	for _, r := range s.All(o.base) {
		all = append(all, three{s, r, find(o.now, r), find(t.now, r)})
	}
	for _, r := range s.All(o.now) {
		if find(o.base, r) == nil {
			all = append(all, three{s, nil, r, find(t.now, r)})
		}
	}
	for _, r := range s.All(t.now) {
		if find(o.base, r) == nil && find(o.now, r) == nil {
			all = append(all, three{s, nil, nil, r})
		}
	}
	return all
}

// record merges one record into the plan.
func (m *merger) record(w three) error {
	kept := w.ours
	switch {
	case w.ours == nil && w.theirs == nil:
		return nil
	case w.ours == nil:
		kept = w.theirs
	}
	if w.ours == nil || w.theirs == nil {
		if w.base == nil {
			return m.add(plan.Clone(kept))
		}
		return m.lost(w, kept)
	}
	r, err := plan.NewRecord(kept.Thing())
	if err != nil {
		return err
	}
	if err := m.fields(w, r); err != nil {
		return fmt.Errorf("%s cannot be merged: %w", kept.Thing(), err)
	}
	return m.add(r)
}

func (m *merger) add(r plan.Record) error {
	err := m.out.Add(r)
	if err != nil && !plan.SectionOf(r.Thing().Kind).HasOwnKeys() {
		return nil // both came to say the same
	}
	return err
}

// lost merges a record that one side removed: if the other left it alone, it goes.
func (m *merger) lost(w three, kept plan.Record) error {
	if sameRecord(w.s, w.base, kept) {
		return nil
	}
	gone := Version{Words: "removes it"}
	edits := Version{Words: "changes its " + strings.Join(changedFields(w, kept), ", "), At: kept.Place()}
	c := Conflict{Thing: kept.Thing(), Ours: edits, Theirs: gone}
	keep := ourSide
	if w.ours == nil {
		c.Ours, c.Theirs = gone, edits
		keep = theirSide
	}
	m.conflicts = append(m.conflicts, c)
	if m.prefer != keep {
		return nil
	}
	return m.add(plan.Clone(kept))
}

// changedFields names what a side changed in a record.
func changedFields(w three, now plan.Record) []string {
	var names []string
	for i := range w.s.Fields {
		if f := &w.s.Fields[i]; !same(f, w.base, now) {
			names = append(names, f.Name)
		}
	}
	return names
}
