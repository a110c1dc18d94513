package demo

import (
	"context"
	"fmt"
	"io/fs"

	"github.com/go-git/go-git/v5"
	"github.com/go-git/go-git/v5/plumbing"
	"github.com/go-git/go-git/v5/plumbing/filemode"
	"github.com/go-git/go-git/v5/plumbing/object"
	"github.com/go-git/go-git/v5/plumbing/storer"
)

// build makes the repository in dir, which must not exist.
func build(ctx context.Context, dir string) error {
	main := plumbing.NewBranchReferenceName(Main)
	repo, err := git.PlainInitWithOptions(dir, &git.PlainInitOptions{
		InitOptions: git.InitOptions{DefaultBranch: main},
	})
	if err != nil {
		return err
	}
	if err := keepLineEnds(repo); err != nil {
		return err
	}
	made := map[string]plumbing.Hash{} // by Name of the commit
	for _, c := range History() {
		if err := ctx.Err(); err != nil {
			return err
		}
		if made[c.Name], err = record(repo, c, made[c.Parent]); err != nil {
			return fmt.Errorf("commit %s: %w", c.Name, err)
		}
	}
	tree, err := repo.Worktree()
	if err != nil {
		return err
	}
	return tree.Checkout(&git.CheckoutOptions{Branch: main, Force: true})
}

// keepLineEnds makes a later checkout by the git command give the same bytes, whatever the
// user's own settings say.
func keepLineEnds(repo *git.Repository) error {
	config, err := repo.Config()
	if err != nil {
		return err
	}
	config.Raw.Section("core").SetOption("autocrlf", "false")
	return repo.SetConfig(config)
}

// record stores a commit as objects and moves its branch to it. It does not go through
// a work tree, whose file modes and ignore files differ between machines.
func record(repo *git.Repository, c Commit, parent plumbing.Hash) (plumbing.Hash, error) {
	tree, err := storeTree(repo.Storer, c.Plan)
	if err != nil {
		return plumbing.ZeroHash, err
	}
	who := object.Signature{Name: c.Author, Email: c.Email, When: c.When}
	commit := object.Commit{Author: who, Committer: who, Message: c.Message, TreeHash: tree}
	if !parent.IsZero() {
		commit.ParentHashes = []plumbing.Hash{parent}
	}
	hash, err := store(repo.Storer, commit.Encode)
	if err != nil {
		return plumbing.ZeroHash, err
	}
	if c.Tag != "" {
		_, err := repo.CreateTag(c.Tag, hash, &git.CreateTagOptions{Tagger: &who, Message: "Harrow Valley plan " + c.Tag})
		if err != nil {
			return plumbing.ZeroHash, err
		}
	}
	branch := plumbing.NewBranchReferenceName(c.Branch)
	return hash, repo.Storer.SetReference(plumbing.NewHashReference(branch, hash))
}

func storeTree(s storer.EncodedObjectStorer, plan fs.FS) (plumbing.Hash, error) {
	entries, err := fs.ReadDir(plan, ".") // in the order that a tree of plain files wants
	if err != nil {
		return plumbing.ZeroHash, err
	}
	var tree object.Tree
	for _, entry := range entries {
		text, err := fs.ReadFile(plan, entry.Name())
		if err != nil {
			return plumbing.ZeroHash, err
		}
		blob, err := store(s, func(o plumbing.EncodedObject) error { return writeBlob(o, text) })
		if err != nil {
			return plumbing.ZeroHash, err
		}
		tree.Entries = append(tree.Entries, object.TreeEntry{Name: entry.Name(), Mode: filemode.Regular, Hash: blob})
	}
	return store(s, tree.Encode)
}

func writeBlob(o plumbing.EncodedObject, text []byte) error {
	o.SetType(plumbing.BlobObject)
	w, err := o.Writer()
	if err != nil {
		return err
	}
	if _, err := w.Write(text); err != nil {
		return err
	}
	return w.Close()
}

func store(s storer.EncodedObjectStorer, encode func(plumbing.EncodedObject) error) (plumbing.Hash, error) {
	o := s.NewEncodedObject()
	if err := encode(o); err != nil {
		return plumbing.ZeroHash, err
	}
	return s.SetEncodedObject(o)
}
