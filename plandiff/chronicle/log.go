package chronicle

import (
	"context"
	"errors"
	"slices"

	"passband.example/plandiff/history"
	"passband.example/plandiff/plan"
)

// A Query says which entries of a log are wanted. The zero Query wants all.
type Query struct {
	Least plan.Weight // only what is at least that heavy; 0 for all
	By    string      // only commits of whoever has this in the name or address
	Thing string      // only changes of this thing: see Find
	Reach bool        // say also what each change reaches, for which every plan must be worked out
}

// Log tells visit what each commit of the span did to the plan, newest first.
// Commits that changed the text alone are counted and not told. An error of visit
// ends the log and is handed on, except fs.SkipAll, which ends it in peace.
//
// A thing is looked for in the newest plan of the span, and followed back
// through its renames. One that is gone is looked for by the name under which it
// was removed. The error is ErrNoThing where there never was one.
func (r *Reader) Log(ctx context.Context, span Span, q Query, visit func(*Entry) error) (Tally, error) {
	l := &logger{query: q, tell: visit}
	var trails []trail
	if q.Thing != "" {
		var err error
		if trails, err = r.start(ctx, span.To, q.Thing); err != nil {
			return Tally{}, err
		}
		l.asleep = trails[0].waiting
	}
	w, err := r.walk(ctx, span, trails, l)
	l.tally.Cut = w.cut
	if err == nil && l.asleep {
		err = r.noThing(ctx, span.To, q.Thing)
	}
	return l.tally, err
}

// A logger makes entries of the steps of a walk.
type logger struct {
	query  Query
	tell   func(*Entry) error
	tally  Tally
	asleep bool // the thing was not found so far
}

func (l *logger) visit(s *step) error {
	if s.untouched() {
		return nil
	}
	l.tally.Looked++
	e, err := l.entry(s)
	if err != nil || e == nil || !l.wants(e) {
		return err
	}
	l.tally.Shown++
	return l.tell(e)
}

// entry says what the commit did, or gives nil where there is nothing to say.
func (l *logger) entry(s *step) (*Entry, error) {
	e := &Entry{Commit: s.commit, Folder: s.now.folder}
	err := s.judged()
	switch {
	case errors.Is(err, plan.ErrNoPlan):
		return l.ended(s, e)
	case errors.As(err, &e.Problem):
		e.Standing = Broken
		return e, nil
	case err != nil:
		return nil, err
	}
	ds, err := s.differences(l.reach(s))
	if err != nil {
		return nil, err
	}
	if begins(ds) {
		return l.began(s, e)
	}
	return l.changed(s, e, ds), nil
}

func (l *logger) ended(s *step, e *Entry) (*Entry, error) {
	for _, before := range s.before {
		if before.hasPlan() {
			e.Standing = Ended
			return e, nil
		}
	}
	return nil, nil
}

// began is the commit with which the plan begins: all of it is new.
func (l *logger) began(s *step, e *Entry) (*Entry, error) {
	var err error
	if e.Comparison, err = s.beginning(l.reach(s)); err != nil {
		return nil, err
	}
	e.Standing = Began
	e.Causes = l.heavy(about(e.Comparison.Causes, s.trails))
	if len(s.trails) > 0 && len(e.Causes) == 0 {
		return nil, nil
	}
	return e, nil
}

// reach reports whether it matters for a step what changes reach: a channel is
// followed by that.
func (l *logger) reach(s *step) bool {
	return l.query.Reach || slices.ContainsFunc(s.trails, func(t trail) bool { return t.channel })
}

// changed is a commit between two plans.
func (l *logger) changed(s *step, e *Entry, ds []*difference) *Entry {
	e.Standing, e.Comparison = Changed, ds[0].Comparison
	own := ds[0].Causes
	for _, other := range ds[1:] {
		if other.Comparison != nil {
			own = inBoth(own, other.Causes)
		}
	}
	e.Was = s.before[0].folder
	e.Moved = e.Was != s.now.folder
	if ds[0].Empty() && !e.IsMerge() {
		if e.Moved && len(s.trails) == 0 {
			return e
		}
		l.tally.Reformatted++
		return nil
	}
	if since := ds[0].since; since != s.before[0] {
		e.Since = &history.Commit{Hash: since.hash}
	}
	own = about(own, s.trails)
	e.Causes = l.heavy(own)
	if len(e.Causes) == 0 && (!e.Moved || len(s.trails) > 0) {
		if len(own) > 0 && l.wants(e) {
			l.tally.Lighter++
		}
		return nil
	}
	return e
}

// follow goes on with the names that the plan before has for what is followed.
func (l *logger) follow(s *step) ([][]trail, error) {
	older := make([][]trail, len(s.before))
	if err := s.judged(); err != nil {
		if !isVerdict(err) {
			return nil, err
		}
		for i := range older {
			older[i] = slices.Clone(s.trails) // nobody can say what it was called here
		}
		return older, nil
	}
	ds, err := s.differences(l.reach(s))
	if err != nil {
		return nil, err
	}
	for i, d := range ds {
		if d.Comparison == nil {
			continue
		}
		back := backwards(d.Comparison)
		for _, t := range s.trails {
			if was, ok := t.before(d.Comparison, back); ok {
				older[i] = joined(older[i], []trail{was})
				l.asleep = l.asleep && was.waiting
			}
		}
	}
	return older, nil
}

// watch gives nil: every commit is told of.
func (l *logger) watch(*plan.Assembly, []trail) *watch { return nil }
