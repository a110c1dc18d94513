package history

import (
	"context"
	"io/fs"
	"slices"
	"strings"
)

// A BlobChange is one file that differs between a commit and its parents, or
// between two commits.
type BlobChange struct {
	Path   string    // below the asked folder, with slashes; "." if the folder's own name is a file
	Old    Version   // in the first parent
	Others []Version // in the other parents, for a merge
	New    Version
}

// A Version is a file at one revision. The zero Version means that it is not there.
type Version struct {
	Hash string      // for Blob; of a submodule it is a commit of another repository
	Mode fs.FileMode // a file, fs.ModeSymlink, or fs.ModeIrregular for a submodule
}

// Exists says whether there is such a file at all.
func (v Version) Exists() bool { return v.Hash != "" }

// IsFile says whether it is an ordinary file, which Blob can read; symbolic
// links and submodules are not.
func (v Version) IsFile() bool { return v.Exists() && v.Mode.IsRegular() }

func (e entry) version() Version { return Version{Hash: e.id, Mode: e.mode.fileMode()} }

// Changes lists the files below the folder dir ("" for all) that differ between
// two commits, sorted by path. The zero Commit stands for nothing at all. A
// renamed file is one that is gone and one that is new.
func (r *Repository) Changes(ctx context.Context, from, to Commit, dir string) ([]BlobChange, error) {
	dir, err := cleanDir(dir)
	if err != nil {
		return nil, err
	}
	d := newTreeDiff(ctx, r)
	a, err := d.at(from.tree, dir)
	if err != nil {
		return nil, err
	}
	b, err := d.at(to.tree, dir)
	if err != nil {
		return nil, err
	}
	return d.changes(a, b)
}

func findChange(sorted []BlobChange, path string) (int, bool) {
	return slices.BinarySearchFunc(sorted, path, func(c BlobChange, path string) int { return strings.Compare(c.Path, path) })
}
