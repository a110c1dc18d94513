package driver

import (
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/whole"
)

// AttributesFile is where git reads what kind of file a file is.
const AttributesFile = ".gitattributes"

const (
	beginLine = "# passband begin: merge and show channel plans by what they say (passband git install)"
	endLine   = "# passband end"
)

// attributes are the lines in .gitattributes. A folder that begins with a dot is no
// part of a plan.
const attributes = beginLine + `
*.yaml         merge=passband diff=passband
*.yml          merge=passband diff=passband
operators.csv  merge=passband diff=passband
neighbors.csv  merge=passband diff=passband
license.csv    merge=passband diff=passband
separation.csv merge=passband diff=passband
.*/**          !merge !diff
` + endLine + "\n"

// A Setup is what stands in a clone.
type Setup struct {
	Attributes bool // .gitattributes names the drivers
	Merge      bool // the configuration of this clone says how to merge
	Diff       bool // and how to show
}

// Whole reports whether git merges and shows plans by what they say.
func (s Setup) Whole() bool { return s.Attributes && s.Merge && s.Diff }

// Nothing reports whether no part of it is there.
func (s Setup) Nothing() bool { return s == Setup{} }

// settings are the keys of git's configuration. program is what git runs. Where it is
// not found (a window program of git often has another PATH), git merges by lines, as it
// does by itself: it would keep one side whole otherwise, without a mark.
func settings(program string) [][2]string {
	there := "command -v " + program + " >/dev/null 2>&1"
	lines := "echo 'passband is not found: merged by lines' >&2; git merge-file -q -L ours -L before -L theirs --marker-size=%L %A %O %B"
	return [][2]string{
		{"merge.passband.name", "merge channel plans by what they say"},
		{"merge.passband.driver", "if " + there + "; then " + program + " git merge-driver %O %A %B %L %P; else " + lines + "; fi"},
		{"diff.passband.textconv", "show() { if " + there + "; then " + program + ` git textconv "$1"; else cat "$1"; fi; }; show`},
	}
}

// Look tells what of the drivers is set up for the plan in dir.
func Look(ctx context.Context, dir string) (Setup, error) {
	var s Setup
	if _, err := git(ctx, dir, "rev-parse", "--git-dir"); err != nil {
		return s, noClone(dir, err)
	}
	out, err := git(ctx, dir, "check-attr", "merge", "diff", "--", "plan.yaml")
	if err != nil {
		return s, err
	}
	s.Attributes = strings.Contains(out, "merge: passband") && strings.Contains(out, "diff: passband")
	for key, there := range map[string]*bool{"merge.passband.driver": &s.Merge, "diff.passband.textconv": &s.Diff} {
		value, err := git(ctx, dir, "config", "--get", key)
		if exit := (*exec.ExitError)(nil); err != nil && !errors.As(err, &exit) {
			return s, err
		}
		*there = value != ""
	}
	return s, nil
}

// noClone says why git does not work in dir.
func noClone(dir string, err error) error {
	switch words := err.Error(); {
	case errors.Is(err, exec.ErrNotFound):
		return err
	case strings.Contains(words, "dubious ownership"):
		return fmt.Errorf("the repository that holds %s belongs to another user, and git does not work in it; if you trust it, do what git says: %w", dir, err)
	case !strings.Contains(words, "not a git repository"):
		return fmt.Errorf("git cannot read the repository that holds %s, and nothing is set up: %w", dir, err)
	}
	return fmt.Errorf("%s is in no git repository, and there is nothing to set up (%w); make one with git init, or name the folder of the plan with --plan", dir, err)
}

// unset says why a setting was not written.
func unset(err error) error {
	if strings.Contains(err.Error(), "could not lock") {
		return fmt.Errorf("another git is changing the settings of this repository, or was stopped while it did; if none is at work, take the file away that ends in .lock (%w)", err)
	}
	return err
}

// Install sets the drivers up for the plan in dir: the lines in its .gitattributes,
// which are to be committed, and the configuration of this clone. program is the
// command that git will run, quoted for a shell where it needs to be. Done twice, it
// changes nothing.
func Install(ctx context.Context, dir, program string) error {
	if _, err := os.Stat(filepath.Join(dir, plan.RootFile)); err != nil {
		return fmt.Errorf("%s holds no plan: there is no %s in it; name the folder of the plan with --plan", dir, plan.RootFile)
	}
	if _, err := git(ctx, dir, "rev-parse", "--git-dir"); err != nil {
		return noClone(dir, err)
	}
	for _, set := range settings(program) {
		if _, err := git(ctx, dir, "config", "--local", set[0], set[1]); err != nil {
			return unset(err)
		}
	}
	return edit(dir, attributes)
}

// Remove takes away what Install put in, and nothing else. Done twice, it changes
// nothing.
func Remove(ctx context.Context, dir string) error {
	if _, err := git(ctx, dir, "rev-parse", "--git-dir"); err != nil {
		return noClone(dir, err)
	}
	for _, section := range []string{"merge.passband", "diff.passband"} {
		if there, _ := git(ctx, dir, "config", "--local", "--get-regexp", `^`+strings.ReplaceAll(section, ".", `\.`)+`\.`); there == "" {
			continue
		}
		if _, err := git(ctx, dir, "config", "--local", "--remove-section", section); err != nil {
			return unset(err)
		}
	}
	return edit(dir, "")
}

// edit puts lines into .gitattributes in the place of those of passband, at its end
// where there are none. A file that comes out empty is taken away.
func edit(dir, lines string) error {
	name := filepath.Join(dir, AttributesFile)
	data, err := os.ReadFile(name)
	if err != nil && !errors.Is(err, os.ErrNotExist) {
		return err
	}
	old := string(data)
	switch text := with(old, lines); text {
	case old:
		return nil
	case "":
		return os.Remove(name)
	default:
		return whole.File(name, []byte(text))
	}
}

// with gives a text with lines in the place of those of passband.
func with(text, lines string) string {
	before, after := around(text)
	if before != "" && !strings.HasSuffix(before, "\n") {
		before += "\n"
	}
	return before + lines + after
}

// around gives what stands before and behind the lines of passband. A first line of them
// without a last, which somebody took out, is left: nothing of theirs is lost.
func around(text string) (before, after string) {
	lines := strings.SplitAfter(text, "\n")
	begin := -1
	for i, line := range lines {
		switch strings.TrimRight(line, "\r\n") {
		case beginLine:
			begin = i
		case endLine:
			if begin >= 0 {
				return strings.Join(lines[:begin], ""), strings.Join(lines[i+1:], "")
			}
		}
	}
	return text, ""
}

// String tells a person what is set up, and what to do.
func (s Setup) String() string {
	switch {
	case s.Whole():
		return "set up: git merges and shows plans by what they say"
	case s.Nothing():
		return "not set up: git merges and shows plans as lines of text; run \"passband git install\""
	case s.Attributes:
		return "half set up: .gitattributes names passband, and this clone's configuration does not say how to run it, so git merges or shows plans as lines of text without a word; run \"passband git install\""
	}
	return "half set up: this clone knows how to run passband, and .gitattributes does not name it; run \"passband git install\", and commit .gitattributes"
}
