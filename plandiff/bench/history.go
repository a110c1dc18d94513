package main

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"

	"passband.example/plandiff/generate"
)

// histories holds the log and the trace of a long history against those of git.
func (b *bench) histories(commits int) ([]row, error) {
	dir, err := b.repository("one-field", commits, (*generate.Club).Change)
	if err != nil {
		return nil, err
	}
	gitLog := b.process(nil, dir, "git", "log", "-p", "main")
	log := b.process(nil, dir, b.passband, "log", "main")
	alone := b.process([]string{"PATH="}, dir, b.passband, "log", "main")
	blame := b.process(nil, dir, "git", "blame", "main", "--", "part-07.yaml")
	key, err := keyIn(dir, "part-07.yaml")
	if err != nil {
		return nil, err
	}
	trace := b.process(nil, dir, b.passband, "trace", key, "--at", "main")
	mixed, err := b.repository("usual", max(2, commits/10))
	if err != nil {
		return nil, err
	}
	var rows []row
	for _, m := range []struct {
		what   string
		target float64
		a, b   side
	}{
		{fmt.Sprintf("log of %d commits, one field each / `git log -p`", commits), 0.9, log, gitLog},
		{"the same by go-git alone", 1.6, alone, gitLog},
		{fmt.Sprintf("trace of one channel, %d commits / `git blame` of its file", commits), 1.5, trace, blame},
		{fmt.Sprintf("log of %d usual commits, renames and removals among them / `git log -p`", max(2, commits/10)), 0,
			b.process(nil, mixed, b.passband, "log", "main"), b.process(nil, mixed, "git", "log", "-p", "main")},
	} {
		r, err := b.versus(m.what, m.target, m.a, m.b)
		if err != nil {
			return nil, err
		}
		rows = append(rows, r)
	}
	return rows, nil
}

// repository makes a packed repository of a plan of 10,000 channels in 40 files.
func (b *bench) repository(name string, commits int, edits ...generate.Edit) (string, error) {
	dir := filepath.Join(b.dir, name+".git")
	if err := exec.CommandContext(b.ctx, "git", "init", "-q", "--bare", "-b", "main", dir).Run(); err != nil {
		return "", fmt.Errorf("git init: %w", err)
	}
	cmd := exec.CommandContext(b.ctx, "git", "-C", dir, "fast-import", "--quiet")
	cmd.Stderr = os.Stderr
	in, err := cmd.StdinPipe()
	if err != nil {
		return "", err
	}
	if err := cmd.Start(); err != nil {
		return "", err
	}
	c := generate.New(generate.Size{Channels: 10_000, Files: 40}, 1)
	if err := errors.Join(c.History(in, commits, edits...), in.Close(), cmd.Wait()); err != nil {
		return "", err
	}
	return dir, exec.CommandContext(b.ctx, "git", "-C", dir, "repack", "-q", "-a", "-d").Run()
}

// keyIn gives the key of a channel that stands in a file of the last commit.
func keyIn(dir, file string) (string, error) {
	text, err := exec.Command("git", "-C", dir, "show", "main:"+file).Output()
	if err != nil {
		return "", err
	}
	_, after, _ := strings.Cut(string(text), "\n  ch-")
	key, _, ok := strings.Cut(after, ":")
	if !ok {
		return "", fmt.Errorf("%s has no channel", file)
	}
	return "ch-" + key, nil
}
