package main

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"testing/fstest"

	"gopkg.in/yaml.v3"
	"passband.example/plandiff/generate"
	"passband.example/plandiff/plan"
)

// startUp measures what it takes to begin at all.
func (b *bench) startUp() ([]row, error) {
	r, err := b.versus("start-up (`passband --version`) / bare Go program", 3.0,
		b.process(nil, b.dir, b.passband, "--version"), b.process(nil, b.dir, b.bare))
	if err != nil {
		return nil, err
	}
	info, err := os.Stat(b.passband)
	if err != nil {
		return nil, err
	}
	return []row{r, {what: "stripped program / 1 MB", target: 12, ratio: float64(info.Size()) / 1e6}}, nil
}

// put writes a plan into a folder.
func (b *bench) put(name string, files map[string][]byte) (string, error) {
	dir := filepath.Join(b.dir, name)
	if err := os.MkdirAll(dir, 0o777); err != nil {
		return "", err
	}
	for file, text := range files {
		if err := os.WriteFile(filepath.Join(dir, file), text, 0o666); err != nil {
			return "", err
		}
	}
	return dir, nil
}

// sizes are those that are measured, up to the largest.
func (b *bench) sizes() []int {
	var sizes []int
	for n := 1_000; n <= b.largest; n *= 10 {
		sizes = append(sizes, n)
	}
	return sizes
}

// loads holds loading a plan against yaml.v3's decoding of the same bytes to nodes.
func (b *bench) loads() ([]row, error) {
	var rows []row
	var last side
	for _, n := range b.sizes() {
		text := generate.New(generate.Size{Channels: n}, 1).Files()["plan.yaml"]
		fsys := fstest.MapFS{"plan.yaml": {Data: text}}
		load := inProcess(func() error { _, err := plan.Load(context.Background(), fsys); return err })
		r, err := b.versus(fmt.Sprintf("load %d channels / yaml.v3 `Node` decode of the same bytes", n), 0.10,
			load, inProcess(func() error { var node yaml.Node; return yaml.Unmarshal(text, &node) }))
		if err != nil {
			return nil, err
		}
		rows = append(rows, r)
		if last != nil {
			growth, err := b.versus(fmt.Sprintf("load %d channels / load a tenth of them", n), 12, load, last)
			if err != nil {
				return nil, err
			}
			rows = append(rows, growth)
		}
		last = load
	}
	return rows, nil
}

// holds measures what a loaded plan takes in memory, the text of its files included.
func (b *bench) holds() ([]row, error) {
	text := generate.New(generate.Size{Channels: b.largest}, 1).Files()["plan.yaml"]
	before := living()
	p, err := plan.Load(context.Background(), fstest.MapFS{"plan.yaml": {Data: text}})
	if err != nil {
		return nil, err
	}
	bytes := living() - before + uint64(len(text)) // which was there before
	runtime.KeepAlive(p)
	return []row{{
		what:   fmt.Sprintf("memory of a loaded plan of %d channels / 250 B a channel", b.largest),
		target: 1, ratio: float64(bytes) / 250 / float64(b.largest),
	}}, nil
}

// living gives how many bytes are in use. What readers keep for the next file goes with the
// second collection.
func living() uint64 {
	runtime.GC()
	runtime.GC()
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return m.HeapAlloc
}

// growth holds a plan of many channels against one with a tenth of them: what is
// not linear shows as more than ten times the time.
func (b *bench) growth() ([]row, error) {
	type sides struct{ diff, check, load side }
	var of [2]sides
	for i, n := range []int{b.largest / 5, 2 * b.largest} {
		old, new, err := b.revisions(n, 40)
		if err != nil {
			return nil, err
		}
		of[i] = sides{
			diff:  b.process(nil, b.dir, b.passband, "diff", old, new),
			check: b.process(nil, b.dir, b.passband, "check", old),
			load:  b.process(nil, b.dir, b.self, "load", old),
		}
	}
	var rows []row
	for _, r := range []struct {
		what        string
		many, tenth side
	}{
		{"load", of[1].load, of[0].load}, {"diff", of[1].diff, of[0].diff}, {"check", of[1].check, of[0].check},
	} {
		grown, err := b.versus(fmt.Sprintf("%s of %d channels in 40 files / of a tenth of them, whole process", r.what, 2*b.largest), 12, r.many, r.tenth)
		if err != nil {
			return nil, err
		}
		rows = append(rows, grown)
	}
	return rows, nil
}

func (b *bench) gitDiff(old, new string) side {
	return b.process(nil, b.dir, "git", "diff", "--no-index", old, new)
}

// revisions writes two revisions of a plan, and gives their folders.
func (b *bench) revisions(channels, files int) (old, new string, err error) {
	c := generate.New(generate.Size{Channels: channels, Files: files}, 1)
	name := fmt.Sprintf("%d-%d", channels, files)
	if old, err = b.put(name+"-old", c.Files()); err != nil {
		return
	}
	c.Revise()
	new, err = b.put(name+"-new", c.Files())
	return
}

