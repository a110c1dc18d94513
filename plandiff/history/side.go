package history

import (
	"context"
	"errors"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"strings"

	"passband.example/plandiff/plan"
)

// A Side is one plan as a person named it: a revision, a folder, or what is being
// edited.
type Side struct {
	Name   string  // as the person wrote it, or "work tree"
	Commit *Commit // nil for a folder on disk
	Note   string  // what else a reader should know: "where main and HEAD parted"
	Files  fs.FS   // the folder of the plan
	Folder string  // for a folder on disk, its path; else the folder in the commit
}

// Sides finds the plans that a person names. It begins at a folder: the plan
// there, or the one that the folder is in.
type Sides struct {
	dir  string      // where the plan is
	repo *Repository // nil where there is none
	none error       // why there is no repository
}

// At opens the plan in dir, or in the nearest folder above that has one, and the
// repository that holds it, if one does. Close it after use.
func At(ctx context.Context, dir string) (*Sides, error) {
	root := planRoot(dir)
	repo, err := Open(ctx, root)
	if err != nil && !errors.Is(err, ErrNoRepository) {
		return nil, err
	}
	return &Sides{dir: root, repo: repo, none: err}, nil
}

// planRoot gives the nearest folder, from dir upwards, that holds a plan, or dir.
func planRoot(dir string) string {
	at := dir
	for range 64 {
		if isPlan(at) {
			return at
		}
		up := filepath.Join(at, "..")
		here, err := os.Stat(at)
		above, errUp := os.Stat(up)
		if err != nil || errUp != nil || os.SameFile(here, above) {
			break
		}
		at = up
	}
	return dir
}

func isPlan(dir string) bool {
	_, err := os.Lstat(filepath.Join(dir, plan.RootFile))
	return err == nil
}

// Close releases what the repository holds.
func (s *Sides) Close() error {
	if s.repo == nil {
		return nil
	}
	return s.repo.Close()
}

// Repository gives the repository that holds the plan, or an error that says why
// there is none.
func (s *Sides) Repository() (*Repository, error) { return s.repo, s.none }

// Now gives what is being edited: the folder on disk, or in a bare repository HEAD.
func (s *Sides) Now(ctx context.Context) (Side, error) {
	if s.repo != nil && s.repo.Bare() {
		return s.revision(ctx, "HEAD")
	}
	return s.folder(s.dir, "work tree")
}

// Named gives the plan that a person means by name: a folder if it looks like a
// path to one, else a revision, else a folder all the same.
func (s *Sides) Named(ctx context.Context, name string) (Side, error) {
	info, err := os.Stat(name)
	isFolder := err == nil && info.IsDir()
	if isFolder && looksLikePath(name) {
		return s.folder(name, name)
	}
	if s.repo == nil {
		if isFolder {
			return s.folder(name, name)
		}
		return Side{}, s.none
	}
	side, err := s.revision(ctx, name)
	if errors.Is(err, ErrUnknownRevision) && isFolder {
		return s.folder(name, name)
	}
	return side, err
}

func looksLikePath(name string) bool {
	return name == "." || name == ".." || filepath.IsAbs(name) ||
		strings.HasPrefix(name, "./") || strings.HasPrefix(name, "../") || strings.HasSuffix(name, "/")
}

func (s *Sides) folder(dir, name string) (Side, error) {
	files, err := WorkTree(dir)
	if err != nil {
		return Side{}, err
	}
	return Side{Name: name, Files: files, Folder: filepath.ToSlash(dir)}, nil
}

func (s *Sides) revision(ctx context.Context, rev string) (Side, error) {
	c, err := s.repo.Resolve(ctx, rev)
	if err != nil {
		return Side{}, err
	}
	return s.at(ctx, rev, c)
}

func (s *Sides) at(ctx context.Context, name string, c Commit) (Side, error) {
	dir := s.repo.Prefix()
	files, err := s.repo.Tree(ctx, c, dir)
	if err != nil {
		return Side{}, err
	}
	return Side{Name: name, Commit: &c, Files: files, Folder: path.Join(dir)}, nil
}

// Pair gives the two sides of a comparison, by what a person named: nothing
// compares HEAD with what is being edited, one name compares that with what is
// being edited, two names each other.
//
// A revision is compared from where it and the other side parted, so that nobody
// is blamed for what others merged meanwhile; tips compares the revisions as they
// stand.
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
	head := new.Commit
	branch := new.Name
	if head == nil {
		c, err := s.repo.Resolve(ctx, "HEAD")
		if err != nil {
			return Side{}, err
		}
		head, branch = &c, "HEAD"
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
	}
	parted, err := s.at(ctx, base.Short(), base)
	parted.Note = "where " + branch + " left " + old.Name
	return parted, err
}
