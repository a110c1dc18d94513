package chronicle

import (
	"slices"

	"passband.example/plandiff"
	"passband.example/plandiff/history"
	"passband.example/plandiff/plan"
)

// visit has nothing to do: all is done in follow.
func (t *tracer) visit(*step) error { return nil }

// follow settles what the commit changed, and hands the rest to the parents: each
// attribute to the first one that has the same.
func (t *tracer) follow(s *step) ([][]trail, error) {
	older := make([][]trail, len(s.before))
	if err := s.judged(); err != nil {
		if !isVerdict(err) {
			return nil, err
		}
		if len(older) > 0 {
			older[0] = s.trails // nobody can say what it was here
		}
		return older, nil
	}
	ds, err := t.differences(s)
	if err != nil {
		return nil, err
	}
	if begins(ds) {
		all, err := t.beginning(s)
		if err != nil {
			return nil, err
		}
		ds = []*difference{{Comparison: all}}
	}
	for rest := s.trails; len(rest) > 0; {
		for i, d := range ds {
			if d.Comparison == nil {
				continue
			}
			var same []trail
			if same, rest = split(d.Comparison, rest); i < len(older) {
				older[i] = joined(older[i], same)
			}
		}
		rest = t.settle(&s.commit, ds[0].Comparison, rest)
	}
	return older, nil
}

// differences compares the commit with its parents, with what changes reach where
// that may touch a channel.
func (t *tracer) differences(s *step) ([]*difference, error) {
	ds, err := s.differences(false)
	if err != nil || !slices.ContainsFunc(s.trails, func(tr trail) bool { return tr.channel }) {
		return ds, err
	}
	if !slices.ContainsFunc(ds, func(d *difference) bool { return d.Comparison != nil && t.mayTouch(d.Comparison) }) {
		return ds, nil
	}
	if ds, err = s.differences(true); err != nil {
		return nil, err
	}
	for _, d := range ds {
		for _, tr := range s.trails {
			if d.Comparison != nil && tr.channel {
				was, _ := tr.channelBefore(d.Comparison, backwards(d.Comparison))
				t.makes(d.Old, was.thing.Key)
			}
		}
	}
	return ds, nil
}

// beginning tells that all records of the plan after a commit are new, or those alone that
// have to do with what is followed.
func (t *tracer) beginning(s *step) (*plandiff.Comparison, error) {
	p, err := s.records(s.ctx, s.now)
	if err != nil {
		return nil, err
	}
	a, err := s.assemble(s.ctx, s.now)
	if err != nil {
		return nil, err
	}
	if p, err = t.watch(a, s.trails).part(p); err != nil {
		return nil, err
	}
	c := &plandiff.Comparison{Old: plan.Expand(new(plan.Plan)), New: plan.Expand(p)}
	for _, section := range plan.Sections() {
		for _, r := range section.All(p) {
			c.Changes = append(c.Changes, plandiff.Change{Op: plandiff.Added, Thing: r.Thing()})
		}
	}
	return c, nil
}

// watch watches the records that are followed, and of a channel those that it is made of. A
// talk path may get a channel with words of its own from any file.
func (t *tracer) watch(a *plan.Assembly, trails []trail) *watch {
	var things []plan.Thing
	paths := false
	for _, tr := range trails {
		if !tr.channel {
			things = append(things, tr.thing)
			continue
		}
		r, ok := a.Find(plan.Thing{Kind: plan.KindChannel, Key: tr.thing.Key})
		paths = paths || !ok || r.(*plan.ChannelSpec).Path.Written()
		for made := range t.made {
			if _, ok := a.Find(made); ok {
				things = append(things, made)
			}
		}
	}
	w := newWatch(a, things)
	if w != nil {
		w.paths = paths
	}
	return w
}

// makes notes the records that a channel is made of.
func (t *tracer) makes(x *plan.Expansion, name string) {
	ch, ok := x.Find(name)
	if !ok {
		return
	}
	if t.made == nil {
		t.made = make(map[plan.Thing]bool)
	}
	for _, b := range ch.Because {
		t.made[b.Thing] = true
	}
	t.made[plan.Thing{Kind: plan.KindReceiveList, Key: ch.ReceiveList}] = true
}

// mayTouch reports whether a change may make a difference to a channel that is
// traced: one of a record that it is made of, or of a channel for a talk path.
func (t *tracer) mayTouch(c *plandiff.Comparison) bool {
	return slices.ContainsFunc(c.Changes, func(change plandiff.Change) bool {
		return t.made[change.Thing] || change.Thing.Kind == plan.KindChannel && change.Field("path") != nil
	})
}

// split tells what of the trails is the same in the plan before, as that calls
// it, and what differs.
func split(c *plandiff.Comparison, trails []trail) (same, differs []trail) {
	back := backwards(c)
	for _, tr := range trails {
		touched, isNew := tr.touched(c, back)
		stay, gone := make(map[string]string), make(map[string]string)
		for field, attribute := range tr.fields {
			if _, changed := touched[field]; changed || isNew {
				gone[field] = attribute
			} else {
				stay[field] = attribute
			}
		}
		if len(gone) > 0 {
			d := tr
			d.fields = gone
			differs = append(differs, d)
		}
		if len(stay) > 0 {
			tr.fields = stay
			was, _ := tr.before(c, back)
			same = append(same, was)
		}
	}
	return same, differs
}

// settle notes a commit as the origin of what it changed. A channel that is new
// inherits: what its records say of it may be older than itself, and is followed on.
func (t *tracer) settle(commit *history.Commit, c *plandiff.Comparison, trails []trail) (inherited []trail) {
	back := backwards(c)
	for _, tr := range trails {
		touched, isNew := tr.touched(c, back)
		for field, attribute := range tr.fields {
			if from := tr.inherits(c, field); isNew && len(from) > 0 {
				inherited = append(inherited, from...)
				continue
			}
			o := touched[field]
			o.Commit, o.Op, o.As = commit, plandiff.Changed, tr.thing.Key
			if isNew {
				o.Op = plandiff.Added
			}
			t.set(tr, attribute, o)
		}
	}
	return inherited
}
