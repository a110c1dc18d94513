package chronicle

import (
	"context"
	"errors"
	"fmt"
	"slices"
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

// before finds the last release that led to the end of a span.
func before(ctx context.Context, repo *history.Repository, span Span, tags []history.Tag) (Span, error) {
	tags = slices.DeleteFunc(tags, func(t history.Tag) bool { return t.Commit.Hash == span.To.Hash })
	last, err := nearest(ctx, repo, span.To, tags)
	if err != nil {
		return Span{}, err
	}
	for _, tag := range last {
		led, err := leads(ctx, repo, tag, last)
		if err != nil {
			return Span{}, err
		}
		if !led {
			span.From, span.FromName = tag.Commit, tag.Name
			return span, nil
		}
	}
	for _, tag := range tags { // of a shallow clone this says so
		if _, _, err := repo.MergeBase(ctx, tag.Commit, span.To); err != nil {
			return Span{}, err
		}
	}
	return Span{}, fmt.Errorf("%w than %s: no tag led to it; make one with \"git tag NAME COMMIT\", or name both ends as REV..REV", ErrNoRelease, span.ToName)
}

// nearest gives the tags between which and a commit stands no other tag, on one way through
// history at least, in the order of tags. Parents are followed and no clock is: one that ran ahead
// would make an old release the last for years.
func nearest(ctx context.Context, repo *history.Repository, to history.Commit, tags []history.Tag) ([]history.Tag, error) {
	tagged := make(map[string]bool)
	for _, t := range tags {
		tagged[t.Commit.Hash] = true
	}
	met := make(map[string]bool)
	seen := map[string]bool{to.Hash: true}
	for ways := []history.Commit{to}; len(ways) > 0 && len(tags) > 0; {
		c := ways[len(ways)-1]
		ways = ways[:len(ways)-1]
		for _, parent := range c.Parents {
			if seen[parent] {
				continue
			}
			seen[parent] = true
			if tagged[parent] {
				met[parent] = true
				continue
			}
			next, err := repo.Commit(ctx, parent)
			if err != nil {
				return nil, err
			}
			ways = append(ways, next)
		}
	}
	return slices.DeleteFunc(slices.Clone(tags), func(t history.Tag) bool { return !met[t.Commit.Hash] }), nil
}

// leads reports whether a tag led to another of them.
func leads(ctx context.Context, repo *history.Repository, tag history.Tag, tags []history.Tag) (bool, error) {
	for _, other := range tags {
		if other.Commit.Hash == tag.Commit.Hash {
			continue
		}
		if base, related, err := repo.MergeBase(ctx, tag.Commit, other.Commit); err != nil || related && base.Hash == tag.Commit.Hash {
			return true, err
		}
	}
	return false, nil
}
