//go:build unix

package main

import (
	"io/fs"
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
// writes is the old or the new, and nothing between; what is new is there whole or not at all.
// PASSBAND_KILLS=100 kills each of the ten so often, a thousand times in all.
func TestKilledAtAnyMoment(t *testing.T) {
	program := build(t)
	kills := 15
	if n, err := strconv.Atoi(os.Getenv("PASSBAND_KILLS")); err == nil {
		kills = n
	}
	notes := strings.Repeat("# a comment\n", 5000)
	text := "plan: Example\nedition: 2026\nregion: US\nlicense: technician\n" + notes +
		"repeaters:\n  ridge: {output: 444.325, split: +5, fm: {tone: 177.8}}\nzones:\n  valley: {channels: [ridge/fm, ridge/fm]}\n"
	other := strings.Replace(text, "444.325", "444.350", 1)
	tests := []struct {
		name   string
		args   []string
		target string // what is written, from the folder ours
		why    string
	}{
		{"fix", []string{"check", "--fix"}, "plan.yaml", "two faults that a machine can mend"},
		{"tidy", []string{"tidy"}, "plan.yaml", "the records are laid out anew"},
		{"merge", []string{"merge", "../base", ".", "../theirs", "--output", "."}, "plan.yaml", "the other side retuned"},
		{"import", []string{"import", "../tables", "--write"}, "plan.yaml", "the tables are those of the other side"},
		{"import of a new plan", []string{"import", "../tables", "--write", "--plan", "new"}, "new", "the folder is not there yet"},
		{"export", []string{"export", "--to", "new"}, "new", "several tables in a folder"},
		{"start", []string{"start", "new"}, "new", "a folder"},
		{"demo", []string{"demo", "new"}, "new", "a folder with a repository"},
		{"report", []string{"report", "-o", "new"}, "new", "a page"},
		{"cards", []string{"card", "--html", "new"}, "new", "a page for the printer"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			top := t.TempDir()
			ours := filepath.Join(top, "ours")
			target := filepath.Join(ours, tt.target)
			for dir, content := range map[string]string{"base": text, "theirs": other} {
				write(t, filepath.Join(top, dir, "plan.yaml"), content)
			}
			if out, err := exec.Command(program, "export", "--plan", filepath.Join(top, "theirs"), "--to", filepath.Join(top, "tables")).CombinedOutput(); err != nil {
				t.Fatalf("%v\n%s", err, out)
			}
			prepared := func() string {
				for err := os.RemoveAll(ours); err != nil; err = os.RemoveAll(ours) {
					time.Sleep(time.Millisecond) // a git that outlived the program may still write
				}
				write(t, filepath.Join(ours, "plan.yaml"), text)
				return standing(t, target)
			}
			run := func(after time.Duration) {
				cmd := exec.Command(program, tt.args...)
				cmd.Dir = ours
				if err := cmd.Start(); err != nil {
					t.Fatal(err)
				}
				timer := time.AfterFunc(after, func() { _ = cmd.Process.Kill() }) // it may have ended
				_ = cmd.Wait()                                                    // check --fix may find what it cannot mend
				timer.Stop()
			}
			before := prepared()
			begin := time.Now()
			run(time.Minute)
			took := time.Since(begin)
			finished := standing(t, target)
			if finished == before {
				t.Fatalf("%s: it did nothing", tt.why)
			}
			seen := make(map[bool]int)
			for range kills {
				prepared()
				run(time.Duration(rand.Int64N(int64(took) + int64(took)/2)))
				now := standing(t, target)
				if now != before && now != finished {
					t.Fatalf("it left neither the old nor the new, but\n%s", now)
				}
				seen[now == before]++
			}
			prepared()
			t.Logf("%d times the old, %d times the new", seen[true], seen[false])
		})
	}
}

// standing gives the text of a file, or those of all files of a folder but the index of git, in which
// the times of files stand; "" where there is neither.
func standing(t *testing.T, path string) string {
	t.Helper()
	var all strings.Builder
	err := filepath.WalkDir(path, func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || d.Name() == "index" {
			return err
		}
		text, err := os.ReadFile(name)
		all.WriteString("-- " + name + " --\n" + string(text))
		return err
	})
	if err != nil && !os.IsNotExist(err) {
		t.Fatal(err)
	}
	return all.String()
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
