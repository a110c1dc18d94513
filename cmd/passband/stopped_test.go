package main

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"testing"
	"time"
)

// sameTree wants two folders with the same files, apart from the index of git,
// which holds times.
func sameTree(t *testing.T, want, got string) {
	t.Helper()
	files := 0
	err := filepath.WalkDir(want, func(name string, d os.DirEntry, err error) error {
		if err != nil || d.IsDir() || d.Name() == "index" {
			return err
		}
		files++
		a, err := os.ReadFile(name)
		if err != nil {
			return err
		}
		b, err := os.ReadFile(filepath.Join(got, name[len(want):]))
		if err == nil && !bytes.Equal(a, b) {
			t.Errorf("%s differs", name[len(want):])
		}
		return err
	})
	if err != nil || files == 0 {
		t.Errorf("%d files, %v", files, err)
	}
}

// TestStopped runs each command with a context that has ended: it says so, with
// status 2, and leaves nothing.
func TestStopped(t *testing.T) {
	above := t.TempDir()
	club := filepath.Join(above, "club")
	if err := os.CopyFS(club, os.DirFS(filepath.Join("testdata", "club"))); err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	for _, args := range [][]string{
		{"check", club}, {"diff", club, club}, {"show", "ridge", "--plan", club}, {"radios", club},
		{"start", filepath.Join(above, "new")}, {"demo", filepath.Join(above, "demo")},
	} {
		t.Run(args[0], func(t *testing.T) {
			var stdout, stderr bytes.Buffer
			now := func() time.Time { return time.Date(2026, 3, 1, 0, 0, 0, 0, time.UTC) }
			status := run(ctx, args, &stdout, &stderr, func(string) string { return "" }, now)
			if status != exitFailed || stdout.Len() > 0 || stderr.String() != "passband: stopped\n" {
				t.Errorf("status %d, output %q, errors %q", status, stdout.String(), stderr.String())
			}
		})
	}
	entries, err := os.ReadDir(above)
	if err != nil || len(entries) != 1 {
		t.Errorf("left over: %v, %v", entries, err)
	}
}
