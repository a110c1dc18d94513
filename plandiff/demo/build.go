package demo

import (
	"context"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"github.com/go-git/go-git/v5/plumbing"
	"github.com/go-git/go-git/v5/plumbing/filemode"
	"github.com/go-git/go-git/v5/plumbing/format/index"
	"github.com/go-git/go-git/v5/storage/filesystem"
	"passband.example/plandiff/history"
)

// build makes the repository in dir, which must not exist.
func build(ctx context.Context, dir string) error {
	repo, err := history.Create(dir, Main)
	if err != nil {
		return err
	}
	if err := keepLineEnds(repo); err != nil {
		return err
	}
	made := map[string]plumbing.Hash{} // by Name of the commit
	var tip fs.FS                      // of the branch of the work tree
	for _, c := range History() {
		if err := ctx.Err(); err != nil {
			return err
		}
		if made[c.Name], err = record(repo, c, made[c.Parent]); err != nil {
			return fmt.Errorf("commit %s: %w", c.Name, err)
		}
		if c.Branch == Main {
			tip = c.Plan
		}
	}
	return checkOut(repo, dir, tip)
}

// keepLineEnds makes a later checkout by the git command give the same bytes, whatever the
// user's own settings say.
func keepLineEnds(repo *filesystem.Storage) error {
	config, err := repo.Config()
	if err != nil {
		return err
	}
	config.Raw.Section("core").SetOption("autocrlf", "false")
	return repo.SetConfig(config)
}

// record stores a commit as objects and moves its branch to it. It does not go through
// a work tree, whose file modes and ignore files differ between machines.
func record(repo *filesystem.Storage, c Commit, parent plumbing.Hash) (plumbing.Hash, error) {
	tree, err := storeTree(repo, c.Plan)
	if err != nil {
		return plumbing.ZeroHash, err
	}
	hash, err := store(repo, plumbing.CommitObject, commitText(c, tree, parent))
	if err != nil {
		return plumbing.ZeroHash, err
	}
	if c.Tag != "" {
		tag, err := store(repo, plumbing.TagObject, tagText(c, hash))
		if err != nil {
			return plumbing.ZeroHash, err
		}
		if err := repo.SetReference(plumbing.NewHashReference(plumbing.NewTagReferenceName(c.Tag), tag)); err != nil {
			return plumbing.ZeroHash, err
		}
	}
	return hash, repo.SetReference(plumbing.NewHashReference(plumbing.NewBranchReferenceName(c.Branch), hash))
}

func storeTree(repo *filesystem.Storage, plan fs.FS) (plumbing.Hash, error) {
	entries, err := fs.ReadDir(plan, ".") // in the order that a tree of plain files wants
	if err != nil {
		return plumbing.ZeroHash, err
	}
	var tree []byte
	for _, entry := range entries {
		text, err := fs.ReadFile(plan, entry.Name())
		if err != nil {
			return plumbing.ZeroHash, err
		}
		blob, err := store(repo, plumbing.BlobObject, text)
		if err != nil {
			return plumbing.ZeroHash, err
		}
		tree = appendEntry(tree, entry.Name(), blob)
	}
	return store(repo, plumbing.TreeObject, tree)
}

func store(repo *filesystem.Storage, kind plumbing.ObjectType, text []byte) (plumbing.Hash, error) {
	o := repo.NewEncodedObject()
	o.SetType(kind)
	w, err := o.Writer()
	if err != nil {
		return plumbing.ZeroHash, err
	}
	if _, err := w.Write(text); err != nil {
		return plumbing.ZeroHash, err
	}
	if err := w.Close(); err != nil {
		return plumbing.ZeroHash, err
	}
	return repo.SetEncodedObject(o)
}

// checkOut writes the files of a plan, and the index that says they are as committed.
func checkOut(repo *filesystem.Storage, dir string, plan fs.FS) error {
	entries, err := fs.ReadDir(plan, ".")
	if err != nil {
		return err
	}
	all := &index.Index{Version: 2}
	for _, entry := range entries {
		text, err := fs.ReadFile(plan, entry.Name())
		if err != nil {
			return err
		}
		path := filepath.Join(dir, entry.Name())
		if err := os.WriteFile(path, text, 0o644); err != nil {
			return err
		}
		info, err := os.Stat(path)
		if err != nil {
			return err
		}
		e := all.Add(entry.Name())
		e.Hash, e.Mode = plumbing.ComputeHash(plumbing.BlobObject, text), filemode.Regular
		e.Size, e.ModifiedAt = uint32(len(text)), info.ModTime()
	}
	return repo.SetIndex(all)
}
