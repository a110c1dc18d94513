package rewrite

import (
	"context"
	"fmt"
	"maps"
	"slices"

	"passband.example/plandiff"
	"passband.example/plandiff/plan"
	"passband.example/plandiff/plan/memory"
)

// Unsafe says that a change cannot be carried into the text by a program, where,
// and what a person should do.
type Unsafe struct {
	At   plan.Place
	What string
	Fix  string
}

// Error gives "file:line:col: what; what to do".
func (u *Unsafe) Error() string { return fmt.Sprintf("%s: %s; %s", u.At, u.What, u.Fix) }

// Apply carries changes into the files of the plan p, which was loaded from them,
// and gives the files that are different now. The names in files are those that p
// knows. No change gives no file.
//
// The error is an *Unsafe where a person must do it by hand; then, as after every
// error, no file is given.
func Apply(files map[string][]byte, p *plan.Plan, changes []plandiff.Change) (map[string][]byte, error) {
	if len(p.Problems) > 0 {
		return nil, fmt.Errorf("the plan has places that cannot be read, the first at %w", p.Problems[0])
	}
	if len(changes) == 0 {
		return map[string][]byte{}, nil
	}
	want, err := plandiff.Apply(p, changes)
	if err != nil {
		return nil, err
	}
	e := &editor{files: files, old: p, want: want, changes: changes, trees: map[string]*tree{}, tables: map[string]*table{}}
	if err := e.edit(); err != nil {
		return nil, err
	}
	texts := e.texts()
	if err := e.verify(texts); err != nil {
		return nil, err
	}
	return texts, nil
}

// An editor carries changes into the trees of the files.
type editor struct {
	files   map[string][]byte
	old     *plan.Plan
	want    *plan.Plan
	changes []plandiff.Change
	renames plan.Renames
	trees   map[string]*tree
	tables  map[string]*table
}

// edit does all that is to be done, in the order that keeps places valid: values
// first, then what goes, then what comes.
func (e *editor) edit() error {
	if err := e.open(false); err != nil {
		return err
	}
	for _, step := range []func() error{e.rename, e.change, e.remove, e.add} {
		if err := step(); err != nil {
			return err
		}
	}
	return nil
}

// texts gives the files whose text is another one now.
func (e *editor) texts() map[string][]byte {
	texts := make(map[string][]byte)
	keep := func(name string, text []byte) {
		if old, known := e.files[name]; !known || string(old) != string(text) {
			texts[name] = text
		}
	}
	for name, t := range e.trees {
		keep(name, t.doc.Bytes())
	}
	for name, t := range e.tables {
		keep(name, t.bytes())
	}
	return texts
}

// verify reads what was written and compares it with what was wanted.
func (e *editor) verify(texts map[string][]byte) error {
	all := maps.Clone(e.files)
	maps.Copy(all, texts)
	got, err := Load(all)
	if err != nil {
		return err
	}
	if len(got.Problems) > 0 {
		return fmt.Errorf("the changes cannot be written so that they are read back (%w); make them by hand", got.Problems[0])
	}
	if c := plandiff.CompareRecords(e.want, got); !c.Empty() {
		return fmt.Errorf("the changes cannot be written so that they are read back: %s differs; make them by hand", c.Changes[0].Thing)
	}
	return nil
}

// Load reads a plan from its files in memory.
func Load(files map[string][]byte) (*plan.Plan, error) {
	return plan.Load(context.Background(), memory.Texts(files))
}

// names gives the names of files, sorted.
func names[T any](files map[string]T) []string { return slices.Sorted(maps.Keys(files)) }
