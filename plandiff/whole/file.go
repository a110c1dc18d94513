package whole

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// File gives a file, new or not, a text: whoever reads it, at any moment and after any
// end of the program, finds the old text or the new one. A file that is there keeps
// its permissions. The errors say what to do.
func File(name string, text []byte) error {
	dir, base := filepath.Split(name)
	old, err := os.ReadFile(name)
	if err == nil {
		return Files(filepath.Clean(dir), map[string][]byte{base: old}, map[string][]byte{base: text})
	}
	if !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	f, err := os.CreateTemp(filepath.Clean(dir), ".passband-*")
	if err != nil {
		return fmt.Errorf("cannot write %s: %w", name, cause(err))
	}
	defer os.Remove(f.Name()) // what was put in its place is not there any more
	_, err = f.Write(text)
	err = errors.Join(err, f.Chmod(0o644), f.Sync(), f.Close())
	if err == nil {
		err = os.Rename(f.Name(), name)
	}
	if err != nil {
		return fmt.Errorf("cannot write %s: %w", name, cause(err))
	}
	return nil
}
