package main

import (
	"context"
	"errors"
	"os/exec"
	"path/filepath"
	"strings"
	"testing/fstest"

	"passband.example/plandiff"
	"passband.example/plandiff/generate"
	"passband.example/plandiff/plan"
)

// A noise is how many entries each program has for one edit.
type noise struct {
	edit              string
	person, ours, git int
	jd, dyff, goCmp   int // -1: it compares one document
}

// noise counts what one edit costs the reader, on a plan of 1,000 channels.
func (b *bench) noise() ([]noise, error) {
	tests := []struct {
		edit   string
		person int
		make   generate.Edit
	}{
		{"one repeater renamed", 1, (*generate.Club).RenameRepeater},
		{"one talkgroup renamed", 1, (*generate.Club).RenameGroup},
		{"one repeater retuned", 1, (*generate.Club).Retune},
		{"one zone member moved to the end", 1, (*generate.Club).MoveMember},
		{"one channel added, to a zone too", 2, (*generate.Club).Add},
		{"all sections reordered", 0, (*generate.Club).Lay},
		{"reformatted", 0, func(c *generate.Club) string { c.Style.Block = true; return "" }},
		{"respelt", 0, func(c *generate.Club) string { c.Style.Respelt = true; return "" }},
		{"records moved to other files", 0, nil},
	}
	var all []noise
	for _, tt := range tests {
		c := generate.New(generate.Size{Channels: 1_000}, 1)
		before := c.Files()
		if tt.make == nil {
			c = generate.New(generate.Size{Channels: 1_000, Files: 4}, 1)
		} else {
			tt.make(c)
		}
		n, err := b.count(tt.edit, before, c.Files())
		if err != nil {
			return nil, err
		}
		n.edit, n.person = tt.edit, tt.person
		all = append(all, n)
	}
	return all, nil
}

func (b *bench) count(edit string, before, after map[string][]byte) (noise, error) {
	var n noise
	old, err := b.put("noise-old "+edit, before)
	if err != nil {
		return n, err
	}
	new, err := b.put("noise-new "+edit, after)
	if err != nil {
		return n, err
	}
	x, y := expand(before), expand(after)
	n.ours = len(plandiff.Compare(x, y).Changes)
	out, err := exec.Command("git", "diff", "--no-index", "-U0", old, new).Output()
	if exit := (*exec.ExitError)(nil); err != nil && !(errors.As(err, &exit) && exit.ExitCode() == 1) {
		return n, err
	}
	_, body, _ := strings.Cut(string(out), "\n@@")
	n.git = marked(body)
	for library, into := range map[string]*int{"jd": &n.jd, "dyff": &n.dyff, "go-cmp": &n.goCmp} {
		if len(after) != len(before) {
			*into = -1
		} else if _, *into, err = compare(library, filepath.Join(old, "plan.yaml"), filepath.Join(new, "plan.yaml")); err != nil {
			return n, err
		}
	}
	return n, nil
}

func expand(files map[string][]byte) *plan.Expansion {
	fsys := fstest.MapFS{}
	for name, text := range files {
		fsys[name] = &fstest.MapFile{Data: text}
	}
	p, err := plan.Load(context.Background(), fsys)
	if err != nil {
		panic(err) // a generated plan is there
	}
	return plan.Expand(p)
}

// marked counts the lines that a diff marks as gone or new.
func marked(text string) int {
	n := 0
	for line := range strings.Lines(text) {
		if strings.HasPrefix(line, "+") || strings.HasPrefix(line, "-") {
			n++
		}
	}
	return n
}