// diffs holds the diff of two revisions against that of git and of the libraries.
func (b *bench) diffs() ([]row, error) {
	targets := map[int]float64{1_000: 2.5, 10_000: 1.2, 100_000: 0.9}
	var rows []row
	for _, n := range b.sizes() {
		old, new, err := b.revisions(n, 1)
		if err != nil {
			return nil, err
		}
		r, err := b.versus(fmt.Sprintf("diff of two revisions, %d channels / `git diff --no-index`", n), targets[n],
			b.process(nil, b.dir, b.passband, "diff", old, new), b.gitDiff(old, new))
		if err != nil {
			return nil, err
		}
		rows = append(rows, r)
		if n > 10_000 {
			continue // the libraries take minutes
		}
		for _, library := range []string{"jd", "dyff", "go-cmp"} {
			r, err := b.versus(fmt.Sprintf("for comparison: %s, %d channels / `git diff --no-index`", library, n), 0,
				b.process(nil, b.dir, b.self, library, filepath.Join(old, "plan.yaml"), filepath.Join(new, "plan.yaml")), b.gitDiff(old, new))
			if err != nil {
				return nil, err
			}
			rows = append(rows, r)
		}
	}
	old, new, err := b.revisions(b.largest, 40)
	if err != nil {
		return nil, err
	}
	r, err := b.versus(fmt.Sprintf("diff of two revisions, %d channels in 40 files / `git diff --no-index`", b.largest), 1.2,
		b.process(nil, b.dir, b.passband, "diff", old, new), b.gitDiff(old, new))
	return append(rows, r), err
}

// layouts holds the diff of one plan in two layouts, and of one with all keys renamed,
// against that of git.
func (b *bench) layouts() ([]row, error) {
	n := b.largest
	tests := []struct {
		name   string
		target float64
		edit   func(*generate.Club)
	}{
		{"reordered", 0.6, func(c *generate.Club) { c.Style.Reversed = true }},
		{"reformatted", 0.6, func(c *generate.Club) { c.Style.Block = true }},
		{"respelt", 0.6, func(c *generate.Club) { c.Style.Respelt = true }},
		{"all keys of channels renamed", 2.0, func(c *generate.Club) { c.RenameAll() }},
	}
	var rows []row
	for _, tt := range tests {
		c := generate.New(generate.Size{Channels: n}, 1)
		old, err := b.put("layout-old", c.Files())
		if err != nil {
			return nil, err
		}
		tt.edit(c)
		new, err := b.put("layout-new", c.Files())
		if err != nil {
			return nil, err
		}
		r, err := b.versus(fmt.Sprintf("diff, %d channels %s / its `git diff --no-index`", n, tt.name), tt.target,
			b.process(nil, b.dir, b.passband, "diff", old, new), b.gitDiff(old, new))
		if err != nil {
			return nil, err
		}
		rows = append(rows, r)
	}
	return rows, nil
}

// checks holds the check of a plan against loading it alone, and against git's diff.
func (b *bench) checks() ([]row, error) {
	old, new, err := b.revisions(b.largest, 1)
	if err != nil {
		return nil, err
	}
	check := b.process(nil, b.dir, b.passband, "check", old)
	load, err := b.versus(fmt.Sprintf("check of %d channels, all rules / loading it alone, whole process", b.largest), 1.8,
		check, b.process(nil, b.dir, b.self, "load", old))
	if err != nil {
		return nil, err
	}
	diff, err := b.versus(fmt.Sprintf("check of %d channels, all rules / `git diff --no-index` of the same size", b.largest), 1.2, check, b.gitDiff(old, new))
	return []row{load, diff}, err
}

// merges holds a merge of three revisions against git's of lines.
func (b *bench) merges() ([]row, error) {
	dirs := make([]string, 3)
	for i, edit := range []generate.Edit{nil, (*generate.Club).Change, (*generate.Club).Retune} { // base, ours, theirs: no conflict
		c := generate.New(generate.Size{Channels: b.largest}, 1)
		for range 10 {
			if edit != nil {
				edit(c)
			}
		}
		var err error
		if dirs[i], err = b.put(fmt.Sprintf("merge-%d", i), c.Files()); err != nil {
			return nil, err
		}
	}
	file := func(i int) string { return filepath.Join(dirs[i], "plan.yaml") }
	r, err := b.versus(fmt.Sprintf("merge of three revisions, %d channels / `git merge-file`", b.largest), 1.5,
		b.process(nil, b.dir, b.passband, "merge", dirs[0], dirs[1], dirs[2]),
		b.process(nil, b.dir, "git", "merge-file", "-p", file(1), file(0), file(2)))
	return []row{r}, err
}
