// Package whole puts folders in their place whole or not at all: a run that
// fails, or is stopped half-way, leaves nothing that looks finished.
package whole

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// Folder lets build fill a new folder and puts it at dir. The folder dir must be
// new or empty, and the one it stands in must exist. It appears whole or not at
// all: when build fails, nothing is left. The errors say what to do.
func Folder(dir string, build func(dir string) error) error {
	dir, err := filepath.Abs(dir)
	if err != nil {
		return err
	}
	if err := vacant(dir); err != nil {
		return err
	}
	// Beside the target, so that the last step is a rename within one file system.
	workshop, err := os.MkdirTemp(filepath.Dir(dir), ".passband-*")
	if err != nil {
		return fmt.Errorf("cannot write beside %s: %w", dir, err)
	}
	defer os.RemoveAll(workshop)
	// A folder inside it, because the outer one is closed to everybody else.
	made := filepath.Join(workshop, "made")
	if err := build(made); err != nil {
		return fmt.Errorf("cannot write %s: %w", dir, err)
	}
	// An empty folder gives way; one that has been filled meanwhile does not.
	if err := os.Remove(dir); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("%s is no longer empty, and nothing is overwritten: %w", dir, err)
	}
	return os.Rename(made, dir)
}

// vacant says why nothing can be put at dir, or nil.
func vacant(dir string) error {
	info, err := os.Lstat(dir)
	if errors.Is(err, fs.ErrNotExist) {
		parent := filepath.Dir(dir)
		if _, err := os.Stat(parent); err != nil {
			return fmt.Errorf("there is no folder %s to put it in; make it first: %w", parent, err)
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
		return fmt.Errorf("%s is the folder you are in, and its place would be taken; give the name of a new one", dir)
	}
	entries, err := os.ReadDir(dir)
	if err != nil {
		return err
	}
	if len(entries) > 0 {
		return fmt.Errorf("%s is not empty, and nothing is overwritten; give the name of a new folder", dir)
	}
	return nil
}
