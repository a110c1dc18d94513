// Package whole puts folders and files in their place whole or not at all: a run
// that fails, or is stopped half-way, leaves nothing that looks finished.
//
// A run that is killed outright, by loss of power or by a signal that cannot be
// caught, leaves a folder or a file beside the target whose name begins with .passband-.
// Nothing reads it, since passband leaves alone what begins with a dot, and it may
// be deleted.
package whole

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// Folder lets build make a new folder, which does not exist when it is called, and
// puts that folder at dir. The folder dir must be new or empty, and the one it
// stands in must exist. It appears whole or not at all: when build fails, nothing
// is left. The errors say what to do.
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
		return fmt.Errorf("nothing can be written in %s: %w; choose a folder of your own", filepath.Dir(dir), cause(err))
	}
	defer os.RemoveAll(workshop)
	// A folder inside it, because the outer one is closed to everybody else.
	made := filepath.Join(workshop, "made")
	if err := build(made); err != nil {
		return fmt.Errorf("cannot write %s: %w", dir, err)
	}
	// An empty folder gives way; one that has been filled meanwhile does not.
	if err := os.Remove(dir); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("%s is no longer empty, and nothing is overwritten: %w", dir, cause(err))
	}
	return os.Rename(made, dir)
}

// vacant says why nothing can be put at dir, or nil.
func vacant(dir string) error {
	parent := filepath.Dir(dir)
	switch info, err := os.Stat(parent); {
	case errors.Is(err, fs.ErrNotExist):
		return fmt.Errorf("there is no folder %s to put it in; make that one first", parent)
	case err != nil:
		return fmt.Errorf("%s cannot be looked into: %w; choose a folder of your own", parent, cause(err))
	case !info.IsDir():
		return fmt.Errorf("%s is a file, and nothing can be put in it; name a new folder", parent)
	}
	info, err := os.Lstat(dir)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil
	case err != nil:
		return err
	case !info.IsDir():
		return fmt.Errorf("%s exists and is not a folder, and nothing is overwritten; name a new folder", dir)
	}
	if here, err := os.Stat("."); err == nil && os.SameFile(here, info) {
		return fmt.Errorf("%s is the folder you are in, and it cannot be replaced under you; name a new folder", dir)
	}
	entries, err := os.ReadDir(dir)
	if err != nil {
		return err
	}
	if len(entries) > 0 {
		return fmt.Errorf("%s is not empty, and nothing is overwritten; name a new folder", dir)
	}
	return nil
}

// cause gives a file error without its path, which the text has.
func cause(err error) error {
	var pe *fs.PathError
	if errors.As(err, &pe) {
		return pe.Err
	}
	return err
}
