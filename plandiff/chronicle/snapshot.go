package chronicle

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"path"
	"strings"

	"passband.example/plandiff/history"
	"passband.example/plandiff/plan"
)

// A snapshot is the plan at one commit: the hashes of its files, and the plan
// itself once somebody asked for it.
type snapshot struct {
	hash   string // of the commit
	folder string
	files  map[string]history.Version // below folder; nothing but what could be of a plan

	read bool
	plan *plan.Plan
	err  error
	x    *plan.Expansion
}

// Unreadable says that the plan of a commit cannot be read.
type Unreadable struct {
	First plan.Problem
	Count int
}

func (u *Unreadable) Error() string {
	if u.Count == 1 {
		return u.First.Error()
	}
	return fmt.Sprintf("%d places cannot be read, the first at %s", u.Count, u.First.Error())
}

// snapshot lists the files of a commit by reading its folders.
func (r *Reader) snapshot(ctx context.Context, c history.Commit, folder string) (*snapshot, error) {
	all, err := r.repo.Changes(ctx, history.Commit{}, c, folder)
	if err != nil {
		return nil, err
	}
	s := &snapshot{hash: c.Hash, folder: folder, files: make(map[string]history.Version)}
	s.put(all)
	return s, nil
}

func (s *snapshot) put(changes []history.BlobChange) {
	for _, change := range changes {
		if mayBelong(change.Path) && change.New.Exists() {
			s.files[change.Path] = change.New
		}
	}
}

// back gives the snapshot of the only parent of a commit.
func (s *snapshot) back(parent string, changes []history.BlobChange) *snapshot {
	before := &snapshot{hash: parent, folder: s.folder, files: maps.Clone(s.files)}
	for _, change := range changes {
		switch {
		case !mayBelong(change.Path):
		case change.Old.Exists():
			before.files[change.Path] = change.Old
		default:
			delete(before.files, change.Path)
		}
	}
	return before
}

// mayBelong reports whether a file of this name could be one of a plan.
func mayBelong(name string) bool {
	ext := path.Ext(name)
	return ext == ".yaml" || ext == ".yml" || path.Base(name) == plan.OperatorsFile
}

// hasPlan reports whether there is a plan at all.
func (s *snapshot) hasPlan() bool { return s.files[plan.RootFile].Exists() }

// sameFiles reports whether no byte differs that either plan was read from.
func sameFiles(a, b *snapshot) bool { return maps.Equal(a.files, b.files) }

// plan reads the plan. The error is plan.ErrNoPlan, an *Unreadable, or a failure
// to read at all.
func (r *Reader) plan(ctx context.Context, s *snapshot) (*plan.Plan, error) {
	if s.read {
		return s.plan, s.err
	}
	p, err := r.load(ctx, s)
	if err != nil && !errors.Is(err, plan.ErrNoPlan) {
		return nil, err // perhaps another time
	}
	if err == nil && len(p.Problems) > 0 {
		p, err = nil, &Unreadable{First: p.Problems[0], Count: len(p.Problems)}
	}
	s.read, s.plan, s.err = true, p, err
	return p, err
}

// expansion works the plan out, once.
func (s *snapshot) expansion() *plan.Expansion {
	if s.x == nil {
		s.x = plan.Expand(s.plan)
	}
	return s.x
}

// isVerdict reports whether an error of plan says something about the plan, and
// not that the repository cannot be read.
func isVerdict(err error) bool {
	var u *Unreadable
	return errors.Is(err, plan.ErrNoPlan) || errors.As(err, &u)
}

func (r *Reader) load(ctx context.Context, s *snapshot) (*plan.Plan, error) {
	c, err := r.repo.Commit(ctx, s.hash)
	if err != nil {
		return nil, err
	}
	files, err := r.repo.Tree(ctx, c, s.folder)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, plan.ErrNoPlan
	}
	if err != nil {
		return nil, err
	}
	return plan.Load(ctx, files)
}

// below gives the name of a file of the repository below the folder, or false.
func below(folder, name string) (string, bool) {
	if folder == "" {
		return name, true
	}
	return strings.CutPrefix(name, folder+"/")
}
