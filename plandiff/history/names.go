package history

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
)

// Commit reads the commit with the given full hash, as Commit.Parents lists it.
func (r *Repository) Commit(ctx context.Context, hash string) (Commit, error) {
	if !isHash(hash) {
		return Commit{}, fmt.Errorf("%q is not the full hash of a git object", hash)
	}
	return r.commit(ctx, hash)
}

// A Tag is a name that stays with one commit.
type Tag struct {
	Name   string // without refs/tags/
	Commit Commit
}

// Tags lists the tags that stand for commits, newest commit first, those of one
// commit by name.
func (r *Repository) Tags(ctx context.Context) ([]Tag, error) {
	refs, err := r.references(ctx)
	if err != nil {
		return nil, err
	}
	var tags []Tag
	for full, id := range refs.byName {
		name, ok := strings.CutPrefix(full, "refs/tags/")
		if !ok {
			continue
		}
		c, err := r.peel(ctx, id, name)
		if errors.Is(err, ErrUnknownRevision) {
			continue // a tag of a file
		}
		if err != nil {
			return nil, err
		}
		tags = append(tags, Tag{name, c})
	}
	slices.SortFunc(tags, func(a, b Tag) int {
		return cmp.Or(b.Commit.Committed.Compare(a.Commit.Committed), strings.Compare(a.Name, b.Name))
	})
	return tags, nil
}
