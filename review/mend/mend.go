package mend

import (
	"context"
	"fmt"
	"maps"
	"slices"

	"passband.example/plandiff"
	"passband.example/plandiff/plan"
	"passband.example/plandiff/rewrite"
	"passband.example/review"
)

// A Result is what became of the mends that a plan's findings propose.
type Result struct {
	Files  map[string][]byte // the files that are different now, whole
	Done   []Done            // what is mended
	Left   []Left            // what is not, though there was a mend
	Before *plan.Expansion
	After  *plan.Expansion

	Verdict *review.Verdict // of the plan as it is now
}

// A Done is a finding that was mended, at the place where it was, and the milder ones that
// came with its mend and are there now.
type Done struct {
	Finding review.Finding
	Brought []review.Finding
}

// A Left is a finding whose mend was not carried out.
type Left struct {
	Finding review.Finding
	Why     string
}

// Plan mends what a machine can tell of the plan that these files hold, by their
// names, as a check by the given rules proposes. It fails where part of the plan
// could not be read, and when ctx ends.
func Plan(ctx context.Context, rules []*review.Rule, files map[string][]byte, today plan.Date) (*Result, error) {
	w := &work{ctx: ctx, rules: rules, today: today, files: maps.Clone(files), changed: map[string][]byte{}, given: map[string]string{}}
	p, err := rewrite.Load(files)
	if err != nil {
		return nil, err
	}
	if len(p.Problems) > 0 {
		return nil, fmt.Errorf("nothing is mended before the whole plan can be read: %w", p.Problems[0])
	}
	w.now = plan.Expand(p)
	r := &Result{Before: w.now}
	tried := 0 // how many were mended when all that is left was tried
	for {
		if r.Verdict, err = review.Check(ctx, rules, w.now, today); err != nil {
			return nil, err
		}
		next := w.together(r.Verdict.Findings)
		if len(next) == 0 {
			if len(w.given) == 0 || tried == len(w.done) {
				break
			}
			tried = len(w.done) // what was mended since may let those pass that were given up
			clear(w.given)
			continue
		}
		if err := w.some(next); err != nil {
			return nil, err
		}
	}
	for _, f := range r.Verdict.Findings {
		if why, tried := w.given[f.ID()]; tried && len(f.Mend) > 0 {
			r.Left = append(r.Left, Left{f, why})
		}
	}
	r.Files, r.Done, r.After = w.changed, w.done, w.now
	r.keepBrought()
	return r, nil
}

// keepBrought leaves out what a mend brought and a later one took away.
func (r *Result) keepBrought() {
	now := make(map[string]bool)
	for _, f := range r.Verdict.Findings {
		now[f.ID()] = true
	}
	for i := range r.Done {
		r.Done[i].Brought = slices.DeleteFunc(r.Done[i].Brought, func(f review.Finding) bool { return !now[f.ID()] })
	}
}

// work is a plan in the course of being mended.
type work struct {
	ctx   context.Context
	rules []*review.Rule
	today plan.Date

	files   map[string][]byte // all, as they are now
	changed map[string][]byte // those of them that are not as they were
	now     *plan.Expansion
	done    []Done
	given   map[string]string // why a finding was given up, by its ID
}

// together gives the findings whose mends may be carried out at once: no two of them
// touch the same field.
func (w *work) together(fs []review.Finding) []review.Finding {
	type field struct {
		thing plan.Thing
		name  string
	}
	touched := make(map[field]bool)
	var all []review.Finding
	for _, f := range fs {
		if _, tried := w.given[f.ID()]; tried || len(f.Mend) == 0 {
			continue
		}
		free := true
		for _, c := range f.Mend {
			for _, e := range c.Edits {
				free = free && !touched[field{c.Was, e.Field}]
				touched[field{c.Was, e.Field}] = true
			}
		}
		if free {
			all = append(all, f)
		}
	}
	return all
}

// some carries out mends: all of them, or as many of the first as go, or it gives up
// the first alone.
func (w *work) some(fs []review.Finding) error {
	why, err := w.carry(fs)
	switch {
	case err != nil || why == "":
		return err
	case len(fs) == 1:
		w.given[fs[0].ID()] = why
		return nil
	}
	return w.some(fs[:len(fs)/2])
}

// carry carries out mends, or says why they do not do.
func (w *work) carry(fs []review.Finding) (why string, err error) {
	var changes []plandiff.Change
	for _, f := range fs {
		changes = append(changes, f.Mend...)
	}
	texts, err := rewrite.Apply(w.files, w.now.Plan, changes)
	if err != nil {
		return err.Error(), nil
	}
	files := maps.Clone(w.files)
	maps.Copy(files, texts)
	p, err := rewrite.Load(files)
	if err != nil {
		return "", err
	}
	next := plan.Expand(p)
	v, err := review.Judge(w.ctx, w.rules, plandiff.Compare(w.now, next), nil, w.today)
	if err != nil {
		return "", err
	}
	brought, why := outcome(v, fs)
	if why != "" {
		return why, nil
	}
	w.files, w.now = files, next
	maps.Copy(w.changed, texts)
	for _, f := range fs {
		w.done = append(w.done, Done{f, brought})
	}
	return "", nil
}

// outcome says what is wrong with mends that led to this verdict: one of the findings is
// not gone, or another came. A mend that is carried alone may bring milder findings than its
// own: the plan is better by it. Of several nobody knows which of them brings what.
func outcome(v *review.Verdict, mended []review.Finding) (brought []review.Finding, why string) {
	for _, f := range v.Findings {
		if f.Standing != review.New {
			continue
		}
		if len(mended) > 1 || f.Severity >= mended[0].Severity {
			return nil, fmt.Sprintf("it would bring another fault: %s [%s]", f.What, f.Rule)
		}
		brought = append(brought, f)
	}
	gone := make(map[string]int)
	for _, f := range v.Gone {
		gone[f.ID()]++
	}
	for _, f := range mended {
		if gone[f.ID()]--; gone[f.ID()] < 0 {
			return nil, "the fault would still be there"
		}
	}
	return brought, ""
}
