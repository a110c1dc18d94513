package post_test

import (
	"fmt"
	"os"
	"testing"
)

// sharedDir holds what all tests of the package read and none changes.
var sharedDir string

func TestMain(m *testing.M) {
	dir, err := os.MkdirTemp("", "passband-post-")
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
	sharedDir = dir
	status := m.Run()
	os.RemoveAll(dir)
	os.Exit(status)
}
