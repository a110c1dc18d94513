package merge

import (
	"fmt"
	"slices"
	"strings"

	"passband.example/plandiff/rewrite/layout"
)

// A texter merges texts as trees. Where both sides changed a value, it takes the
// preferred side: whether that is a conflict, the plans tell. It counts the comments
// that both wrote anew, about which they tell nothing.
type texter struct {
	prefer   side
	begin    [3]map[string][]int32 // where records begin in base, ours and theirs, by file
	comments int
}

// starts gives the lines on which the records of a file begin in the three versions.
func (x *texter) starts(name string) (lines [3][]int32) {
	for i, begin := range x.begin {
		lines[i] = begin[name]
	}
	return lines
}

// pick merges a piece of text that means nothing to a program.
func (x *texter) pick(base, ours, theirs string) string {
	switch {
	case ours == theirs || theirs == base:
		return ours
	case ours == base:
		return theirs
	case sameWords(ours, theirs) || sameWords(theirs, base):
		return ours // blanks alone differ
	case sameWords(ours, base):
		return theirs
	}
	if strings.Contains(ours+theirs, "#") {
		x.comments++
	}
	if x.prefer == theirSide {
		return theirs
	}
	return ours
}

// sameWords reports whether two texts differ in blanks alone.
func sameWords(a, b string) bool { return slices.Equal(strings.Fields(a), strings.Fields(b)) }

// lines merges comments and blank lines. Two people who wrote one comment anew,
// each in another way, leave a choice.
func (x *texter) lines(base, ours, theirs string) string {
	if ours == theirs || theirs == base || ours == base {
		return x.pick(base, ours, theirs)
	}
	b, o, t := strings.SplitAfter(base, "\n"), strings.SplitAfter(ours, "\n"), strings.SplitAfter(theirs, "\n")
	bothCame := came(b, o) && came(b, t)
	merged, clash := lists(b, o, t, x.prefer)
	if clash || bothCame && rewritten(b, o, t) {
		return x.pick(base, ours, theirs)
	}
	return strings.Join(merged, "")
}

// came reports whether a comment is new.
func came(base, now []string) bool {
	was := places(base)
	return slices.ContainsFunc(now, func(line string) bool { return strings.TrimSpace(line) != "" && !has(was, line) })
}

// rewritten reports whether both sides took the same comment away.
func rewritten(base, ours, theirs []string) bool {
	o, t := places(ours), places(theirs)
	return slices.ContainsFunc(base, func(line string) bool {
		return strings.TrimSpace(line) != "" && !has(o, line) && !has(t, line)
	})
}

// yaml merges three texts, which end in a line end and have no byte order mark.
func (x *texter) yaml(texts [3]string, starts [3][]int32) (string, error) {
	var docs [3]*layout.Doc
	var heads, tails [3]string
	for i, text := range texts {
		d, err := layout.ParseRecords(text, starts[i])
		if err != nil {
			return "", err
		}
		docs[i], heads[i], tails[i] = d, d.CutHead(), d.Tail
	}
	d := docs[1]
	switch {
	case docs[1].Root == nil:
		d.Root = docs[2].Root
	case docs[2].Root != nil:
		d.Root = x.node(docs[0].Root, docs[1].Root, docs[2].Root)
	}
	d.Tail = x.lines(tails[0], tails[1], tails[2])
	d.PutHead(x.lines(heads[0], heads[1], heads[2]))
	return d.String(), nil
}

// node merges a value; the base may not have it.
func (x *texter) node(b, o, t *layout.Node) *layout.Node {
	switch {
	case o.Same(t) || t.Same(b):
		return o
	case o.Same(b):
		return t
	case o.SameStyle(t) && (b == nil || b.SameStyle(o) || b.IsEmpty()) && (o.Kind == layout.Mapping || o.Kind == layout.Sequence):
		x.entries(b, o, t)
		return o
	case o.Kind == layout.Scalar && t.Kind == layout.Scalar && b != nil && b.Kind == layout.Scalar && o.Value == b.Value:
		return t // ours is another way of writing it
	case o.Kind == layout.Scalar && t.Kind == layout.Scalar && (o.Value == t.Value || b != nil && b.Kind == layout.Scalar && t.Value == b.Value):
		return o
	}
	if x.prefer == theirSide {
		return t
	}
	return o
}

// entries merges what two containers hold, in that of ours.
func (x *texter) entries(b, o, t *layout.Node) {
	entries := make([]*layout.Entry, 0, len(o.Entries))
	if sameKeys(b, o) && sameKeys(b, t) {
		for i := range o.Entries {
			entries = append(entries, x.entry(b.Entries[i], o.Entries[i], t.Entries[i]))
		}
	} else {
		inB, orderB := named(b)
		inO, orderO := named(o)
		inT, orderT := named(t)
		order, _ := lists(orderB, orderO, orderT, x.prefer)
		order = withEdited(order, orderO, orderT, inB, inO, inT)
		for _, name := range order {
			if e := x.entry(inB[name], inO[name], inT[name]); e != nil {
				entries = append(entries, e)
			}
		}
	}
	end := ""
	if b != nil {
		end = b.Close()
	}
	if !o.Flow {
		o.SetClose(x.lines(end, o.Close(), t.Close()))
	}
	o.Assemble(entries)
}

