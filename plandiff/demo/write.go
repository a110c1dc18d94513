package demo

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// Write makes a git repository of the demo in the folder dir, with its work tree on
// [Main]. The hashes of its commits and tags are the same on every machine, whatever
// its settings, and no git command is needed.
//
// The folder must be new or empty, and the folder it stands in must exist. It
// appears whole or not at all: on an error, and when ctx ends, nothing is left.
func Write(ctx context.Context, dir string) error {
	dir, err := filepath.Abs(dir)
	if err != nil {
		return err
	}
	if err := vacant(dir); err != nil {
		return err
	}
	// Beside the target, so that the last step is a rename within one file system.
	workshop, err := os.MkdirTemp(filepath.Dir(dir), ".passband-demo-*")
	if err != nil {
		return fmt.Errorf("cannot write the demo beside %s: %w", dir, err)
	}
	defer os.RemoveAll(workshop)
	// A folder inside it, because the outer one is closed to everybody else.
	whole := filepath.Join(workshop, "repository")
	if err := build(ctx, whole); err != nil {
		return fmt.Errorf("cannot write the demo to %s: %w", dir, err)
	}
	// An empty folder gives way; one that has been filled meanwhile does not.
	if err := os.Remove(dir); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("%s is no longer empty, and the demo overwrites nothing: %w", dir, err)
	}
	return os.Rename(whole, dir)
}

// vacant says why the demo can't be put at dir, or nil.
func vacant(dir string) error {
	info, err := os.Lstat(dir)
	if errors.Is(err, fs.ErrNotExist) {
		parent := filepath.Dir(dir)
		if _, err := os.Stat(parent); err != nil {
			return fmt.Errorf("there is no folder %s to put the demo in; make it first: %w", parent, err)
		}
		return nil
	}
	if err != nil {
		return err
	}
	if !info.IsDir() {
		return fmt.Errorf("%s exists and is not a folder; give the name of a new one", dir)
	}
	if here, err := os.Stat("."); err == nil && os.SameFile(here, info) {
		return fmt.Errorf("%s is the folder you are in, and the demo would take its place; give the name of a new one", dir)
	}
	entries, err := os.ReadDir(dir)
	if err != nil {
		return err
	}
	if len(entries) > 0 {
		return fmt.Errorf("%s is not empty, and the demo overwrites nothing; give the name of a new folder", dir)
	}
	return nil
}
