package history

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"

	"passband.example/plandiff/plan"
)

// A Side is one plan as a person named it: a revision, a folder, or what is being
// edited.
type Side struct {
	Name   string  // as the person wrote it, or "work tree"
	Commit *Commit // nil for a folder on disk
	Note   string  // what else a reader should know: "where feature left main"
	Files  fs.FS   // the folder of the plan
	Folder string  // for a folder on disk, its path; else the folder in the commit; with slashes
}

// WorkTreeName is the Name of a side that is being edited.
const WorkTreeName = "work tree"

// String names the side in a sentence: "the work tree", "the folder ../other",
// "main (d0134a9282)".
func (s Side) String() string {
	switch {
	case s.Commit == nil && s.Name == WorkTreeName:
		return "the work tree"
	case s.Commit == nil:
		return "the folder " + s.Name
	case s.Name == s.Commit.Short():
		return s.Name
	}
	return fmt.Sprintf("%s (%s)", s.Name, s.Commit.Short())
}

// Sides finds the plans that a person names. It begins at a folder: the plan
// there, or the one that the folder is in.
type Sides struct {
	dir    string      // where the plan is, or would be, on disk
	inside string      // the folder of the plan in a commit, "" for the top
	bare   bool        // there is no work tree
	repo   *Repository // nil where none can be read
	none   error       // why none can be read
}

// At opens the plan in dir, or in the nearest folder above that has one, and the
// repository that holds it. In a bare repository, dir is the repository followed
// by the folder of the plan in its commits: club.git/plans/valley. The folder need
// not exist now, as long as a revision has it.
//
// Where there is no repository, or none that can be read, folders can still be
// named; the error waits for whoever names a revision. Close it after use.
func At(ctx context.Context, dir string) (*Sides, error) {
	s := &Sides{dir: planRoot(dir)}
	ground, below := nearestFolder(s.dir)
	at, err := locate(ground)
	if err != nil {
		s.none = err
		return s, nil
	}
	s.bare = at.top == ""
	s.inside = path.Join(at.inside(ground), below)
	if s.repo, s.none = Open(ctx, ground); s.none != nil {
		return s, ctx.Err()
	}
	return s, nil
}

// inside gives the folder below the top of the repository, also of a bare one.
func (p place) inside(dir string) string {
	if p.top != "" {
		return p.prefix
	}
	real, err := realDir(dir)
	if err != nil {
		return ""
	}
	below, err := filepath.Rel(p.gitDir, real)
	if err != nil || below == "." {
		return ""
	}
	return filepath.ToSlash(below)
}

// nearestFolder splits a path into the part that exists and the rest.
func nearestFolder(dir string) (ground, below string) {
	ground = filepath.Clean(dir)
	for !isDir(ground) && filepath.Dir(ground) != ground {
		below = path.Join(filepath.Base(ground), below)
		ground = filepath.Dir(ground)
	}
	return ground, below
}

// planRoot gives the nearest folder, from dir upwards, that holds a plan, or dir.
// It does not look beyond the repository that dir is in.
func planRoot(dir string) string {
	at := dir
	for range 64 {
		if isPlan(at) {
			return at
		}
		up := filepath.Join(at, "..")
		here, err := os.Stat(at)
		above, errUp := os.Stat(up)
		if err != nil || errUp != nil || os.SameFile(here, above) || isTop(at) {
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

func isTop(dir string) bool {
	p, err := placeAt(dir)
	return err != nil || p.gitDir != ""
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

// Revisions lists the branches, tags and remote branches that a person may name,
// sorted; none where there is no repository.
func (s *Sides) Revisions(ctx context.Context) []string {
	if s.repo == nil {
		return nil
	}
	refs, err := s.repo.references(ctx)
	if err != nil {
		return nil
	}
	var names []string
	for full := range refs.byName {
		if full != "HEAD" && !strings.HasSuffix(full, "/HEAD") && shortName(full) != strings.TrimPrefix(full, "refs/") {
			names = append(names, shortName(full))
		}
	}
	slices.Sort(names)
	return slices.Compact(names)
}

// Now gives what is being edited: the folder on disk, or in a bare repository HEAD.
func (s *Sides) Now(ctx context.Context) (Side, error) {
	if s.bare {
		return s.revision(ctx, "HEAD")
	}
	return s.folder(s.dir, WorkTreeName)
}

// Named gives the plan that a person means by name: a folder if it looks like a
// path to one, else a revision, else a folder all the same. A folder inside a
// plan means the plan.
func (s *Sides) Named(ctx context.Context, name string) (Side, error) {
	info, err := os.Stat(name)
	exists := err == nil
	switch {
	case exists && !info.IsDir() && (s.repo == nil || !s.repo.IsRevision(ctx, name)):
		return Side{}, fmt.Errorf("%q is a file; name a revision, or the folder of a plan", name)
	case looksLikePath(name), exists && s.repo == nil:
		return s.folder(name, name)
	}
	side, err := s.revision(ctx, name)
	switch {
	case exists && errors.Is(err, ErrUnknownRevision):
		return s.folder(name, name)
	case exists && info.IsDir() && err == nil:
		side.Note = fmt.Sprintf("not the folder, which is ./%s", filepath.ToSlash(name))
	}
	return side, err
}

func looksLikePath(name string) bool {
	return name == "." || name == ".." || filepath.IsAbs(name) ||
		strings.HasPrefix(name, "./") || strings.HasPrefix(name, "../") || strings.HasSuffix(name, "/")
}

func (s *Sides) folder(dir, name string) (Side, error) {
	root := planRoot(dir)
	files, err := WorkTree(root)
	if info, statErr := os.Stat(root); statErr == nil && !info.IsDir() {
		return Side{}, fmt.Errorf("%q is a file; name the folder that it is in", dir)
	}
	if errors.Is(err, fs.ErrNotExist) {
		return Side{}, fmt.Errorf("there is no folder %q; look at its spelling, and at the folder that you are in", dir)
	}
	if err != nil {
		return Side{}, fmt.Errorf("the folder %q cannot be read: %w", dir, err)
	}
	return Side{Name: name, Files: files, Folder: filepath.ToSlash(filepath.Clean(root))}, nil
}

func (s *Sides) revision(ctx context.Context, rev string) (Side, error) {
	if s.repo == nil {
		return Side{}, s.none
	}
	c, err := s.repo.Resolve(ctx, rev)
	if err != nil {
		return Side{}, err
	}
	return s.at(ctx, rev, c)
}

func (s *Sides) at(ctx context.Context, name string, c Commit) (Side, error) {
	files, err := s.repo.Tree(ctx, c, s.inside)
	if errors.Is(err, fs.ErrNotExist) {
		return Side{}, fmt.Errorf("%s has no folder %q; if the plan stood elsewhere then, compare two folders: "+
			"git worktree add ../then %s makes one", Side{Name: name, Commit: &c}, s.inside, c.Short())
	}
	if err != nil {
		return Side{}, err
	}
	return Side{Name: name, Commit: &c, Files: files, Folder: s.inside}, nil
}