// sameKeys reports whether two mappings have the same keys in the same order.
func sameKeys(a, b *layout.Node) bool {
	return a != nil && a.Kind == layout.Mapping && b.Kind == layout.Mapping &&
		slices.EqualFunc(a.Entries, b.Entries, func(x, y *layout.Entry) bool { return x.Name() == y.Name() })
}

// withEdited puts in the entries that one side removed and the other edited, which
// a merge of names alone leaves out.
func withEdited(order, ours, theirs []string, inB, inO, inT map[string]*layout.Entry) []string {
	stands := places(order)
	behind := make(map[string][]string) // "" is the beginning
	for i, names := range [][]string{ours, theirs} {
		mine, other := inO, inT
		if i == 1 {
			mine, other = inT, inO
		}
		last := ""
		for _, name := range names {
			switch {
			case has(stands, name):
				last = name
			case inB[name] != nil && other[name] == nil && !sameValue(mine[name], inB[name]):
				behind[last] = append(behind[last], name)
			}
		}
	}
	if len(behind) == 0 {
		return order
	}
	all := slices.Clone(behind[""])
	for _, name := range order {
		all = append(append(all, name), behind[name]...)
	}
	return all
}

// sameValue reports whether the values of two entries are written in the same bytes.
func sameValue(a, b *layout.Entry) bool {
	return a.SameBehind(b) || a.Open().Value.Same(b.Open().Value)
}

// entry merges one entry, or gives nil where it goes.
func (x *texter) entry(b, o, t *layout.Entry) *layout.Entry {
	switch {
	case o == nil && t == nil:
		return nil
	case t == nil && b == nil:
		return o
	case o == nil && b == nil:
		return t
	case t == nil || o == nil:
		return x.lost(b, o, t)
	}
	if b == nil {
		b = &layout.Entry{Sep: o.Open().Sep}
	}
	o.Lead = x.lines(b.Lead, o.Lead, t.Lead)
	if o.Key != nil && b.Key != nil && o.Key.Text == b.Key.Text {
		o.Key = t.Key
	}
	if isClosed(b, o, t) {
		switch {
		case o.SameBehind(t) || t.SameBehind(b):
			return o
		case o.SameBehind(b):
			o.TakeBehind(t)
			return o
		}
	}
	for _, e := range []*layout.Entry{b, o, t} {
		e.Open()
	}
	if isTorn(b, o, t) {
		if x.prefer == theirSide { // the comment is about the value
			o.Value, o.Sep, o.Trail = t.Value, t.Sep, t.Trail
		}
		return o
	}
	o.Value = x.node(b.Value, o.Value, t.Value)
	o.Sep = x.separator(b, o, t)
	o.Trail = x.pick(b.Trail, o.Trail, t.Trail)
	return o
}

// isClosed reports whether nobody has looked into any of the three.
func isClosed(b, o, t *layout.Entry) bool { return b.IsClosed() && o.IsClosed() && t.IsClosed() }

// isTorn reports whether both sides gave a scalar another text, and not the same.
func isTorn(b, o, t *layout.Entry) bool {
	return b.Value != nil && isScalars(b, o, t) &&
		o.Value.Value != t.Value.Value && o.Value.Value != b.Value.Value && t.Value.Value != b.Value.Value
}

func isScalars(entries ...*layout.Entry) bool {
	return !slices.ContainsFunc(entries, func(e *layout.Entry) bool { return e.Value.Kind != layout.Scalar })
}

// separator goes with the value that was taken.
func (x *texter) separator(b, o, t *layout.Entry) string {
	if o.Value == t.Value {
		return t.Sep
	}
	return x.pick(b.Sep, o.Sep, t.Sep)
}

// lost merges an entry that one side removed.
func (x *texter) lost(b, o, t *layout.Entry) *layout.Entry {
	kept, keep := o, ourSide
	if o == nil {
		kept, keep = t, theirSide
	}
	if sameValue(kept, b) {
		return nil
	}
	if x.prefer != keep {
		return nil
	}
	return kept
}

// named gives the entries of a container by what tells them apart: the key, or for
// an item what it says, counted where it says the same as another.
func named(n *layout.Node) (map[string]*layout.Entry, []string) {
	if n == nil {
		return nil, nil
	}
	by, seen := make(map[string]*layout.Entry, len(n.Entries)), make(map[string]int)
	order := make([]string, 0, len(n.Entries))
	for _, e := range n.Entries {
		name := e.Name()
		if e.Key == nil {
			name = identity(e.Value)
		}
		if by[name] != nil {
			seen[name]++
			name += fmt.Sprintf("\x00%d", 1+seen[name])
		}
		by[name] = e
		order = append(order, name)
	}
	return by, order
}

// identity tells an item of a list: a word, or the rule and the place of an
// acceptance.
func identity(n *layout.Node) string {
	if n.Kind != layout.Mapping {
		return n.Value
	}
	id := ""
	for _, key := range []string{"rule", "at"} {
		if e := n.Find(key); e != nil {
			id += e.Value.Value + "\x01"
		}
	}
	return id
}
