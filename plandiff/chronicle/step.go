package chronicle

import (
	"errors"

	"passband.example/plandiff"
	"passband.example/plandiff/history"
	"passband.example/plandiff/plan"
)

// A step is one commit with the plan after it and before it.
type step struct {
	*walker
	commit history.Commit
	now    *snapshot
	before []*snapshot // in each parent; none for a commit without parents
	trails []trail     // what is followed, as this commit calls it

	reach    bool // what is in compared tells what changes reach
	compared []*difference
}

// A difference is what changed from a parent to a commit.
type difference struct {
	*plandiff.Comparison // nil where there is no plan before
	since                *snapshot
}

// judged says whether the plan after the commit can be read.
func (s *step) judged() error { return s.judge(s.ctx, s.now) }

// differences compares the commit with each of its parents, once. Where the plan
// of a parent cannot be read, the nearest one before it that can stands in, so
// that no change is lost. The plan of the commit itself must be readable.
func (s *step) differences(reach bool) ([]*difference, error) {
	if s.compared != nil && (s.reach || !reach) {
		return s.compared, nil
	}
	s.compared, s.reach = nil, reach
	for _, before := range s.before {
		since, err := s.readable(before)
		if err != nil {
			return nil, err
		}
		d := &difference{since: since}
		if since != nil {
			if d.Comparison, err = s.compare(s.ctx, since, s.now, reach); err != nil {
				return nil, err
			}
		}
		s.compared = append(s.compared, d)
	}
	return s.compared, nil
}

// begins reports whether there is no plan before the commit.
func begins(ds []*difference) bool { return len(ds) == 0 || ds[0].Comparison == nil }

// beginning compares the commit with no plan at all.
func (s *step) beginning(reach bool) (*plandiff.Comparison, error) {
	if !reach {
		p, err := s.records(s.ctx, s.now)
		if err != nil {
			return nil, err
		}
		return plandiff.CompareRecords(new(plan.Plan), p), nil
	}
	x, err := s.whole(s.ctx, s.now)
	if err != nil {
		return nil, err
	}
	return plandiff.Compare(plan.Expand(new(plan.Plan)), x), nil
}

// readable gives the nearest plan that can be read, from a snapshot on along
// first parents, or nil where there is none.
func (w *walker) readable(s *snapshot) (*snapshot, error) {
	for {
		err := w.judge(w.ctx, s)
		switch {
		case err == nil:
			return s, nil
		case errors.Is(err, plan.ErrNoPlan):
			return nil, nil
		case !isVerdict(err):
			return nil, err
		}
		c, err := w.repo.Commit(w.ctx, s.hash)
		if err != nil || len(c.Parents) == 0 {
			return nil, err
		}
		parent, err := w.repo.Commit(w.ctx, c.Parents[0])
		if err != nil {
			return nil, err
		}
		if s, err = w.snapshot(w.ctx, parent, s.folder); err != nil {
			return nil, err
		}
	}
}

// untouched reports whether a commit with one parent changed no file that the
// plan is read from.
func (s *step) untouched() bool {
	return len(s.before) == 1 && s.now.folder == s.before[0].folder && sameBytes(s.now, s.before[0])
}
