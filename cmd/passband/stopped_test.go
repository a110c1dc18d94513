package main

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"testing"
	"time"
)

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
