package rewrite

import (
	"errors"
	"fmt"
	"slices"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/rewrite/layout"
)

// A spot is where a key or a value hangs in the tree of a file.
type spot struct {
	in     *layout.Node  // the container
	entry  *layout.Entry // in it
	key    bool          // the key, not the value
	locked *layout.Node  // the node with an anchor that it stands in, or nil
}

// A tree is a file with the spots of its keys, values and items by place. Those in records
// that are still closed are not known yet.
type tree struct {
	name   string
	doc    *layout.Doc
	keys   map[at]spot
	values map[at]spot
	items  map[at]spot
	closed []spot // records by line
	absent absent
}

type at struct{ line, col int32 }

func atOf(n *layout.Node) at { return at{int32(n.Line), int32(n.Col)} }

// open parses all files of the plan: all values in them, or sections and records alone.
func (e *editor) open(all bool) error {
	var starts map[string][]int32
	if !all {
		starts = Starts(e.old)
	}
	for _, name := range e.old.Files {
		text, ok := e.files[name]
		if !ok {
			return fmt.Errorf("the text of %s is missing", name)
		}
		if s := plan.TableOf(name); s != nil {
			e.tables[name] = newTable(s, text)
			continue
		}
		t, err := newTree(name, text, starts[name])
		if err != nil {
			return err
		}
		e.trees[name] = t
	}
	return nil
}

// Starts gives the lines on which records of a plan begin behind two blanks, sorted, by
// file: see layout.ParseRecords.
func Starts(p *plan.Plan) map[string][]int32 {
	starts := make(map[string][]int32)
	for _, s := range plan.Sections() {
		for _, r := range s.All(p) {
			if at := r.Place(); at.Col == 3 {
				starts[at.File] = append(starts[at.File], at.Line)
			}
		}
	}
	for _, lines := range starts {
		slices.Sort(lines)
	}
	return starts
}

func newTree(name string, text []byte, starts []int32) (*tree, error) {
	doc, err := layout.ParseRecords(string(text), starts)
	if err != nil {
		return nil, unshaped(name, err)
	}
	t := &tree{name: name, doc: doc, keys: map[at]spot{}, values: map[at]spot{}, items: map[at]spot{}, absent: absent{}}
	t.index(doc.Root, nil)
	return t, nil
}

// unshaped names the place of a form that cannot be edited.
func unshaped(name string, err error) error {
	if shape := (*layout.ShapeError)(nil); errors.As(err, &shape) {
		return &Unsafe{plan.Place{File: name, Line: int32(shape.Line), Col: 1}, shape.What, "write it in a plainer form, and try again"}
	}
	return fmt.Errorf("%s: %w", name, err)
}

// index notes the spots in n and below.
func (t *tree) index(n, locked *layout.Node) {
	if n == nil {
		return
	}
	if n.Locked {
		locked = n
	}
	for _, e := range n.Entries {
		if e.IsClosed() {
			t.closed = append(t.closed, spot{in: n, entry: e})
			continue
		}
		t.entry(n, e, locked)
	}
}

// entry notes the spots of an entry and below.
func (t *tree) entry(n *layout.Node, e *layout.Entry, locked *layout.Node) {
	s := spot{in: n, entry: e, locked: locked}
	if e.Value.Locked {
		s.locked = e.Value
	}
	if e.Key == nil {
		t.items[atOf(e.Value)] = s
	} else {
		k := s
		k.key, k.locked = true, locked
		if e.Key.Locked {
			k.locked = e.Key
		}
		t.keys[atOf(e.Key)] = k
	}
	if e.Value.Kind == layout.Scalar {
		t.values[atOf(e.Value)] = s
	}
	t.index(e.Value, locked)
}

// within gives the closed record that a line belongs to.
func (t *tree) within(line int32) (spot, bool) {
	i, found := slices.BinarySearchFunc(t.closed, int(line), func(s spot, line int) int { return s.entry.Key.Line - line })
	if !found {
		i--
	}
	if i < 0 || !t.closed[i].entry.IsClosed() {
		return spot{}, false
	}
	return t.closed[i], true
}

// at gives the spot in one of the indexes that pick chooses.
func (e *editor) at(p plan.Place, pick func(*tree) map[at]spot) (spot, error) {
	t := e.trees[p.File]
	if t == nil {
		return spot{}, &Unsafe{p, "this place is not found in the text", "make the change by hand"}
	}
	if s, ok := t.within(p.Line); ok {
		t.entry(s.in, s.entry.Open(), nil)
	}
	s, ok := pick(t)[at{p.Line, p.Col}]
	switch {
	case !ok:
		return spot{}, &Unsafe{p, "this place is not found in the text", "make the change by hand"}
	case s.locked != nil:
		return spot{}, lockedAt(p)
	}
	return s, nil
}

func lockedAt(p plan.Place) error {
	return &Unsafe{p, "this value has an anchor (&), or repeats one that has (*), and changing it could change another place too", "write the value out in both places, and try again"}
}

func keys(t *tree) map[at]spot   { return t.keys }
func values(t *tree) map[at]spot { return t.values }
func items(t *tree) map[at]spot  { return t.items }

// record gives where a record of the old plan stands. The header, which has no
// entry of its own, stands in the root.
func (e *editor) record(r plan.Record) (spot, error) {
	s := plan.SectionOf(r.Thing().Kind)
	if s.Kind == plan.KindPlan {
		return e.header()
	}
	if s.Kind == plan.KindAcceptance {
		return e.at(r.Place(), items)
	}
	return e.at(r.Place(), keys)
}

// key gives where the key of a record stands, and leaves the record closed if it is.
func (e *editor) key(r plan.Record) (spot, error) {
	if t := e.trees[r.Place().File]; t != nil {
		if s, ok := t.within(r.Place().Line); ok && atOf(s.entry.Key) == (at{r.Place().Line, r.Place().Col}) {
			return s, nil
		}
	}
	return e.record(r)
}

// header gives a spot whose entry holds the root of plan.yaml.
func (e *editor) header() (spot, error) {
	t := e.trees[plan.RootFile]
	if t == nil {
		return spot{}, fmt.Errorf("the text of %s is missing", plan.RootFile)
	}
	root := t.root()
	if root.Locked {
		return spot{}, lockedAt(plan.Place{File: t.name, Line: int32(root.Line), Col: int32(root.Col)})
	}
	return spot{entry: &layout.Entry{Value: root}}, nil
}

// root gives the mapping that holds the sections of a file, which is made where
// the file says nothing yet.
func (t *tree) root() *layout.Node {
	if t.doc.Root == nil {
		t.doc.Root = layout.NewBlock(layout.Mapping, "", t.doc.LineEnd())
	}
	return t.doc.Root
}
