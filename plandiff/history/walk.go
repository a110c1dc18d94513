package history

import (
	"context"
	"errors"
	"io/fs"
)

// Walk lists the commits that can be reached from to but not from from, newest
// first by the time of committing, each with the files below the folder dir
// that it changed, sorted by path. The zero Commit as from means the whole
// history; dir "" means all files.
//
// It lists what "git log -c -- dir" does:
//   - A commit that changed nothing below dir is left out.
//   - Where a merge took all of dir from one parent, only that side is followed:
//     what the other side did there did not survive.
//   - Of a merge, only files that differ from all its parents count, for what
//     equals one parent was said there. A merge without such files is left out.
//   - The first commit of all adds its files; so does a Truncated one, at the
//     edge of a shallow clone, though in truth they are older.
//
// In one case the real git's answer to a span hangs on the order in which it
// meets commits: where a merge equals, below dir, a commit that is two steps or
// more beyond from. Walk then always follows the other side.
//
// An error of visit ends the walk and is handed on, except fs.SkipAll, which
// ends it in peace. visit may use the Repository.
//
// A whole history is taken from "git log" where there is a git command, which is
// several times faster on long ones; everything else from the objects.
func (r *Repository) Walk(ctx context.Context, from, to Commit, dir string, visit func(Commit, []BlobChange) error) error {
	dir, err := cleanDir(dir)
	if err != nil {
		return err
	}
	r.ExpectMuch(ctx)
	if git, ok := r.current().(*commandStore); ok && from.Hash == "" {
		err = r.explain(git.log(ctx, to.Hash, dir, visit))
	} else {
		err = newWalk(ctx, r).run(span{from.Hash, to.Hash, dir}, visit)
	}
	if errors.Is(err, fs.SkipAll) {
		return nil
	}
	return err
}

// ExpectMuch takes the git command into use, if there is one that can read the repository,
// because much is going to be read. Walk does so itself.
func (r *Repository) ExpectMuch(ctx context.Context) { r.switchOver(ctx, r.current()) }

type visitor func(Commit, []BlobChange) error

// A span is a stretch of history: what can be reached from to and not from from.
type span struct {
	from, to string // hashes; from may be ""
	dir      string // folder below the top, "" for all
}

// A walk goes through history commit by commit and compares trees by hash.
type walk struct {
	ctx     context.Context
	from    *Repository
	diff    *treeDiff
	queue   commitQueue
	known   map[string]Commit // read so far
	queued  map[string]bool
	outside map[string]bool // reachable from the lower end of the span
	bottom  string          // that lower end
}

func newWalk(ctx context.Context, from *Repository) *walk {
	return &walk{ctx: ctx, from: from, diff: newTreeDiff(ctx, from),
		known: make(map[string]Commit), queued: make(map[string]bool), outside: make(map[string]bool)}
}

func (w *walk) commit(id string) (Commit, error) {
	if c, ok := w.known[id]; ok {
		return c, nil
	}
	c, err := w.from.commit(w.ctx, id)
	if err == nil {
		w.known[id] = c
	}
	return c, err
}

func (w *walk) run(s span, visit visitor) error {
	if err := w.exclude(s.from); err != nil {
		return err
	}
	if err := w.push(s.to); err != nil {
		return err
	}
	for w.queue.Len() > 0 {
		c := w.queue.pop()
		changes, next, err := w.step(c, s.dir)
		if err != nil {
			return err
		}
		for _, id := range next {
			if err := w.push(id); err != nil {
				return err
			}
		}
		if len(changes) == 0 {
			continue
		}
		if err := visit(c, changes); err != nil {
			return err
		}
	}
	return nil
}

// exclude marks everything that can be reached from the lower end.
func (w *walk) exclude(from string) error {
	if from == "" {
		return nil
	}
	w.bottom = from
	for stack := []string{from}; len(stack) > 0; {
		id := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		if w.outside[id] {
			continue
		}
		w.outside[id] = true
		c, err := w.from.commit(w.ctx, id)
		if err != nil {
			return err
		}
		stack = append(stack, c.Parents...)
	}
	return nil
}

func (w *walk) push(id string) error {
	if w.queued[id] || w.outside[id] {
		return nil
	}
	w.queued[id] = true
	c, err := w.commit(id)
	if err != nil {
		return err
	}
	w.queue.push(c)
	return nil
}

// step compares a commit with its parents and says which of these to follow.
// (git's rules: git-log, "History Simplification", default mode.)
func (w *walk) step(c Commit, dir string) (changes []BlobChange, next []string, err error) {
	here, err := w.diff.at(c.tree, dir)
	if err != nil {
		return nil, nil, err
	}
	if len(c.Parents) == 0 {
		changes, err = w.diff.changes(entry{}, here)
		return changes, nil, err
	}
	perParent := make([][]BlobChange, len(c.Parents))
	for i, id := range c.Parents {
		if perParent[i], err = w.compare(id, dir, here); err != nil {
			return nil, nil, err
		}
		if len(perParent[i]) == 0 && w.inside(id) {
			return nil, []string{id}, nil // all of it comes from there
		}
	}
	return combine(perParent), c.Parents, nil
}

func (w *walk) compare(parent, dir string, here entry) ([]BlobChange, error) {
	p, err := w.commit(parent)
	if err != nil {
		return nil, err
	}
	there, err := w.diff.at(p.tree, dir)
	if err != nil {
		return nil, err
	}
	return w.diff.changes(there, here)
}

// inside says whether git would call the parent relevant: within the span, or its lower end.
func (w *walk) inside(id string) bool { return !w.outside[id] || id == w.bottom }

// combine keeps the files that differ from every parent.
func combine(perParent [][]BlobChange) []BlobChange {
	if len(perParent) == 1 {
		return perParent[0]
	}
	var list []BlobChange
next:
	for _, change := range perParent[0] {
		for _, other := range perParent[1:] {
			at, ok := findChange(other, change.Path)
			if !ok {
				continue next
			}
			change.Others = append(change.Others, other[at].Old)
		}
		list = append(list, change)
	}
	return list
}
