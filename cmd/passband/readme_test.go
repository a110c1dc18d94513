package main

import (
	"bytes"
	"flag"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

var updateReadme = flag.Bool("update-readme", false, "write what the README's commands print into it")

var console = regexp.MustCompile("(?s)```console\n(.*?)```")

// TestReadme runs every command of the README, one after the other as a reader
// would, and wants the output that stands there.
func TestReadme(t *testing.T) {
	const file = "../../README.md"
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	r := newReader(t)
	now := console.ReplaceAllFunc(text, func(block []byte) []byte {
		var out bytes.Buffer
		out.WriteString("```console\n")
		for line := range strings.SplitSeq(string(console.FindSubmatch(block)[1]), "\n") {
			if command, ok := strings.CutPrefix(line, "$ "); ok {
				out.WriteString(line + "\n" + r.run(command))
			}
		}
		out.WriteString("```")
		return out.Bytes()
	})
	if r.ran == 0 {
		t.Fatal("the README runs nothing")
	}
	if bytes.Equal(now, text) {
		return
	}
	if !*updateReadme {
		t.Fatalf("the README shows other output than its commands give; look at what\n\tgo test ./cmd/passband -run Readme -update-readme\nchanges:\n%s", now)
	}
	if err := os.WriteFile(file, now, 0o644); err != nil {
		t.Fatal(err)
	}
}

// reader is somebody who types the commands of the README into a shell.
type reader struct {
	t   *testing.T
	dir string
	env []string
	ran int
}

func newReader(t *testing.T) *reader {
	bin, home := filepath.Dir(build(t)), t.TempDir()
	env := append(os.Environ(), "PATH="+bin+string(os.PathListSeparator)+os.Getenv("PATH"), "HOME="+home,
		"GIT_CONFIG_GLOBAL=/dev/null", "GIT_CONFIG_SYSTEM=/dev/null", "COLUMNS=80", "LC_ALL=C",
		"GIT_AUTHOR_NAME=Ann", "GIT_AUTHOR_EMAIL=ann@example.org", "GIT_AUTHOR_DATE=2026-11-01T10:00:00Z",
		"GIT_COMMITTER_NAME=Ann", "GIT_COMMITTER_EMAIL=ann@example.org", "GIT_COMMITTER_DATE=2026-11-01T10:00:00Z")
	return &reader{t: t, dir: home, env: env}
}

// run gives what a command prints, and stays where the command leads.
func (r *reader) run(command string) string {
	r.ran++
	where := filepath.Join(r.t.TempDir(), "where")
	cmd := exec.Command("sh", "-c", command+"\nstatus=$?; pwd > "+where+"; exit $status")
	cmd.Dir, cmd.Env = r.dir, r.env
	out, err := cmd.CombinedOutput()
	blocks := (strings.HasPrefix(command, "passband check") || strings.HasPrefix(command, "passband report")) && cmd.ProcessState.ExitCode() == exitBlocks
	if err != nil && !blocks {
		r.t.Fatalf("%s: %v\n%s", command, err, out)
	}
	dir, err := os.ReadFile(where)
	if err != nil {
		r.t.Fatal(err)
	}
	r.dir = strings.TrimSpace(string(dir))
	return string(out)
}

// TestReadmeQuotesMeasurements holds the README's figures against the file of measurements.
func TestReadmeQuotesMeasurements(t *testing.T) {
	readme, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	results, err := os.ReadFile("../../plandiff/bench/results.md")
	if err != nil {
		t.Fatal(err)
	}
	_, section, _ := strings.Cut(string(readme), "\n## How fast it is\n")
	section, _, _ = strings.Cut(section, "\n## ")
	quoted := 0
	for line := range strings.Lines(section) {
		if !strings.HasPrefix(line, "| ") {
			continue
		}
		if quoted++; !strings.Contains(string(results), "\n"+line) {
			t.Errorf("plandiff/bench/results.md does not say\n%s", line)
		}
	}
	if quoted < 5 {
		t.Errorf("only %d lines are quoted", quoted)
	}
}
