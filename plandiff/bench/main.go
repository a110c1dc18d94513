package main

import (
	"context"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"strings"
)

func main() {
	rounds := flag.Int("rounds", 7, "how many `turns` each row takes")
	largest := flag.Int("largest", 100_000, "how many `channels` the largest plan has")
	commits := flag.Int("commits", 5_000, "how many `commits` the history has")
	flag.Parse()
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	var err error
	if flag.NArg() > 0 {
		err = peer(flag.Args())
	} else {
		err = measureAll(ctx, *rounds, *largest, *commits)
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, "bench:", err)
		os.Exit(2)
	}
}

// A bench is a place to measure in: the programs, and the plans that were made.
type bench struct {
	ctx      context.Context
	rounds   int
	largest  int
	dir      string
	passband string
	self     string // this program, which is also each of the libraries
	bare     string // the smallest program in Go
}

func measureAll(ctx context.Context, rounds, largest, commits int) error {
	dir, err := os.MkdirTemp("", "bench")
	if err != nil {
		return err
	}
	defer os.RemoveAll(dir)
	b := &bench{ctx: ctx, rounds: rounds, largest: largest, dir: dir}
	if err := b.build(); err != nil {
		return err
	}
	m := describe()
	var rows []row
	for _, part := range []func() ([]row, error){b.startUp, b.loads, b.holds, b.growth, b.diffs, b.layouts, b.checks, b.merges, func() ([]row, error) { return b.histories(commits) }} {
		more, err := part()
		if err != nil {
			return err
		}
		rows = append(rows, more...)
	}
	noise, err := b.noise()
	if err != nil {
		return err
	}
	return write(os.Stdout, m, rounds, rows, noise)
}

// build makes the programs that are measured, as a release makes them.
func (b *bench) build() error {
	var err error
	if b.self, err = os.Executable(); err != nil {
		return err
	}
	bare := filepath.Join(b.dir, "bare.go")
	if err := os.WriteFile(bare, []byte("package main\n\nfunc main() {}\n"), 0o666); err != nil {
		return err
	}
	top, err := exec.CommandContext(b.ctx, "go", "list", "-m", "-f", "{{.Dir}}", "passband.example").Output()
	if err != nil {
		return fmt.Errorf("run it in its own folder, plandiff/bench: %w", err)
	}
	b.passband, b.bare = filepath.Join(b.dir, "passband"), filepath.Join(b.dir, "bare")
	for out, source := range map[string]string{b.passband: "./cmd/passband", b.bare: bare} {
		cmd := exec.CommandContext(b.ctx, "go", "build", "-trimpath", "-ldflags=-s -w", "-o", out, source)
		cmd.Dir = strings.TrimSpace(string(top)) // whose go.mod says what passband is built of
		cmd.Env = append(os.Environ(), "CGO_ENABLED=0")
		if text, err := cmd.CombinedOutput(); err != nil {
			return fmt.Errorf("go build %s: %w\n%s", source, err, text)
		}
	}
	return nil
}
