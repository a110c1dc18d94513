package history

import (
	"context"
	"maps"
	"slices"
	"strings"
)

// MergeBase finds where two lines of history parted: the best common ancestor,
// one that is not itself an ancestor of another common one. After criss-cross
// merges there can be several; then it is the one committed last, and of those
// with one date the one whose hash sorts first, so that the answer does not
// depend on the order of a and b. Unrelated histories have none: false.
//
// In a shallow clone, where no common ancestor is found because it was not
// fetched, the error is ErrShallow.
func (r *Repository) MergeBase(ctx context.Context, a, b Commit) (Commit, bool, error) {
	bases, err := r.mergeBases(ctx, a, b)
	if err != nil {
		return Commit{}, false, err
	}
	if len(bases) == 0 && r.Shallow() {
		return Commit{}, false, fail(ErrShallow, "where %s and %s parted is not in this clone, which is shallow; %s", a.Short(), b.Short(), fetchMore)
	}
	if len(bases) == 0 {
		return Commit{}, false, nil
	}
	return bases[0], true, nil
}

// mergeBases are all best common ancestors, in the order that MergeBase documents.
func (r *Repository) mergeBases(ctx context.Context, a, b Commit) ([]Commit, error) {
	common, err := r.commonAncestors(ctx, a, b)
	if err != nil {
		return nil, err
	}
	// Where clocks were wrong, an ancestor of a better one may have slipped in.
	best := common[:0:0]
	for _, c := range common {
		dominated, err := r.isAncestorOfAny(ctx, c, common)
		if err != nil {
			return nil, err
		}
		if !dominated {
			best = append(best, c)
		}
	}
	slices.SortFunc(best, func(x, y Commit) int {
		if d := y.Committed.Compare(x.Committed); d != 0 {
			return d
		}
		return strings.Compare(x.Hash, y.Hash)
	})
	return best, nil
}

// The marks of a commit in commonAncestors.
const (
	fromA = 1 << iota
	fromB
	stale // an ancestor of a common ancestor already found
)

// commonAncestors paints history from both sides, newest commits first, until
// only ancestors of common ancestors are left to look at.
func (r *Repository) commonAncestors(ctx context.Context, a, b Commit) ([]Commit, error) {
	marks := map[string]int{a.Hash: fromA}
	marks[b.Hash] |= fromB
	var queue commitQueue
	queue.push(a)
	queue.push(b)
	found := make(map[string]Commit)
	for queue.anyWithout(stale, marks) {
		c := queue.pop()
		mark := marks[c.Hash]
		if mark&(fromA|fromB) == fromA|fromB {
			if mark&stale == 0 {
				found[c.Hash] = c
			}
			mark |= stale
		}
		for _, id := range c.Parents {
			if marks[id]&mark == mark {
				continue
			}
			marks[id] |= mark
			p, err := r.commit(ctx, id)
			if err != nil {
				return nil, err
			}
			queue.push(p)
		}
	}
	return slices.Collect(maps.Values(found)), nil
}

func (q *commitQueue) anyWithout(mark int, marks map[string]int) bool {
	return slices.ContainsFunc(q.waiting, func(c queued) bool { return marks[c.Hash]&mark == 0 })
}

// isAncestorOfAny says whether c can be reached from another of the commits.
func (r *Repository) isAncestorOfAny(ctx context.Context, c Commit, others []Commit) (bool, error) {
	if len(others) < 2 {
		return false, nil
	}
	seen := make(map[string]bool)
	var stack []string
	for _, o := range others {
		if o.Hash != c.Hash {
			stack = append(stack, o.Parents...)
		}
	}
	for len(stack) > 0 {
		id := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		if id == c.Hash {
			return true, nil
		}
		if seen[id] {
			continue
		}
		seen[id] = true
		p, err := r.commit(ctx, id)
		if err != nil {
			return false, err
		}
		stack = append(stack, p.Parents...)
	}
	return false, nil
}
