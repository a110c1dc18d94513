package rewrite

import (
	"maps"
	"slices"
	"strings"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/rewrite/layout"
)

// A style tells which parts of a record stand on lines of their own: what the
// records around it do, and where there are none, what reads best.
type style struct {
	block map[string]bool // by the path of keys; "" is the record itself
	split bool            // a repeater says split rather than input
	step  string          // what a block is indented by
}

// styleOf looks at the records that stand in a section; the last says most. It looks
// into as few as it must.
func (t *tree) styleOf(s *plan.Section, in *layout.Node) style {
	st := style{block: map[string]bool{}, split: true, step: "  "}
	long := s.Kind == plan.KindRepeater || s.Kind == plan.KindRadio
	st.block[""], st.block["dmr"] = long, s.Kind == plan.KindRepeater
	if in == nil || isValue(s) {
		return st
	}
	unknown := collections(s)
	for path := range t.absent[in] {
		delete(unknown, path)
	}
	for _, e := range slices.Backward(in.Entries) {
		if len(unknown) == 0 {
			break
		}
		if !mayHold(e, unknown) {
			continue
		}
		for path, block := range blocksOf(e) {
			if unknown[path] {
				st.block[path] = block
				delete(unknown, path)
			}
		}
	}
	t.absent.note(in, unknown)
	st.split = s.Kind != plan.KindRepeater || splits(in)
	return st
}

// collections gives the paths of a record at which a mapping or a list may stand.
func collections(s *plan.Section) map[string]bool {
	paths := map[string]bool{"": true}
	for i := range s.Fields {
		path, form := s.Fields[i].Name, s.Fields[i].Form
		if form != plan.Scalar {
			paths[path] = true
		}
		for block, _, nested := cutLast(path); nested; block, _, nested = cutLast(block) {
			paths[block] = true
		}
	}
	return paths
}

// mayHold reports whether an entry may have something at one of these paths.
func mayHold(e *layout.Entry, paths map[string]bool) bool {
	for path := range paths {
		if _, key, _ := cutLast("." + path); e.MayHold(key) {
			return true
		}
	}
	return false
}

// splits reports whether the last repeater that says an input says it as a split. Where
// none does, that is how it is said.
func splits(in *layout.Node) bool {
	for _, e := range slices.Backward(in.Entries) {
		if !e.MayHold("split") && !e.MayHold("input") {
			continue
		}
		if v := e.Open().Value; v.Find("split") != nil || v.Find("input") != nil {
			return v.Find("split") != nil
		}
	}
	return true
}

// absent holds the paths at which no record of a section has anything.
type absent map[*layout.Node]map[string]bool

func (a absent) note(in *layout.Node, paths map[string]bool) {
	if a[in] == nil {
		a[in] = map[string]bool{}
	}
	maps.Copy(a[in], paths)
}

// see takes notice of an entry that is another one now.
func (a absent) see(in *layout.Node, e *layout.Entry) {
	if len(a[in]) == 0 {
		return
	}
	for path := range blocksOf(e) {
		delete(a[in], path)
	}
}

// blocksOf tells of the mappings and lists of an entry, by their paths, which stand on
// lines of their own.
func blocksOf(e *layout.Entry) map[string]bool {
	st := style{block: map[string]bool{}}
	st.look("", e.Open().Value)
	return st.block
}

// look takes the style of a value.
func (st *style) look(path string, n *layout.Node) {
	if n.Kind != layout.Mapping && n.Kind != layout.Sequence || n.Flow && len(n.Entries) == 0 {
		return
	}
	st.block[path] = !n.Flow
	if n.Kind == layout.Sequence {
		return
	}
	for _, e := range n.Entries {
		st.look(strings.TrimPrefix(path+"."+e.Name(), "."), e.Value)
	}
}
