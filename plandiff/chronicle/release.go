package chronicle

import (
	"context"
	"errors"
	"fmt"
	"strings"

	"passband.example/plandiff/history"
)

// ErrNoRelease says that there is no tag to begin with.
var ErrNoRelease = errors.New("there is no earlier release")

// Releases gives the two ends of what members are to be told: REV..REV as they
// stand there; TAG, from the release before it; "" from the last release to HEAD,
// or, where HEAD is one, from the one before. A release is a tag.
func Releases(ctx context.Context, repo *history.Repository, text string) (Span, error) {
	if strings.Contains(text, "..") {
		return ParseSpan(ctx, repo, text)
	}
	span, err := ParseSpan(ctx, repo, text)
	if err != nil {
		return Span{}, err
	}
	tags, err := repo.Tags(ctx)
	if err != nil {
		return Span{}, err
	}
	if text == "" {
		for _, tag := range tags {
			if tag.Commit.Hash == span.To.Hash {
				span.ToName = tag.Name
				break
			}
		}
	}
	return before(ctx, repo, span, tags)
}

// before finds the newest release that led to the end of a span.
func before(ctx context.Context, repo *history.Repository, span Span, tags []history.Tag) (Span, error) {
	for _, tag := range tags {
		if tag.Commit.Hash == span.To.Hash {
			continue
		}
		base, related, err := repo.MergeBase(ctx, tag.Commit, span.To)
		if err != nil {
			return Span{}, err
		}
		if related && base.Hash == tag.Commit.Hash {
			span.From, span.FromName = tag.Commit, tag.Name
			return span, nil
		}
	}
	return Span{}, fmt.Errorf("%w than %s: no tag led to it; make one with \"git tag NAME COMMIT\", or name both ends as REV..REV", ErrNoRelease, span.ToName)
}
