package plan

import (
	"fmt"
	"path"
	"slices"
	"strings"

	"passband.example/plandiff/signal"
)

// neighborColumns is the first line of a neighbor list that has all columns. A list may have
// them in any order and leave out all but output; it may have split in the place of input.
const neighborColumns = "callsign,label,output,input,tone,color_code,grid,lat,lon,height_m,erp_w,source,date"

func neighborFields() []Field {
	return []Field{
		scalar("callsign", Label, callsigns, func(n *Neighbor) *Value[signal.Callsign] { return &n.Callsign }, "the callsign it identifies with"),
		scalar("label", Label, cellTexts, func(n *Neighbor) *Value[string] { return &n.Label }, "what people call it, or the place where it stands"),
		scalar("output", Label, frequencies, func(n *Neighbor) *Value[signal.Hertz] { return &n.Output }, "what it sends on, in MHz"),
		scalar("input", Label, frequencies, func(n *Neighbor) *Value[signal.Hertz] { return &n.Input }, "what it hears, in MHz; or say split"),
		scalar("tone", Label, tones, func(n *Neighbor) *Value[signal.Tone] { return &n.Tone }, "the tone or DCS code that opens its FM input"),
		scalar("color_code", Label, colorCodes, func(n *Neighbor) *Value[signal.ColorCode] { return &n.ColorCode }, "0 to 15, where it is a DMR repeater"),
		scalar("grid", Label, grids, func(n *Neighbor) *Value[signal.Grid] { return &n.Grid }, "its Maidenhead locator"),
		scalar("lat", Label, latitudes, func(n *Neighbor) *Value[signal.MicroDegrees] { return &n.Lat }, "degrees north, WGS 84"),
		scalar("lon", Label, longitudes, func(n *Neighbor) *Value[signal.MicroDegrees] { return &n.Lon }, "degrees east, WGS 84"),
		scalar("height_m", Label, heights, func(n *Neighbor) *Value[signal.Meters] { return &n.Height }, "the antenna above ground, in m"),
		scalar("erp_w", Label, watts, func(n *Neighbor) *Value[signal.Power] { return &n.ERP }, "effective radiated power, in W"),
		scalar("source", Label, cellTexts, func(n *Neighbor) *Value[string] { return &n.Source }, "who says so"),
		scalar("date", Label, dates, func(n *Neighbor) *Value[Date] { return &n.Date }, "as of when"),
	}
}

// respells reports whether a column says in another way what a field does: split, for input.
func (t *table) respells(column string) bool { return t.s.Kind == KindNeighbor && column == "split" }

// respell reads the cell of such a column.
func (t *table) respell(r Record, text string, column int) {
	n, ok := r.(*Neighbor)
	if !ok || text == "" {
		return
	}
	split := loadCell(t.l, "split", splits, text, t.place(column))
	if split.Bad {
		return
	}
	output := n.Output
	input := output.V + signal.Hertz(split.V)
	switch {
	case !output.IsSet(): // which is told already
	case !input.IsFrequency():
		t.l.problem(BadValue, split.At, fmt.Sprintf("split: %s from %s MHz leads to no frequency", split.V, output.V), "", "look at the output and at the sign and size of the split")
	case n.Input.IsSet() && n.Input.V != input:
		t.l.problem(BadValue, split.At, fmt.Sprintf("split: %s from %s MHz is %s MHz, and the input says %s MHz", split.V, output.V, input, n.Input.V), "", "leave one of the two empty")
	default:
		n.Input = Value[signal.Hertz]{V: input, Text: input.String(), At: split.At}
	}
}

// neighborSection describes the rows of a neighbor list. Their keys are all that they say, so that
// the order of rows means nothing; Add numbers rows that say the same.
func neighborSection() *Section {
	s := section(KindNeighbor, "", "repeaters that others answer for, in a neighbors.csv", neighborFields(),
		func() *Neighbor { return new(Neighbor) }, func(p *Plan) *Table[*Neighbor] { return &p.Neighbors })
	columns := strings.Split(neighborColumns, ",")
	key := func(r Record) string { return strings.TrimRight(strings.Join(s.Row(r, columns), "/"), "/") }
	return tabled(NeighborsFile, neighborColumns, keyed(key, s))
}

// parseList reads the path of a neighbor list below the root of the plan.
func parseList(text string) (string, error) {
	hidden := func(part string) bool { return strings.HasPrefix(part, ".") }
	switch {
	case strings.ContainsAny(text, "\\:") || path.IsAbs(text) || path.Clean(text) != text || slices.ContainsFunc(strings.Split(text, "/"), hidden):
		return "", fmt.Errorf("%q does not lead to a file inside the plan; write its path from the folder of plan.yaml, as in %s or lists/%s", clip(text), NeighborsFile, NeighborsFile)
	case path.Base(text) != NeighborsFile:
		return "", fmt.Errorf("%q is not called %s; give the list that name, so that it is read and merged row by row", clip(text), NeighborsFile)
	}
	return visible(text, 200, false)
}

// NeighborList gives the rows of the neighbor list that the plan names. Under a base it holds
// those of the base too, which a change may not silence by taking them out.
func (p *Plan) NeighborList() []*Neighbor {
	named := p.named()
	if p.neighborBase == nil {
		return named
	}
	known := make(map[string]bool, len(named))
	for _, n := range named {
		known[n.Key.V] = true
	}
	for _, n := range p.neighborBase.named() {
		if !known[n.Key.V] {
			named = append(named, n)
		}
	}
	return named
}

// Lists reports whether a row stands in the plan itself, and not only in the base that it is
// judged under.
func (p *Plan) Lists(n *Neighbor) bool {
	own, ok := p.Neighbors.Find(n.Key.V)
	return ok && own == n
}

// named gives the rows of the file that the plan names, in the order of their keys. A row that
// came from a change and not from a file counts.
func (p *Plan) named() []*Neighbor {
	if !p.Header.List.IsSet() {
		return nil
	}
	return slices.DeleteFunc(p.Neighbors.Sorted(), func(n *Neighbor) bool {
		file := n.Key.At.File
		return file != p.Header.List.V && file != applied.File
	})
}
