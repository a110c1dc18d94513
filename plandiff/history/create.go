package history

import (
	"path/filepath"

	"github.com/go-git/go-billy/v5/osfs"
	"github.com/go-git/go-git/v5/plumbing"
	"github.com/go-git/go-git/v5/plumbing/cache"
	"github.com/go-git/go-git/v5/storage/filesystem"
)

// Create makes a repository whose work tree is the folder dir, and gives what it keeps in
// .git. It is on a branch that has no commit yet. The folder is made where it is missing.
//
// Like all of this package it uses the storage of go-git and nothing above it, which would bring
// clients for every way to reach a server.
func Create(dir, branch string) (*filesystem.Storage, error) {
	s := filesystem.NewStorage(osfs.New(filepath.Join(dir, ".git")), cache.NewObjectLRUDefault())
	if err := s.Init(); err != nil {
		return nil, err
	}
	config, err := s.Config()
	if err != nil {
		return nil, err
	}
	if err := s.SetConfig(config); err != nil {
		return nil, err
	}
	return s, s.SetReference(plumbing.NewSymbolicReference(plumbing.HEAD, plumbing.NewBranchReferenceName(branch)))
}
