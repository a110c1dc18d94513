package plandiff

import (
	"fmt"
	"slices"

	"passband.example/plandiff/plan"
)

// Apply makes of a plan what the changes say. Applying Compare(old, new).Changes
// to the old plan gives the new one. It fails, and gives no plan, where a change
// does not fit: a record that is not there, or a field that holds something else.
func Apply(old *plan.Plan, changes []Change) (*plan.Plan, error) {
	a := &applier{renames: plan.Renames{}, edits: map[plan.Thing][]Change{}, gone: map[plan.Thing]bool{}}
	for _, c := range changes {
		a.sort(c)
	}
	now := &plan.Plan{Files: slices.Clone(old.Files)}
	for _, s := range plan.Sections() {
		for _, r := range s.All(old) {
			if err := a.carry(now, s, r); err != nil {
				return nil, err
			}
		}
	}
	for _, c := range a.added {
		r, err := plan.NewRecord(c.Thing)
		if err != nil {
			return nil, err
		}
		if err := setAll(r, c.Edits); err != nil {
			return nil, err
		}
		if err := now.Add(r); err != nil {
			return nil, fmt.Errorf("cannot add %s: %w", c.Thing, err)
		}
	}
	for thing := range a.edits {
		return nil, fmt.Errorf("cannot change %s: there is none", thing)
	}
	for thing := range a.gone {
		return nil, fmt.Errorf("cannot remove %s: there is none", thing)
	}
	return now, nil
}

type applier struct {
	renames plan.Renames
	edits   map[plan.Thing][]Change // by what the old plan calls it
	gone    map[plan.Thing]bool
	added   []Change
}

func (a *applier) sort(c Change) {
	switch c.Op {
	case Added:
		a.added = append(a.added, c)
	case Removed:
		a.gone[c.Was] = true
	case Renamed:
		a.renames[c.Was] = c.Thing.Key
	case Changed:
		a.edits[c.Was] = append(a.edits[c.Was], c)
	}
}

// carry takes a record of the old plan over into the new one, with its edits.
func (a *applier) carry(now *plan.Plan, s *plan.Section, old plan.Record) error {
	was := old.Thing()
	if a.gone[was] {
		delete(a.gone, was)
		return nil
	}
	r, err := a.rewrite(s, old)
	if err != nil {
		return err
	}
	for _, c := range a.edits[was] {
		for _, e := range c.Edits {
			f := s.Field(e.Field)
			if f == nil {
				return fmt.Errorf("cannot change %s: it has no %s", was, e.Field)
			}
			if holds := f.Texts(old, nil); !sameTexts(f.Form, holds, e.Old) {
				return fmt.Errorf("cannot change %s of %s from %q: it is %q", e.Field, was, e.Old, holds)
			}
		}
		if err := setAll(r, c.Edits); err != nil {
			return err
		}
	}
	delete(a.edits, was)
	if err := now.Add(r); err != nil {
		return fmt.Errorf("cannot take %s over: %w", was, err)
	}
	return nil
}

// sameTexts compares values, in a set without their order.
func sameTexts(form plan.Form, x, y []string) bool {
	if form == plan.Set {
		x, y = slices.Sorted(slices.Values(x)), slices.Sorted(slices.Values(y))
	}
	return slices.Equal(x, y)
}

// rewrite copies a record under its new key, references in new keys too.
func (a *applier) rewrite(s *plan.Section, old plan.Record) (plan.Record, error) {
	t := old.Thing()
	t.Key = a.renames.Key(t.Kind, t.Key)
	r, err := plan.NewRecord(t)
	if err != nil {
		return nil, err
	}
	for i := range s.Fields {
		f := &s.Fields[i]
		if texts := f.Texts(old, a.renames); len(texts) > 0 {
			if err := f.Set(r, texts); err != nil {
				return nil, fmt.Errorf("cannot copy %s of %s: %w", f.Name, t, err)
			}
		}
	}
	return r, nil
}

func setAll(r plan.Record, edits []Edit) error {
	s := plan.SectionOf(r.Thing().Kind)
	for _, e := range edits {
		f := s.Field(e.Field)
		if f == nil {
			return fmt.Errorf("cannot change %s: it has no %s", r.Thing(), e.Field)
		}
		if err := f.Set(r, e.New); err != nil {
			return fmt.Errorf("cannot change %s of %s: %w", e.Field, r.Thing(), err)
		}
	}
	return nil
}

// Invert gives the changes that undo these.
func Invert(changes []Change) []Change {
	undo := make([]Change, 0, len(changes))
	for _, c := range changes {
		u := c
		u.Thing, u.Was, u.At, u.WasAt = c.Was, c.Thing, c.WasAt, c.At
		switch c.Op {
		case Added:
			u.Op, u.Thing, u.Was = Removed, c.Thing, c.Thing
		case Removed:
			u.Op, u.Was = Added, plan.Thing{}
		}
		u.Edits = make([]Edit, len(c.Edits))
		for i, e := range c.Edits {
			u.Edits[i] = Edit{Field: e.Field, Form: e.Form, Old: e.New, New: e.Old, OldAt: e.NewAt, NewAt: e.OldAt, Steps: invertSteps(e.Steps)}
		}
		undo = append(undo, u)
	}
	slices.SortStableFunc(undo, orderOfChanges)
	return undo
}

func invertSteps(steps []Step) []Step {
	var undo []Step
	for _, s := range steps {
		u := Step{Op: s.Op, Text: s.Text, From: s.To, To: s.From}
		switch s.Op {
		case Came:
			u.Op = Went
		case Went:
			u.Op = Came
		}
		undo = append(undo, u)
	}
	return undo
}
