package post

import (
	"context"
	"errors"
	"fmt"
	"slices"

	"passband.example/review/report"
)

// mostUnsure is how often a review may fail in a way that waiting may mend, before one of
// its lines is taken to be what the forge fails at: Gitea answers 500 each time to a line
// that it cannot find.
const mostUnsure = 3

// reviewAll posts comments in one review, if it can be.
func (s *poster) reviewAll(ctx context.Context, drafts []Draft) error {
	if len(drafts) == 0 {
		return nil
	}
	err := s.reviewSome(ctx, drafts)
	if errors.Is(err, ErrUnsure) {
		if s.unsure++; s.unsure <= mostUnsure {
			return err
		}
	}
	if err == nil || !perhapsALine(err) {
		return err
	}
	if gone := s.open(ctx); gone != nil { // is the commit still the one to comment on?
		return gone
	}
	return s.split(ctx, drafts, err)
}

// perhapsALine reports whether a review may have failed for one of its lines.
func perhapsALine(err error) bool { return errors.Is(err, ErrRejected) || errors.Is(err, ErrUnsure) }

func (s *poster) reviewSome(ctx context.Context, drafts []Draft) error {
	err := s.forge.Review(ctx, s.posting.Goal.Head, drafts)
	if err == nil {
		s.out.Posted += len(drafts)
	}
	return err
}

// split posts comments of a review that failed. It does so for one line that the forge
// does not take, without saying which: halves are tried, down to the one, which stays in
// the summary.
func (s *poster) split(ctx context.Context, drafts []Draft, why error) error {
	if len(drafts) == 1 {
		at := drafts[0].Spot
		s.unwanted[drafts[0].Key] = true
		s.hold(fmt.Sprintf("the forge took no comment on %s line %d; the finding is in the summary", at.Path, at.Line), why)
		return nil
	}
	half := len(drafts) / 2
	for _, part := range [][]Draft{drafts[:half], drafts[half:]} {
		if err := s.part(ctx, part); err != nil {
			return err
		}
	}
	return nil
}

// part posts a part of what failed. A forge that did it and could not say so did not fail.
func (s *poster) part(ctx context.Context, drafts []Draft) error {
	err := s.reviewSome(ctx, drafts)
	if errors.Is(err, ErrUnsure) {
		left, failed := s.missing(ctx, drafts)
		if failed != nil || len(left) == 0 {
			return failed
		}
		drafts = left
	}
	if err == nil || !perhapsALine(err) {
		return err
	}
	return s.split(ctx, drafts, err)
}

// missing gives those drafts of which no comment stands.
func (s *poster) missing(ctx context.Context, drafts []Draft) ([]Draft, error) {
	standing, err := again(ctx, s.patience, func() ([]Comment, error) { return s.forge.Comments(ctx) })
	if err != nil {
		return nil, fmt.Errorf("the comments that stand could not be read: %w", err)
	}
	stands := group(standing, s.posting.Goal.Plan)
	var left []Draft
	for _, d := range drafts {
		if !slices.ContainsFunc(stands[d.Key], func(k known) bool { return k.mark.Role == report.MarkFinding }) {
			left = append(left, d)
		}
	}
	return left, nil
}
