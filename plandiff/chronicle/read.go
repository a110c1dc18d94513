package chronicle

import (
	"context"

	"passband.example/plandiff"
	"passband.example/plandiff/plan"
)

// assemble brings the files of a snapshot together.
func (r *Reader) assemble(ctx context.Context, s *snapshot) (*plan.Assembly, error) {
	if s.assembly != nil {
		return s.assembly, nil
	}
	s.list()
	a, from := new(plan.Assembly), new(snapshot)
	if s.newer != nil && s.newer.assembly != nil {
		a, from = s.newer.assembly, s.newer
	}
	names := changedFiles(from, s)
	from.assembly, s.newer = nil, nil
	for _, name := range names {
		if !s.has(name) {
			a.Remove(name)
			continue
		}
		near, _ := a.File(name)
		f, err := r.file(ctx, s, name, near)
		if err != nil {
			return nil, err
		}
		a.Put(f)
	}
	r.files.most = max(r.files.most, 4*a.Size()) // the plan itself, and some of its past
	s.assembly = a
	return a, nil
}

// judge says whether the plan of a snapshot can be read. The error is
// plan.ErrNoPlan, an *Unreadable, or a failure to read at all.
func (r *Reader) judge(ctx context.Context, s *snapshot) error {
	if s.judged || !s.hasPlan() {
		return s.err
	}
	a, err := r.assemble(ctx, s)
	if err != nil {
		return err
	}
	s.numbers = a.Numbers()
	if s.judged = true; len(s.refused) == 0 && a.Sound() {
		return nil
	}
	p := a.Compose(s.refused)
	if len(p.Problems) > 0 {
		s.err = &Unreadable{First: p.Problems[0], Count: len(p.Problems)}
	}
	return s.err
}

// whole works out the plan of a snapshot that can be read.
func (r *Reader) whole(ctx context.Context, s *snapshot) (*plan.Expansion, error) {
	if s.x != nil {
		return s.x, nil
	}
	p, err := r.records(ctx, s)
	if err != nil {
		return nil, err
	}
	s.x = plan.Expand(p)
	return s.x, nil
}

// records gives the plan of a snapshot that can be read, not worked out.
func (r *Reader) records(ctx context.Context, s *snapshot) (*plan.Plan, error) {
	if s.plan != nil {
		return s.plan, nil
	}
	a, err := r.assemble(ctx, s)
	if err != nil {
		return nil, err
	}
	s.plan = a.Compose(s.refused)
	return s.plan, nil
}

// compare tells the difference between two plans that can be read. Where what
// changes reach is not asked for, it looks at the files alone that differ, if that
// is enough.
func (r *Reader) compare(ctx context.Context, old, new *snapshot, reach bool) (*plandiff.Comparison, error) {
	if !reach {
		c, err := r.compareParts(ctx, old, new)
		if c != nil || err != nil {
			return c, err
		}
		return r.compareRecords(ctx, old, new)
	}
	before, err := r.whole(ctx, old)
	if err != nil {
		return nil, err
	}
	after, err := r.whole(ctx, new)
	if err != nil {
		return nil, err
	}
	return plandiff.Compare(before, after), nil
}

// compareRecords compares two plans without working them out.
func (r *Reader) compareRecords(ctx context.Context, old, new *snapshot) (*plandiff.Comparison, error) {
	before, err := r.records(ctx, old)
	if err != nil {
		return nil, err
	}
	after, err := r.records(ctx, new)
	if err != nil {
		return nil, err
	}
	return plandiff.CompareRecords(before, after), nil
}

// compareParts compares what differs in the files that differ. It gives nil where that is
// not enough.
func (r *Reader) compareParts(ctx context.Context, old, new *snapshot) (*plandiff.Comparison, error) {
	a, err := r.assemble(ctx, old)
	if err != nil || a.Numbers() || new.numbers {
		return nil, err
	}
	var gone, came []*plan.File
	for _, name := range changedFiles(old, new) {
		var was, now *plan.File
		if old.has(name) {
			if was, err = r.file(ctx, old, name, nil); err != nil {
				return nil, err
			}
		}
		if new.has(name) {
			if now, err = r.file(ctx, new, name, was); err != nil {
				return nil, err
			}
		}
		switch {
		case was == nil:
			came = append(came, now)
		case now == nil:
			gone = append(gone, was)
		default:
			before, after := plan.Parts(was, now)
			gone, came = append(gone, before), append(came, after)
		}
	}
	return plandiff.CompareParts(plan.Compose(nil, gone...), plan.Compose(nil, came...), a.Mentions), nil
}
