package post

import (
	"bytes"
	"context"
	"maps"
	"path"
	"strings"
	"time"

	"github.com/go-git/go-git/v5/utils/diff"
	"github.com/sergi/go-diff/diffmatchpatch"
	"passband.example/plandiff/history"
	"passband.example/plandiff/plan"
)

// contextLines is how many lines around a change a diff shows, git's own number and
// that of forges.
const contextLines = 3

// A Diff holds the lines that the diff of a pull request shows, by the path of the
// new file from the top of the repository.
type Diff map[string][]Hunk

// Has reports whether a line of one side is shown.
func (d Diff) Has(file string, side Side, line int32) bool {
	for _, h := range d[file] {
		if h.has(side, line) {
			return true
		}
	}
	return false
}

// Whole reports whether lines of the new file are shown in one hunk, with none
// between them that is gone.
func (d Diff) Whole(file string, from, to int32) bool {
	for _, h := range d[file] {
		if h.whole(from, to) {
			return true
		}
	}
	return false
}

// Hunks works out which lines a diff of two texts shows. Where there is more than
// one shortest diff, git may show another.
func Hunks(old, new []byte) []Hunk {
	const patience = 5 * time.Second // then the rest counts as changed
	var lines []DiffLine
	var at DiffLine
	for _, d := range diff.DoWithTimeout(string(old), string(new), patience) {
		for range countLines(d.Text) {
			switch d.Type {
			case diffmatchpatch.DiffDelete:
				at.Old++
				lines = append(lines, DiffLine{Old: at.Old})
			case diffmatchpatch.DiffInsert:
				at.New++
				lines = append(lines, DiffLine{New: at.New})
			default:
				at.Old++
				at.New++
				lines = append(lines, at)
			}
		}
	}
	return cutHunks(lines)
}

func countLines(s string) int {
	n := strings.Count(s, "\n")
	if s != "" && !strings.HasSuffix(s, "\n") {
		n++
	}
	return n
}

// cutHunks keeps the changed lines and those around them.
func cutHunks(lines []DiffLine) []Hunk {
	var hunks []Hunk
	begin, last := -1, -1 // of the hunk at hand; last is its last changed line
	for i, l := range lines {
		if l.Old > 0 && l.New > 0 {
			continue
		}
		if begin >= 0 && i-last-1 > 2*contextLines {
			hunks = append(hunks, Hunk(lines[begin:last+contextLines+1]))
			begin = -1
		}
		if begin < 0 {
			begin = max(0, i-contextLines)
		}
		last = i
	}
	if begin >= 0 {
		hunks = append(hunks, Hunk(lines[begin:min(len(lines), last+contextLines+1)]))
	}
	return hunks
}

// What a forge shows of one file at most (docs.github.com, repository limits).
const (
	mostDiffBytes = 500_000
	mostDiffLines = 20_000
)

// ReadDiff works out the diff of a folder between two commits, from the objects
// alone. A file that a forge would not show has no lines in it.
func ReadDiff(ctx context.Context, r *history.Repository, from, to history.Commit, folder string) (Diff, error) {
	changes, err := r.Changes(ctx, from, to, folder)
	if err != nil {
		return nil, err
	}
	out := Diff{}
	for _, c := range changes {
		if !ofPlan(c.Path) || !c.New.IsFile() || c.Old.Exists() && !c.Old.IsFile() {
			continue
		}
		old, err := blob(ctx, r, c.Old)
		if err != nil {
			return nil, err
		}
		new, err := blob(ctx, r, c.New)
		if err != nil {
			return nil, err
		}
		if shown(old) && shown(new) {
			out[path.Join(folder, c.Path)] = Hunks(old, new)
		}
	}
	return out, nil
}

// Shown gives the diff as the forge shows it, where the forge tells; the other files
// are those of d.
func (d Diff) Shown(ctx context.Context, f Forge) Diff {
	p, ok := f.(Patcher)
	if !ok {
		return d
	}
	patches, err := p.Patches(ctx)
	if err != nil {
		return d // nearly always the same, and a refused line is tried without
	}
	out := maps.Clone(d)
	for name, patch := range patches {
		if hunks, err := ParsePatch(patch); err == nil && d[name] != nil {
			out[name] = hunks
		}
	}
	return out
}

// ofPlan reports whether a file can be part of a plan.
func ofPlan(name string) bool {
	switch path.Ext(name) {
	case ".yaml", ".yml", ".csv":
		return true
	}
	return path.Base(name) == plan.RootFile
}

func shown(text []byte) bool {
	return len(text) <= mostDiffBytes && bytes.Count(text, []byte("\n")) <= mostDiffLines && !bytes.Contains(text, []byte{0})
}

// blob reads a version that may not be there; one that is too large to be shown is
// not read.
func blob(ctx context.Context, r *history.Repository, v history.Version) ([]byte, error) {
	if !v.Exists() {
		return nil, nil
	}
	size, err := r.BlobSize(ctx, v.Hash)
	if err != nil {
		return nil, err
	}
	if size > mostDiffBytes {
		return bytes.Repeat([]byte{0}, mostDiffBytes+1), nil
	}
	return r.Blob(ctx, v.Hash)
}
