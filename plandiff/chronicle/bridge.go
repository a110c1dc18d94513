package chronicle

import (
	"slices"

	"passband.example/plandiff/history"
)

// arrive gives what is known of a commit. Where commits that changed nothing of
// the plan stand between it and its nearest visited descendants, they are read, so
// that what is followed reaches the right branch: by way of all of them, and not of
// the first alone.
func (w *walker) arrive(c history.Commit) (*line, error) {
	for w.follows {
		bridged, err := w.bridge(c)
		if err != nil {
			return nil, err
		}
		if !bridged {
			break
		}
	}
	l, ok := w.lines[c.Hash]
	switch {
	case ok:
		delete(w.lines, c.Hash)
		return l, nil
	case !w.follows:
		return &line{}, nil
	}
	return w.anywhere(), nil
}

// anywhere takes every line for one that may lead here, which shows too much
// rather than too little. It happens where clocks were wrong when commits were made.
func (w *walker) anywhere() *line {
	l := &line{}
	for _, other := range w.lines {
		l.trails = joined(l.trails, other.trails)
	}
	return l
}

// bridge takes one commit that is not going to be visited out of the lines, and
// puts its parents in. It tells whether there was one. Where c is known already, older
// ones are left for later: none of them leads to c.
func (w *walker) bridge(c history.Commit) (bool, error) {
	_, known := w.lines[c.Hash]
	var waiting []history.Commit
	for hash := range w.lines {
		if hash == c.Hash {
			continue
		}
		h, err := w.repo.Commit(w.ctx, hash)
		if err != nil {
			return false, err
		}
		if !known || !h.Committed.Before(c.Committed) {
			waiting = append(waiting, h)
		}
	}
	slices.SortFunc(waiting, func(a, b history.Commit) int { return b.Committed.Compare(a.Committed) })
	for _, h := range waiting {
		quiet, err := w.quiet(h, c)
		if err != nil {
			return false, err
		}
		if quiet {
			return true, w.pass(h)
		}
	}
	return false, nil
}

// quiet reports whether the walk leaves a commit out.
func (w *walker) quiet(h, next history.Commit) (bool, error) {
	switch len(h.Parents) {
	case 0:
		return false, nil
	case 1:
		return w.sameFolder(h.Parents[0], h)
	}
	return h.Committed.After(next.Committed), nil // it would have come before
}

// sameFolder reports whether nothing differs in the folder of the plan.
func (w *walker) sameFolder(parent string, c history.Commit) (bool, error) {
	p, err := w.repo.Commit(w.ctx, parent)
	if err != nil {
		return false, err
	}
	changes, err := w.repo.Changes(w.ctx, p, c, w.folder)
	return len(changes) == 0, err
}

// pass hands what is known of a commit that the walk leaves out to its parents:
// to the one that the walk follows, or to all of a merge that took something of
// each.
func (w *walker) pass(h history.Commit) error {
	l := w.lines[h.Hash]
	delete(w.lines, h.Hash)
	if len(h.Parents) == 1 {
		return w.carry(h.Parents[0], l)
	}
	for _, hash := range h.Parents {
		same, err := w.sameFolder(hash, h)
		if err != nil {
			return err
		}
		if same {
			return w.carry(hash, l)
		}
	}
	if err := w.land(h.Hash, l); err != nil {
		return err
	}
	now, err := w.snapshot(w.ctx, h, w.folder)
	if err != nil {
		return err
	}
	s := &step{walker: w, commit: h, now: now, trails: l.trails}
	if s.before, err = w.parents(h); err != nil {
		return err
	}
	older, err := w.follow(s)
	if err != nil {
		return err
	}
	for i, hash := range h.Parents {
		if err := w.carry(hash, &line{now: s.before[i], trails: older[i]}); err != nil {
			return err
		}
	}
	return nil
}

// follow asks the teller what the parents call the things that are followed.
func (w *walker) follow(s *step) ([][]trail, error) {
	if len(s.trails) == 0 {
		return make([][]trail, len(s.before)), nil
	}
	return w.teller.follow(s)
}
