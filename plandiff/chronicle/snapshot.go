package chronicle

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"

	"passband.example/plandiff/history"
	"passband.example/plandiff/plan"
	"passband.example/plandiff/plan/memory"
)

// A snapshot is the plan at one commit: the hashes of its files, and as much of
// the plan itself as somebody asked for.
type snapshot struct {
	hash   string // of the commit
	folder string
	files  []file // below folder, sorted by name; those that may matter to a plan

	listed  bool
	refused []plan.Problem

	assembly *plan.Assembly
	newer    *snapshot // whose assembly becomes that of this one, with few files changed

	judged bool
	err    error // plan.ErrNoPlan, an *Unreadable, or nil

	numbers bool // rows of its tables are numbered
	plan    *plan.Plan
	x       *plan.Expansion
}

// A file is one file of a snapshot.
type file struct {
	name string // its path below the folder
	history.Version
	read bool // the plan is read from it
}

// find gives the place of a file among the sorted ones, and whether it is there.
func find(files []file, name string) (int, bool) {
	return slices.BinarySearchFunc(files, name, func(f file, name string) int { return strings.Compare(f.name, name) })
}

// version gives a file by its name; the zero Version where there is none.
func (s *snapshot) version(name string) history.Version {
	if i, ok := find(s.files, name); ok {
		return s.files[i].Version
	}
	return history.Version{}
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
	if r.last != nil && r.last.hash == c.Hash && r.last.folder == folder {
		return r.last, nil
	}
	all, err := r.repo.Changes(ctx, history.Commit{}, c, folder)
	if err != nil {
		return nil, err
	}
	s := &snapshot{hash: c.Hash, folder: folder}
	for _, change := range all { // sorted by path
		if plan.MayMatter(change.Path) {
			s.files = append(s.files, file{name: change.Path, Version: change.New})
		}
	}
	return s, nil
}

// back gives the snapshot of the only parent of a commit.
func (s *snapshot) back(parent string, changes []history.BlobChange) *snapshot {
	before := &snapshot{hash: parent, folder: s.folder, files: slices.Clone(s.files)}
	alike := s.listed // the same names, of the same modes
	for _, change := range changes {
		if !plan.MayMatter(change.Path) {
			continue
		}
		alike = alike && change.Old.Exists() && change.New.Exists() && change.Old.Mode == change.New.Mode
		before.set(change.Path, change.Old)
	}
	if alike {
		before.listed, before.refused, before.err = true, s.refused, s.missing()
	}
	if before.newer = s.newer; s.assembly != nil && s.judged {
		before.newer = s
	}
	return before
}

// set puts a file in, or takes it out.
func (s *snapshot) set(name string, v history.Version) {
	i, ok := find(s.files, name)
	switch {
	case ok && v.Exists():
		s.files[i].Version = v
	case ok:
		s.files = slices.Delete(s.files, i, i+1)
	case v.Exists():
		s.files = slices.Insert(s.files, i, file{name: name, Version: v})
	}
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
	for _, f := range s.files {
		files[f.name] = memory.File{Mode: f.Mode}
	}
	names, refused, err := plan.FindFiles(memory.New(files))
	s.refused, s.err = refused, err
	for i := range s.files {
		_, s.files[i].read = slices.BinarySearch(names, s.files[i].name)
	}
}

// hasPlan reports whether there is a plan at all.
func (s *snapshot) hasPlan() bool {
	s.list()
	return s.missing() == nil
}

// has reports whether the plan is read from a file of this name.
func (s *snapshot) has(name string) bool {
	i, ok := find(s.files, name)
	return ok && s.files[i].read
}

// changedFiles names the files that two plans are not both read from in the same bytes.
func changedFiles(a, b *snapshot) []string {
	a.list()
	b.list()
	var changed []string
	x, y := a.files, b.files
	for len(x) > 0 || len(y) > 0 {
		var was, now file
		switch {
		case len(y) == 0 || len(x) > 0 && x[0].name < y[0].name:
			was, x = x[0], x[1:]
		case len(x) == 0 || y[0].name < x[0].name:
			now, y = y[0], y[1:]
		default:
			was, now, x, y = x[0], y[0], x[1:], y[1:]
		}
		if was.read != now.read || was.read && was.Hash != now.Hash {
			changed = append(changed, max(was.name, now.name))
		}
	}
	return changed
}

// sameBytes reports whether no byte differs that either plan is read from.
func sameBytes(a, b *snapshot) bool {
	return a.hasPlan() == b.hasPlan() && len(a.refused) == len(b.refused) && len(changedFiles(a, b)) == 0
}
