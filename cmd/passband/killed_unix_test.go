//go:build unix

package main

import (
	"bytes"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"
)

// TestKilledAtAnyMoment kills the real program outright while it writes: what it
// writes is the old text or the new one, and nothing between. PASSBAND_KILLS=334 kills each of the
// three so often, a thousand times in all.
func TestKilledAtAnyMoment(t *testing.T) {
	program := build(t)
	kills := 30
	if n, err := strconv.Atoi(os.Getenv("PASSBAND_KILLS")); err == nil {
		kills = n
	}
	notes := strings.Repeat("# a comment\n", 5000)
	text := "plan: Example\nedition: 2026\nregion: US\nlicense: technician\n" + notes +
		"repeaters:\n  ridge: {output: 444.325, split: +5, fm: {tone: 177.8}}\nzones:\n  valley: {channels: [ridge/fm, ridge/fm]}\n"
	other := strings.Replace(text, "444.325", "444.350", 1)
	tests := []struct {
		name string
		args []string
		why  string
	}{
		{"fix", []string{"check", "--fix"}, "two faults that a machine can mend"},
		{"tidy", []string{"tidy"}, "the records are laid out anew"},
		{"merge", []string{"merge", "../base", ".", "../theirs", "--output", "."}, "the other side retuned"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			top := t.TempDir()
			file := filepath.Join(top, "ours", "plan.yaml")
			for dir, content := range map[string]string{"base": text, "ours": text, "theirs": other} {
				write(t, filepath.Join(top, dir, "plan.yaml"), content)
			}
			start := func() *exec.Cmd {
				write(t, file, text)
				cmd := exec.Command(program, tt.args...)
				cmd.Dir = filepath.Dir(file)
				if err := cmd.Start(); err != nil {
					t.Fatal(err)
				}
				return cmd
			}
			begin := time.Now()
			_ = start().Wait() // check --fix may find what it cannot mend
			took := time.Since(begin)
			finished, err := os.ReadFile(file)
			if err != nil || string(finished) == text {
				t.Fatalf("%s: it did nothing: %v", tt.why, err)
			}
			seen := make(map[bool]int)
			for range kills {
				cmd := start()
				time.Sleep(time.Duration(rand.Int64N(int64(took) + int64(took)/2)))
				_ = cmd.Process.Kill() // it may have ended
				_ = cmd.Wait()
				now, err := os.ReadFile(file)
				if err != nil {
					t.Fatal(err)
				}
				old := string(now) == text
				if !old && !bytes.Equal(now, finished) {
					t.Fatalf("it left %d bytes of neither the old text nor the new", len(now))
				}
				seen[old]++
			}
			t.Logf("%d times the old text, %d times the new", seen[true], seen[false])
		})
	}
}

func write(t *testing.T, file, text string) {
	t.Helper()
	if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}
