//go:build unix

package history

import (
	"io/fs"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

// Reading from a pipe in the folder could wait for ever.
func TestWorkTreeOpensNoPipe(t *testing.T) {
	dir := tempDir(t)
	if err := syscall.Mkfifo(filepath.Join(dir, "plan.yaml"), 0o644); err != nil {
		t.Fatal(err)
	}
	files, err := WorkTree(dir)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := fs.ReadFile(files, "plan.yaml"); err == nil || !strings.Contains(err.Error(), "pipe") {
		t.Errorf("error = %v, want a refusal that names the pipe", err)
	}
}
