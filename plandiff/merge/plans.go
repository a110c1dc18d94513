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

// plans merges what three plans mean.
func (m *merger) plans(base, ours, theirs *plan.Plan) error {
	m.out = &plan.Plan{}
	o, t := counterparts(base, ours), counterparts(base, theirs)
	for _, s := range plan.Sections() {
		for _, w := range threes(s, base, ours, theirs, o, t) {
			if err := m.record(w); err != nil {
				return err
			}
		}
	}
	return nil
}

// counterparts tells under which key a side has the records of the base whose keys
// follow from their fields.
func counterparts(base, now *plan.Plan) map[plan.Thing]plan.Thing {
	to := make(map[plan.Thing]plan.Thing)
	for _, c := range plandiff.Compare(plan.Expand(base), plan.Expand(now)).Changes {
		if s := plan.SectionOf(c.Thing.Kind); s.HasOwnKeys() || s.Kind == plan.KindPlan {
			continue
		}
		switch c.Op {
		case plandiff.Removed:
			to[c.Was] = plan.Thing{}
		case plandiff.Changed:
			to[c.Was] = c.Thing
		}
	}
	return to
}

// threes puts together what the three plans have of a section.
func threes(s *plan.Section, base, ours, theirs *plan.Plan, o, t map[plan.Thing]plan.Thing) []three {
	var all []three
	taken := make(map[plan.Record]bool)
	find := func(p *plan.Plan, thing plan.Thing, moved map[plan.Thing]plan.Thing) plan.Record {
		if now, ok := moved[thing]; ok {
			thing = now
		}
		r, ok := s.Find(p, thing.Key)
		if !ok || thing.Kind == 0 || taken[r] {
			return nil
		}
		taken[r] = true
		return r
	}
	for _, r := range s.All(base) {
		all = append(all, three{s, r, find(ours, r.Thing(), o), find(theirs, r.Thing(), t)})
	}
	for _, r := range s.All(ours) {
		if !taken[r] {
			all = append(all, three{s, nil, r, find(theirs, r.Thing(), nil)})
		}
	}
	for _, r := range s.All(theirs) {
		if !taken[r] {
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
