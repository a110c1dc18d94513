package chronicle

import (
	"context"
	"errors"
	"io/fs"

	"passband.example/plandiff/history"
	"passband.example/plandiff/plan"
)

// A line is what is known of a commit before it is visited.
type line struct {
	now    *snapshot // nil where its folders must be read
	trails []trail
	watch  *watch                 // what would have to change for it to matter; nil where that is not known
	passed []history.Commit       // those before, newest first, that did not matter
	behind [][]history.BlobChange // what the last of those changed since now, newest first
}

// A teller gets every commit of a walk.
type teller interface {
	// visit is told of a commit that changed a file of the plan.
	visit(s *step) error
	// follow gives what the parents call the things that are followed, by parent.
	// It is also asked of merges that changed nothing themselves.
	follow(s *step) ([][]trail, error)
	// watch tells what would have to change in a plan for a commit to matter, or gives nil
	// where any may.
	watch(a *plan.Assembly, trails []trail) *watch
}

// A walker goes through the commits that changed the plan, newest first, and
// carries along every branch what was found on the way.
type walker struct {
	*Reader
	ctx     context.Context
	folder  string
	teller  teller
	follows bool             // there are trails
	lines   map[string]*line // by hash of a commit that is still to come
	moved   *departure       // where the plan came from, once that was found
	looked  int
	cut     bool // a shallow clone hides what was before
}

// A departure is where a plan stood before it moved to another folder.
type departure struct {
	commit history.Commit
	folder string
}

// walk visits the commits of a span that changed a file of the plan, newest
// first, and follows trails from the newest commit on. It goes on in the folder
// where the plan stood before it moved.
func (r *Reader) walk(ctx context.Context, span Span, trails []trail, t teller) (*walker, error) {
	w := &walker{Reader: r, ctx: ctx, folder: r.dir, teller: t, follows: len(trails) > 0, lines: map[string]*line{}}
	w.lines[span.To.Hash] = &line{trails: trails}
	for seen := map[string]bool{}; ; {
		seen[w.folder] = true
		err := r.walkAhead(ctx, span, w.folder, w.commit)
		if errors.Is(err, fs.SkipAll) {
			return w, nil
		}
		if err != nil {
			return w, err
		}
		if w.moved == nil || seen[w.moved.folder] {
			return w, nil
		}
		span.To, w.folder, w.moved = w.moved.commit, w.moved.folder, nil
	}
}

// commit handles one commit of the walk.
func (w *walker) commit(c history.Commit, changes []history.BlobChange) error {
	w.looked++
	if w.Progress != nil {
		w.Progress(Progress{Commits: w.looked, Back: c.When})
	}
	l, err := w.arrive(c)
	if err != nil {
		return err
	}
	if c.Truncated {
		w.cut = true // what it adds is older than what can be seen
		return nil
	}
	if l.now == nil || l.now.folder != w.folder {
		if l.now, err = w.snapshot(w.ctx, c, w.folder); err != nil {
			return err
		}
	}
	if passes, err := w.passes(c, l, changes); passes || err != nil {
		return err
	}
	if err := w.land(c.Hash, l); err != nil {
		return err
	}
	s := &step{walker: w, commit: c, now: l.now, trails: l.trails}
	if len(c.Parents) == 1 {
		err = w.oneParent(s, changes)
	} else {
		s.before, err = w.parents(c)
	}
	if err != nil {
		return err
	}
	if err := w.teller.visit(s); err != nil {
		return err
	}
	return w.leave(s)
}

// oneParent works out the plan before a commit from the files that it changed.
func (w *walker) oneParent(s *step, changes []history.BlobChange) error {
	before := s.now.back(s.commit.Parents[0], changes)
	if s.now.hasPlan() && !before.hasPlan() {
		from, err := w.departed(s)
		if err != nil {
			return err
		}
		if from != nil {
			before, w.moved = from.at, &from.departure
		}
	}
	s.before = []*snapshot{before}
	return nil
}

// parents reads the plan in each parent of a commit.
func (w *walker) parents(c history.Commit) ([]*snapshot, error) {
	var all []*snapshot
	for _, hash := range c.Parents {
		parent, err := w.repo.Commit(w.ctx, hash)
		if err != nil {
			return nil, err
		}
		before, err := w.snapshot(w.ctx, parent, w.folder)
		if err != nil {
			return nil, err
		}
		all = append(all, before)
	}
	return all, nil
}

// leave carries what is known over to the parents of a commit.
func (w *walker) leave(s *step) error {
	older := make([][]trail, len(s.before))
	if len(s.trails) > 0 {
		var err error
		if older, err = w.teller.follow(s); err != nil {
			return err
		}
	}
	for i, hash := range s.commit.Parents {
		if err := w.carry(hash, &line{now: s.before[i], trails: older[i]}); err != nil {
			return err
		}
	}
	if w.follows && !w.alive() {
		return fs.SkipAll
	}
	return nil
}

// alive reports whether something is followed on any line.
func (w *walker) alive() bool {
	for _, l := range w.lines {
		if len(l.trails) > 0 {
			return true
		}
	}
	return false
}

// mostLines bounds the lines that are kept only to save the reading of folders.
const mostLines = 64

// carry adds a line to what is known of a commit by way of its other children.
func (w *walker) carry(hash string, l *line) error {
	known, ok := w.lines[hash]
	if !ok {
		if !w.follows && len(w.lines) >= mostLines {
			clear(w.lines)
		}
		w.lines[hash] = l
		return nil
	}
	if len(l.trails) > 0 && len(known.trails) > 0 {
		if err := errors.Join(w.land(hash, known), w.land(hash, l)); err != nil {
			return err
		}
		known.trails, known.watch = joined(known.trails, l.trails), nil
	} else if len(l.trails) > 0 {
		w.lines[hash] = l
		known, l = l, known
	}
	if known.now == nil {
		known.now = l.now
	}
	return nil
}
