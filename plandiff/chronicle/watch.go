package chronicle

import (
	"slices"

	"passband.example/plandiff/history"
	"passband.example/plandiff/plan"
)

// A watch is what must stay the same from one commit to another for it to say nothing about
// what is followed: some records, and the files that they stand in.
type watch struct {
	things map[plan.Thing]bool
	files  map[string]bool
	paths  bool // and all channels with words of their own for a talk path, wherever
}

// newWatch watches things of a plan and those that they refer to, whose keys may change. It
// gives nil where one of them is not there, so that any commit may matter.
func newWatch(a *plan.Assembly, things []plan.Thing) *watch {
	w := &watch{things: make(map[plan.Thing]bool), files: make(map[string]bool)}
	for _, thing := range things {
		r, ok := a.Find(thing)
		if !ok {
			return nil
		}
		targets, ok := a.Targets(r)
		if !ok {
			return nil
		}
		for _, t := range append(targets, thing) {
			if r, ok := a.Find(t); ok {
				w.things[t], w.files[r.Place().File] = true, true
			}
		}
	}
	return w
}

// worthReading gives the files that are worth reading ahead; nil means all.
func (w *watch) worthReading() map[string]bool {
	if w.paths {
		return nil
	}
	return w.files
}

// matters reports whether a record is watched.
func (w *watch) matters(r plan.Record) bool {
	spec, ok := r.(*plan.ChannelSpec)
	return w.things[r.Thing()] || w.paths && ok && spec.Path.Written()
}

// part gives a plan of what is watched alone, which is said of p. A talk path needs more.
func (w *watch) part(p *plan.Plan) (*plan.Plan, error) {
	if w == nil || w.paths {
		return p, nil
	}
	part := new(plan.Plan)
	for thing := range w.things { // Expand sorts them
		if r, ok := p.Find(thing); ok {
			if err := part.Add(r); err != nil {
				return nil, err
			}
		}
	}
	return part, nil
}

// passes handles a commit with one parent that says nothing about what is followed: it
// changes no record that is watched. Whether its plan can be read is not looked at.
func (w *walker) passes(c history.Commit, l *line, changes []history.BlobChange) (bool, error) {
	if len(l.trails) == 0 || len(c.Parents) != 1 {
		return false, nil
	}
	if l.watch == nil {
		if !l.now.judged || l.now.err != nil {
			return false, nil
		}
		a, err := w.assemble(w.ctx, l.now)
		if err != nil {
			return false, err
		}
		if l.watch = w.teller.watch(a, l.trails); l.watch == nil {
			return false, nil
		}
		w.ahead.want(l.watch.worthReading())
	}
	if l.watch.quiet(changes) {
		l.behind, l.passed = append(l.behind, changes), append(l.passed, c)
		return true, w.carry(c.Parents[0], l)
	}
	l.catchUp(c.Hash)
	before := l.now.back(c.Parents[0], changes)
	if !before.hasPlan() {
		return false, nil
	}
	touched, err := w.touches(l, before, changes)
	if err != nil || touched {
		return false, err
	}
	l.now, l.passed = before, append(l.passed, c)
	return true, w.carry(c.Parents[0], l)
}

// quiet reports whether changes only give other contents to files that are not watched.
func (w *watch) quiet(changes []history.BlobChange) bool {
	return !slices.ContainsFunc(changes, func(c history.BlobChange) bool {
		return w.paths || w.files[c.Path] || !c.Old.Exists() || !c.New.Exists() || c.Old.Mode != c.New.Mode
	})
}

// catchUp brings the snapshot of a line to the commit with a hash, past quiet changes.
func (l *line) catchUp(hash string) {
	if len(l.behind) > 0 {
		l.now = l.now.back(hash, slices.Concat(l.behind...))
		l.behind = nil
	}
}

// touches reports whether a commit may have changed a record that is watched.
func (w *walker) touches(l *line, before *snapshot, changes []history.BlobChange) (bool, error) {
	for _, change := range changes {
		name := change.Path
		if !plan.MayMatter(name) || !l.watch.paths && !l.watch.files[name] {
			continue
		}
		if !before.has(name) || !l.now.has(name) {
			return true, nil
		}
		now, err := w.file(w.ctx, l.now, name, nil)
		if err != nil {
			return false, err
		}
		was, err := w.file(w.ctx, before, name, now)
		if err != nil {
			return false, err
		}
		if plan.Differ(was, now, l.watch.matters) {
			return true, nil
		}
	}
	return false, nil
}

// land looks again at the commits that a line passed, where the plan at the commit to which
// it came, the one with the hash, cannot be read: the first of them that can was compared
// with an older plan than its parent, and what is followed may have changed there after all.
func (w *walker) land(hash string, l *line) error {
	passed := l.passed
	if l.passed = nil; len(passed) == 0 {
		return nil
	}
	l.catchUp(hash)
	if err := w.judge(w.ctx, l.now); !isVerdict(err) {
		return err
	}
	l.watch = nil
	before := l.now
	for _, c := range slices.Backward(passed) {
		now, err := w.snapshot(w.ctx, c, l.now.folder)
		if err != nil {
			return err
		}
		err = w.judge(w.ctx, now)
		if isVerdict(err) {
			before = now
			continue
		}
		if err != nil {
			return err
		}
		older, err := w.teller.follow(&step{walker: w, commit: c, now: now, before: []*snapshot{before}, trails: l.trails})
		if err == nil {
			l.trails = older[0]
		}
		return err
	}
	return nil
}
