package whole

import (
	"bytes"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
)

// Files gives files below the folder dir, which are there, another text. was holds
// what each of them held when its new text in now was made, both by names with
// slashes: where one holds something else meanwhile, nothing is written.
//
// Each file is written whole or not at all, and keeps its permissions. All new texts
// are on the disk before the first file is replaced, so that what can fail has failed
// by then; a run that is killed between two files leaves some of them old. The errors
// say what to do.
func Files(dir string, was, now map[string][]byte) error {
	names := slices.Sorted(maps.Keys(now))
	var ready []waiting
	defer func() {
		for _, w := range ready {
			os.Remove(w.temporary) // what was put in its place is not there any more
		}
	}()
	for _, name := range names {
		w, err := prepare(filepath.Join(dir, filepath.FromSlash(name)), was[name], now[name])
		if w.temporary != "" {
			ready = append(ready, w)
		}
		if err != nil {
			return err
		}
	}
	for i, w := range ready {
		if err := os.Rename(w.temporary, w.file); err != nil {
			return fmt.Errorf("%s cannot be replaced (%d of %d files are written): %w", w.file, i, len(ready), cause(err))
		}
	}
	return nil
}

// A waiting text is on the disk beside the file that it will replace.
type waiting struct{ file, temporary string }

// prepare writes the new text of a file beside it. Go's library for this, renameio,
// does not know Windows.
func prepare(file string, was, now []byte) (w waiting, err error) {
	info, err := os.Lstat(file)
	if err != nil {
		return w, fmt.Errorf("%s cannot be read again: %w", file, cause(err))
	}
	holds, err := os.ReadFile(file)
	if err != nil || !info.Mode().IsRegular() || !bytes.Equal(holds, was) {
		return w, fmt.Errorf("%s has changed meanwhile, and nothing is written; run it again", file)
	}
	if f, err := os.OpenFile(file, os.O_WRONLY, 0); err != nil { // replacing it needs no leave to write to it
		return w, fmt.Errorf("%s may not be written: %w", file, cause(err))
	} else {
		f.Close()
	}
	f, err := os.CreateTemp(filepath.Dir(file), ".passband-*")
	if err != nil {
		return w, fmt.Errorf("nothing can be written beside %s: %w", file, cause(err))
	}
	w = waiting{file, f.Name()}
	_, err = f.Write(now)
	for _, step := range []func() error{f.Sync, f.Close, func() error { return os.Chmod(w.temporary, info.Mode().Perm()) }} {
		if e := step(); err == nil {
			err = e
		}
	}
	if err != nil {
		return w, fmt.Errorf("%s cannot be written: %w", file, cause(err))
	}
	return w, nil
}
