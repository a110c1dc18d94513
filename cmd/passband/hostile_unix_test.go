//go:build unix

package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"syscall"
	"testing"
)

// mostMemory is what the program may take of memory for a plan that is no plan, in bytes.
const mostMemory = 300 << 20

// TestHostileBounds gives the real program what is meant to exhaust it. It must end in its own way
// and in bounded memory; -v tells what each took, of processor time too.
func TestHostileBounds(t *testing.T) {
	if testing.Short() {
		t.Skip("it writes 100,000 files")
	}
	program := build(t)
	many := func(n int, name, text string) func(dir string) {
		return func(dir string) {
			write(t, filepath.Join(dir, "plan.yaml"), "plan: P\n")
			for i := range n {
				write(t, filepath.Join(dir, fmt.Sprintf(name, i)), fmt.Sprintf(text, i))
			}
		}
	}
	of := func(text string) func(dir string) {
		return func(dir string) { write(t, filepath.Join(dir, "plan.yaml"), text) }
	}
	bomb := "a0: &a0 [x, x, x, x, x, x, x, x, x, x]\n"
	for i := range 30 {
		bomb += fmt.Sprintf("a%d: &a%d [%s]\n", i+1, i+1, strings.TrimSuffix(strings.Repeat(fmt.Sprintf("*a%d, ", i), 10), ", "))
	}
	tests := []struct {
		name, why string
		make      func(dir string)
		status    int
		tree      bool // a large one
	}{
		{"aliases of aliases", "a few lines that stand for 10 to the 31st values", of(bomb + "zones: {home: {channels: *a30}}\n"), exitBlocks, false},
		{"aliases in a row", "each stands for a list of 1,000", of("a: &a [" + strings.Repeat("x, ", 1_000) + "x]\nzones:\n" + strings.Repeat("  home: {channels: *a}\n", 20_000)), exitBlocks, false},
		{"a large file", "3 GB, most of it a hole", func(dir string) {
			of("plan: P\n")(dir)
			if err := os.Truncate(filepath.Join(dir, "plan.yaml"), 3_000_000_000); err != nil {
				t.Fatal(err)
			}
		}, exitBlocks, false},
		{"lists in lists", "100,000 deep", of(strings.Repeat("[", 100_000)), exitBlocks, false},
		{"mappings in mappings", "100,000 deep", of(strings.Repeat("{a: ", 100_000)), exitBlocks, false},
		{"keys in keys", "100,000 deep", of(strings.Repeat("? ", 100_000)), exitBlocks, false},
		{"one long line", "16 MB without an end", of("plan: " + strings.Repeat("x", 15<<20)), exitBlocks, false},
		{"keys without values", "a million of them", of(strings.Repeat("k:\n", 1_000_000)), exitBlocks, false},
		{"files", "100,000 of a plan", many(100_000, "f%d.yaml", "groups: {g%[1]d: {id: %[1]d}}\n"), exitBlocks, true},
		{"other files", "100,000 of no plan", many(100_000, "f%d.txt", ""), exitBlocks, true},
		{"folders", "100,000 in one", many(100_000, "d%d/z.yaml", ""), exitBlocks, true},
		{"no plan", "100,000 folders, and nothing in them", func(dir string) {
			for i := range 100_000 {
				if err := os.Mkdir(filepath.Join(dir, fmt.Sprint(i)), 0o700); err != nil {
					t.Fatal(err)
				}
			}
		}, exitFailed, true},
		{"links out of the plan", "a file, a folder and a device that are not the club's", func(dir string) {
			of("plan: P\n")(dir)
			for name, target := range map[string]string{"a.yaml": "/etc/passwd", "b.yaml": "/dev/zero", "c": "/", "d.yaml": "d.yaml", "e": ".", "operators.csv": "/proc/self/environ"} {
				if err := os.Symlink(target, filepath.Join(dir, name)); err != nil {
					t.Fatal(err)
				}
			}
		}, exitBlocks, false},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if tt.tree && os.Getenv("PASSBAND_TREES") == "" {
				t.Skip("PASSBAND_TREES is not set")
			}
			dir := t.TempDir()
			tt.make(dir)
			for _, args := range [][]string{{"check"}, {"tidy", "--check"}, {"merge", ".", ".", "."}, {"merge", "plan.yaml", "plan.yaml", "plan.yaml"}} {
				cmd := exec.Command(program, args...)
				cmd.Dir = dir
				said, _ := cmd.CombinedOutput() // its status says how it ended
				status := tt.status
				if args[0] != "check" {
					status = exitFailed
				}
				state := cmd.ProcessState
				memory := state.SysUsage().(*syscall.Rusage).Maxrss
				if runtime.GOOS == "linux" {
					memory <<= 10 // there it counts in KiB (getrusage(2)), elsewhere in bytes
				}
				if slices.Contains(args, "plan.yaml") && state.ExitCode() == 0 {
					status = 0 // that file alone may be sound
				}
				if state.ExitCode() != status || strings.Contains(string(said), "goroutine ") || strings.Contains(string(said), "root:") {
					t.Errorf("%s: %s ends with %d:\n%.2000s", tt.why, args[0], state.ExitCode(), said)
				}
				if memory > mostMemory {
					t.Errorf("%s: %s takes %d MB", tt.why, args[0], memory>>20)
				}
				t.Logf("%-6s %5.2f s, %3d MB", args[0], (state.UserTime() + state.SystemTime()).Seconds(), memory>>20)
			}
		})
	}
}
