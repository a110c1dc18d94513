package main

import (
	"os/exec"
	"path/filepath"
	"testing"
)

// build makes the program of these sources, for tests that run it as users do.
func build(t *testing.T) string {
	t.Helper()
	program := filepath.Join(t.TempDir(), "passband")
	if out, err := exec.Command("go", "build", "-o", program, ".").CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	return program
}
