package post

import (
	"context"
	"errors"
	"fmt"
)

// lines sees to it that the comments on lines stand as they should: it looks at what
// stands, does what is to be done, and looks again, until nothing is.
func (s *poster) lines(ctx context.Context) error {
	s.unwanted = make(map[string]bool)
	last := errors.New("another run seems to be at work on this pull request")
	for round := range mostRounds {
		done, err := s.round(ctx)
		switch {
		case errors.Is(err, ErrNoRight), errors.Is(err, ErrMissing):
			s.hold("no comments were posted on lines; all findings are in the summary", err)
			return nil
		case errors.Is(err, ErrBusy), errors.Is(err, ErrUnsure):
			last = err
			if err := s.patience.sleep(ctx, err, round); err != nil {
				return fmt.Errorf("the comments could not be posted: %w", err)
			}
		case done, err != nil:
			return err
		}
	}
	return fmt.Errorf("the comments do not come to rest: %w", last)
}

// round looks at what stands, and does what is to be done about it.
func (s *poster) round(ctx context.Context) (done bool, err error) {
	standing, err := again(ctx, s.patience, func() ([]Comment, error) { return s.forge.Comments(ctx) })
	if err != nil {
		return false, fmt.Errorf("the comments that stand could not be read: %w", err)
	}
	if s.noResolve {
		for i := range standing {
			standing[i].Thread = ""
		}
	}
	goal := s.posting.Goal
	goal.Drafts = append([]Draft(nil), goal.Drafts...)
	placer, places := s.forge.(Placer)
	for i := range goal.Drafts {
		if places {
			goal.Drafts[i].Spot = placer.Place(goal.Drafts[i].Spot)
		}
		if s.unwanted[goal.Drafts[i].Key] {
			goal.Drafts[i].Spot = Spot{}
		}
	}
	w := Reconcile(standing, goal)
	s.onLine = w.OnLine
	if w.Done() {
		return true, nil
	}
	return false, s.do(ctx, w)
}

// do does the work, new comments first.
func (s *poster) do(ctx context.Context, w *Work) error {
	if err := s.reviewAll(ctx, w.Post); err != nil {
		return err
	}
	for _, a := range w.Amend {
		if err := s.change(ctx, &s.out.Amended, func() error { return s.forge.Amend(ctx, a.Comment, a.Body) }); err != nil {
			return err
		}
	}
	for _, c := range w.Remove {
		if err := s.change(ctx, &s.out.Removed, func() error { return s.forge.Remove(ctx, c) }); err != nil {
			return err
		}
	}
	if err := s.resolve(ctx, w.Reopen, false); err != nil {
		return err
	}
	return s.resolve(ctx, w.Resolve, true)
}

// change does what may be repeated; what is no longer there needs no change.
func (s *poster) change(ctx context.Context, count *int, do func() error) error {
	err := repeat(ctx, s.patience, do)
	if err == nil {
		*count++
	}
	if errors.Is(err, ErrMissing) {
		return nil
	}
	return err
}

// resolve folds threads away or opens them. A token that may not is no reason to
// leave anything else undone.
func (s *poster) resolve(ctx context.Context, cs []Comment, resolved bool) error {
	r, ok := s.forge.(Resolver)
	for _, c := range cs {
		if !ok || s.noResolve {
			s.noResolve = true
			return nil
		}
		err := s.change(ctx, &s.out.Resolved, func() error { return r.Resolve(ctx, c, resolved) })
		if errors.Is(err, ErrNoRight) || errors.Is(err, ErrRejected) {
			s.noResolve = true
			s.hold("threads were not resolved; the comments say what is gone", err)
			return nil
		}
		if err != nil {
			return err
		}
	}
	return nil
}
