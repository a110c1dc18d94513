package rewrite

import (
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

// styleOf looks at the records that stand in a section; the last says most.
func styleOf(s *plan.Section, in *layout.Node) style {
	st := style{block: map[string]bool{}, split: true, step: "  "}
	long := s.Kind == plan.KindRepeater || s.Kind == plan.KindRadio
	st.block[""], st.block["dmr"] = long, s.Kind == plan.KindRepeater
	if in == nil || isValue(s) {
		return st
	}
	for _, e := range in.Entries {
		st.look("", e.Value)
	}
	for i := len(in.Entries) - 1; i >= 0; i-- {
		v := in.Entries[i].Value
		if v.Find("split") != nil || v.Find("input") != nil {
			st.split = v.Find("split") != nil
			break
		}
	}
	return st
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
