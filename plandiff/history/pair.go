package history

import (
	"context"
	"errors"
	"os"
)

// Pair gives the two sides of a comparison, by what a person named: nothing
// compares HEAD with what is being edited, one name compares that with what is
// being edited, two names each other.
//
// A revision is compared from where it and the other side parted, so that nobody
// is blamed for what others merged meanwhile; tips compares the revisions as they
// stand. So does asking for the way back, to a revision that the first one holds:
// nothing has parted there. What is being edited parted where HEAD did. A folder that is not being
// edited here has no history, and is compared as it stands.
func (s *Sides) Pair(ctx context.Context, names []string, tips bool) (old, new Side, err error) {
	from := "HEAD"
	if len(names) > 0 {
		from = names[0]
	}
	if old, err = s.Named(ctx, from); err != nil {
		return Side{}, Side{}, err
	}
	if len(names) > 1 {
		new, err = s.Named(ctx, names[1])
	} else {
		new, err = s.Now(ctx)
	}
	if err != nil || tips || old.Commit == nil {
		return old, new, err
	}
	old, err = s.parted(ctx, old, new)
	return old, new, err
}

// parted gives the old side as it was where the new one left it.
func (s *Sides) parted(ctx context.Context, old, new Side) (Side, error) {
	head, branch, err := s.tip(ctx, new)
	if head == nil || err != nil {
		return old, err
	}
	base, related, err := s.repo.MergeBase(ctx, *old.Commit, *head)
	switch {
	case err != nil:
		return Side{}, err
	case !related:
		old.Note = "which has no history in common with " + branch
		return old, nil
	case base.Hash == old.Commit.Hash:
		return old, nil
	case new.Commit != nil && base.Hash == new.Commit.Hash:
		old.Note = "which holds all of " + branch + ", so both are compared as they stand"
		return old, nil
	}
	parted, err := s.at(ctx, base.Short(), base)
	parted.Note = "where " + branch + " left " + old.Name
	return parted, err
}

// tip gives the commit that a side stands on, and its name; nil where it has no
// history here.
func (s *Sides) tip(ctx context.Context, side Side) (*Commit, string, error) {
	if side.Commit != nil {
		return side.Commit, side.Name, nil
	}
	here, err := os.Stat(s.dir)
	there, errThere := os.Stat(side.Folder)
	if err != nil || errThere != nil || !os.SameFile(here, there) {
		return nil, "", nil
	}
	c, err := s.repo.Resolve(ctx, "HEAD")
	if errors.Is(err, ErrUnborn) {
		return nil, "", nil
	}
	return &c, "HEAD", err
}
