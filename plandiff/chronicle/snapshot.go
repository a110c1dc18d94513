package chronicle

import (
	"context"
	"errors"
	"fmt"
	"maps"

	"passband.example/plandiff/history"
	"passband.example/plandiff/plan"
	"passband.example/plandiff/plan/memory"
)

// A snapshot is the plan at one commit: the hashes of its files, and as much of
// the plan itself as somebody asked for.
type snapshot struct {
	hash   string // of the commit
	folder string
	files  map[string]history.Version // below folder; those that may matter to a plan

	listed  bool
	names   []string // of the files that the plan is read from
	refused []plan.Problem

	assembly *plan.Assembly
	newer    *snapshot // whose assembly becomes that of this one, with few files changed

	judged bool
	err    error // plan.ErrNoPlan, an *Unreadable, or nil

	numbers bool // rows of its tables are numbered
	plan    *plan.Plan
	x       *plan.Expansion
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

// isVerdict reports whether an error says something about the plan, and not that
// the repository cannot be read.
func isVerdict(err error) bool {
	var u *Unreadable
	return errors.Is(err, plan.ErrNoPlan) || errors.As(err, &u)
}

// snapshot lists the files of a commit by reading its folders.
func (r *Reader) snapshot(ctx context.Context, c history.Commit, folder string) (*snapshot, error) {
	all, err := r.repo.Changes(ctx, history.Commit{}, c, folder)
	if err != nil {
		return nil, err
	}
	s := &snapshot{hash: c.Hash, folder: folder, files: make(map[string]history.Version)}
	for _, change := range all {
		if plan.MayMatter(change.Path) {
			s.files[change.Path] = change.New
		}
	}
	return s, nil
}

// back gives the snapshot of the only parent of a commit.
func (s *snapshot) back(parent string, changes []history.BlobChange) *snapshot {
	before := &snapshot{hash: parent, folder: s.folder, files: maps.Clone(s.files)}
	alike := s.listed // the same names, of the same modes
	for _, change := range changes {
		if !plan.MayMatter(change.Path) {
			continue
		}
		alike = alike && change.Old.Exists() && change.New.Exists() && change.Old.Mode == change.New.Mode
		if change.Old.Exists() {
			before.files[change.Path] = change.Old
		} else {
			delete(before.files, change.Path)
		}
	}
	if alike {
		before.listed, before.names, before.refused, before.err = true, s.names, s.refused, s.missing()
	}
	if s.assembly != nil && s.judged {
		before.newer = s
	}
	return before
}

// missing gives plan.ErrNoPlan where there is no plan.
func (s *snapshot) missing() error {
	if errors.Is(s.err, plan.ErrNoPlan) {
		return s.err
	}
	return nil
}

// list finds out which files the plan is read from.
func (s *snapshot) list() {
	if s.listed {
		return
	}
	s.listed = true
	files := make(map[string]memory.File, len(s.files))
	for name, v := range s.files {
		files[name] = memory.File{Mode: v.Mode}
	}
	s.names, s.refused, s.err = plan.FindFiles(memory.New(files))
}

// hasPlan reports whether there is a plan at all.
func (s *snapshot) hasPlan() bool {
	s.list()
	return s.missing() == nil
}

// changedFiles names the files that two plans are not both read from in the same
// bytes. Where a plan is refused a file, all count.
func changedFiles(a, b *snapshot) []string {
	a.list()
	b.list()
	var changed []string
	has := make(map[string]bool, len(a.names))
	for _, name := range a.names {
		has[name] = true
	}
	for _, name := range b.names {
		if !has[name] || a.files[name].Hash != b.files[name].Hash {
			changed = append(changed, name)
		}
		delete(has, name)
	}
	for name := range has {
		changed = append(changed, name)
	}
	return changed
}

// sameBytes reports whether no byte differs that either plan is read from.
func sameBytes(a, b *snapshot) bool {
	return a.hasPlan() == b.hasPlan() && len(a.refused) == len(b.refused) && len(changedFiles(a, b)) == 0
}
