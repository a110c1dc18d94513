// Write puts a generated plan into a folder, or with -commits a bare git repository
// of its history; see package generate. It is for measuring and is not part of what a user runs.
//
//	go run ./plandiff/generate/write -channels 100000 plan
//	go run ./plandiff/generate/write -channels 10000 -files 40 -commits 5000 club.git
package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"

	"passband.example/plandiff/generate"
)

func main() {
	size := generate.Size{}
	flag.IntVar(&size.Channels, "channels", 1_000, "how many `channels`, at least 40")
	flag.IntVar(&size.Operators, "operators", 0, "how many `operators`")
	flag.IntVar(&size.Files, "files", 1, "how many `files`")
	seed := flag.Uint64("seed", 1, "another `number` gives other values")
	commits := flag.Int("commits", 0, "how many `commits`; with none a folder is written")
	flag.Parse()
	if err := write(flag.Args(), size, *seed, *commits); err != nil {
		fmt.Fprintln(os.Stderr, "generate:", err)
		os.Exit(2)
	}
}

func write(args []string, size generate.Size, seed uint64, commits int) error {
	if len(args) != 1 || size.Channels < 40 {
		return errors.New("name the folder to write, behind the flags, and 40 channels or more")
	}
	club := generate.New(size, seed)
	if commits > 0 {
		return repository(args[0], func(w io.Writer) error { return club.History(w, commits) })
	}
	if err := os.Mkdir(args[0], 0o777); err != nil {
		return err
	}
	for name, text := range club.Files() {
		if err := os.WriteFile(filepath.Join(args[0], name), text, 0o666); err != nil {
			return err
		}
	}
	return nil
}

// repository makes a bare repository of a stream for git fast-import.
func repository(dir string, write func(io.Writer) error) error {
	if err := exec.Command("git", "init", "-q", "--bare", "-b", "main", dir).Run(); err != nil {
		return fmt.Errorf("git init: %w", err)
	}
	cmd := exec.Command("git", "-C", dir, "fast-import", "--quiet")
	cmd.Stderr = os.Stderr
	in, err := cmd.StdinPipe()
	if err != nil {
		return err
	}
	if err := cmd.Start(); err != nil {
		return err
	}
	return errors.Join(write(in), in.Close(), cmd.Wait())
}
