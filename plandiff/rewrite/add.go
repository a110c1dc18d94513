package rewrite

import (
	"slices"
	"strings"

	"passband.example/plandiff"
	"passband.example/plandiff/plan"
	"passband.example/plandiff/rewrite/layout"
)

// add puts in the records that came.
func (e *editor) add() error {
	for _, c := range e.changes {
		if c.Op != plandiff.Added {
			continue
		}
		r, ok := e.want.Find(c.Thing)
		if !ok {
			return missing(plandiff.Change{Was: c.Thing})
		}
		s := plan.SectionOf(c.Thing.Kind)
		if file, _ := s.Table(); file != "" {
			e.table(s, c.At.File).add(r)
			continue
		}
		t := e.home(s, c.At.File)
		in, err := t.section(s)
		if err != nil {
			return err
		}
		t.put(s, in, r)
	}
	return nil
}

// table gives the table of a section that a new row belongs into, which is made where there
// is none.
func (e *editor) table(s *plan.Section, wish string) *table {
	if s.Kind == plan.KindNeighbor && e.want.Header.List.IsSet() {
		wish = e.want.Header.List.V
	}
	if t := e.tables[wish]; t != nil && t.s == s {
		return t
	}
	name, _ := s.Table()
	if plan.TableOf(wish) == s {
		name = wish
	} else {
		for _, other := range names(e.tables) {
			if e.tables[other].s == s {
				return e.tables[other]
			}
		}
	}
	e.tables[name] = newTable(s, nil)
	return e.tables[name]
}

// home gives the file that a new record belongs into: the one where the change has
// it if the section is there too, the one that holds most of the section, the one
// where the change has it, or plan.yaml.
func (e *editor) home(s *plan.Section, wish string) *tree {
	var best *tree
	most := -1
	for _, name := range names(e.trees) {
		t := e.trees[name]
		n := t.find(s)
		switch {
		case n == nil:
			continue
		case name == wish:
			return t
		case len(n.Value.Entries) > most:
			best, most = t, len(n.Value.Entries)
		}
	}
	if best != nil {
		return best
	}
	if t := e.trees[wish]; t != nil {
		return t
	}
	return e.trees[plan.RootFile]
}

// find gives the entry of a section, or nil.
func (t *tree) find(s *plan.Section) *layout.Entry {
	in := t.doc.Root
	if outer := outerOf(s); outer != "" {
		e := in.Find(outer)
		if e == nil {
			return nil
		}
		in = e.Value
	}
	return in.Find(s.Key)
}

// section gives the container of a section's records, which is made where there
// is none.
func (t *tree) section(s *plan.Section) (*layout.Node, error) {
	in := t.root()
	if in.Kind != layout.Mapping {
		return nil, t.locked(in)
	}
	for _, key := range []string{outerOf(s), s.Key} {
		if key == "" {
			continue
		}
		kind := layout.Mapping
		if key == s.Key && isListed(s) {
			kind = layout.Sequence
		}
		e := in.Find(key)
		if e == nil {
			e = t.newSection(in, key, kind)
		}
		if e.Value.Locked {
			return nil, t.locked(e.Value)
		}
		t.opened(in, e, kind)
		in = e.Value
	}
	return in, nil
}

func (t *tree) locked(n *layout.Node) error {
	return lockedAt(plan.Place{File: t.name, Line: int32(n.Line), Col: int32(n.Col)})
}

// newSection puts an empty section behind the others, parted from them as they
// are from one another.
func (t *tree) newSection(in *layout.Node, key string, kind layout.Kind) *layout.Entry {
	e := in.NewEntry(key, &layout.Node{Kind: layout.Scalar})
	e.Sep = ":"
	if in.Flow {
		e.Sep, e.Value = ": ", layout.NewFlow(kind, t.doc.LineEnd())
	}
	if in == t.doc.Root && !in.Flow && len(in.Entries) > 0 {
		e.Lead = t.doc.LineEnd() + e.Lead
	}
	if in == t.doc.Root && len(in.Entries) == 0 {
		e.Lead, t.doc.Tail = t.doc.Tail+e.Lead, "" // the comments of a file that said nothing yet
	}
	in.Insert(len(in.Entries), e)
	return e
}

// opened makes a section that says nothing yet ready for lines of its own.
func (t *tree) opened(in *layout.Node, e *layout.Entry, kind layout.Kind) {
	v := e.Value
	nothing := v.Kind == layout.Scalar || len(v.Entries) == 0 && !in.Flow
	if !nothing || !v.Flow && v.Kind != layout.Scalar {
		return
	}
	if in.Flow {
		e.Value = layout.NewFlow(kind, t.doc.LineEnd())
		return
	}
	e.Value = layout.NewBlock(kind, in.Indent()+t.step(), t.doc.LineEnd())
	e.Sep = strings.TrimRight(e.Sep, " ") + e.Trail
	e.Trail = ""
}

// step gives what a block is indented by in this file.
func (t *tree) step() string {
	for _, e := range t.doc.Root.Entries {
		if v := e.Value; v.Kind == layout.Mapping && !v.Flow && v.Indent() != "" {
			return v.Indent()
		}
	}
	return "  "
}

// put writes a record behind the last of its section, or where its key belongs if
// the section is sorted.
func (t *tree) put(s *plan.Section, in *layout.Node, r plan.Record) {
	st := t.styleOf(s, in)
	st.step = t.step()
	key := r.Thing().Key
	e := in.NewEntry(key, writer{s: s, r: r, style: st}.value(in))
	if isValue(s) && !in.Flow {
		e.OnLines(e.Value.Value, in.Indent()+st.step)
	}
	if !in.Flow && in.Kind == layout.Mapping {
		align(in, e)
		if apart(in) {
			e.Lead = t.doc.LineEnd() + e.Lead
		}
	}
	i := len(in.Entries)
	if in.Kind == layout.Mapping && isSorted(in) {
		i, _ = slices.BinarySearchFunc(in.Entries, key, func(e *layout.Entry, key string) int { return strings.Compare(e.Name(), key) })
	}
	in.Insert(i, e)
	t.absent.see(in, e)
}

func isSorted(in *layout.Node) bool {
	return len(in.Entries) > 1 && slices.IsSortedFunc(in.Entries, func(a, b *layout.Entry) int { return strings.Compare(a.Name(), b.Name()) })
}

// apart reports whether blank lines part the records of a section.
func apart(in *layout.Node) bool {
	for i, e := range in.Entries {
		if i > 0 && !strings.HasPrefix(strings.TrimLeft(e.Lead, "\r"), "\n") {
			return false
		}
	}
	return len(in.Entries) > 1
}

// align puts the value of a new entry into the column of its neighbors' values.
func align(in *layout.Node, e *layout.Entry) {
	if len(in.Entries) < 2 || !strings.HasSuffix(e.Sep, " ") {
		return
	}
	width := func(e *layout.Entry) int { return len(e.Key.Text) + len(e.Open().Sep) }
	last := in.Entries[len(in.Entries)-2:]
	if w := width(last[0]); w == width(last[1]) && len(last[0].Key.Text) != len(last[1].Key.Text) && w > width(e) {
		e.Sep += strings.Repeat(" ", w-width(e))
	}
}
