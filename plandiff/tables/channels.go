package tables

import (
	"fmt"
	"strings"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/signal"
)

// A channelRow is a row of a table of channels: what it is on the air, the channel of
// the plan that it is about, and where its settings will stand.
type channelRow struct {
	*row
	mode     string
	output   string // MHz; "" where the table does not say
	input    string // "" where it never sends
	sends    bool   // the table says what it sends on
	toneSend string
	toneRecv string
	group    string // its key

	old      *plan.Channel // nil where the table brings it
	repeater plan.Thing    // zero for simplex
	own      plan.Thing    // its record in the section channels; zero where none is needed
	path     string
}

// name gives what the plan will call the channel.
func (r *channelRow) name() string {
	if r.own.Kind != 0 {
		return r.own.Key
	}
	return r.path
}

// column gives the column that shows the first of these values that the file has, or -1.
func (r *row) column(values ...string) int {
	for _, v := range values {
		if i := r.sheet.table.find(v); r.sheet.has(i) {
			return i
		}
	}
	return -1
}

// readChannels reads a sheet of channels: first which channel of the plan each row is
// about, then what is to be changed or made.
func (b *builder) readChannels(s *sheet) {
	var rows []*channelRow
	for _, r := range s.rows {
		if r.bad {
			continue
		}
		c := &channelRow{row: r}
		b.readAir(c)
		if !r.bad {
			rows = append(rows, c)
		}
	}
	b.matchChannels(s, rows)
	for _, r := range rows {
		if r.old != nil && !r.bad {
			b.changeAir(r)
			b.onPath(r)
		}
	}
	b.newChannels(rows)
	b.settle()
	b.settleOwn(rows)
	b.settleLabels(rows)
	b.channel = append(b.channel, rows...)
}

// readAir puts together what a row is on the air, of whole values or their parts.
func (b *builder) readAir(r *channelRow) {
	r.mode = b.modeOf(r)
	b.dropForeign(r)
	r.output = r.says("output")
	b.readInput(r)
	r.toneSend = b.readTone(r, "tone.send")
	r.toneRecv = b.readTone(r, "tone.receive")
}

// modeOf gives the mode of a row: what it says, else that of the channel that it names,
// else the one that it has values of.
func (b *builder) modeOf(r *channelRow) string {
	if mode := r.says("mode"); mode != "" {
		return mode
	}
	for _, value := range []string{"key", "path"} {
		if c, ok := b.old.named(r.says(value)); ok {
			return string(c.Mode)
		}
	}
	for _, value := range []string{"color_code", "slot", "group", "group.id", "group.label"} {
		if r.says(value) != "" {
			return string(plan.ModeDMR)
		}
	}
	return string(plan.ModeFM)
}

// dropForeign leaves out what the mode of a row has no use for: many tables have a tone
// in a DMR row, or a color code in one of FM. It is told how often.
func (b *builder) dropForeign(r *channelRow) {
	for i, c := range r.sheet.table.Columns {
		if c.value == nil || len(r.texts[i]) == 0 || !foreign(r.mode, c.value.name) {
			continue
		}
		if text := r.texts[i][0]; text != "none" && c.blank != text {
			b.stale.add(fmt.Sprintf("a %s channel has no %s, and what column %s (%s) of %s says of it is not used", strings.ToUpper(r.mode), listOf(c.value.name), Letters(r.sheet.cols[i]+1), c.Header, r.sheet.file))
		}
		r.texts[i] = nil
	}
}

func foreign(mode, value string) bool {
	switch listOf(value) {
	case "tone", "width":
		return mode == string(plan.ModeDMR)
	case "color_code", "slot", "group", "receive_list", "listens", "privacy":
		return mode == string(plan.ModeFM)
	}
	return false
}

// readInput finds what a row sends on: of its input, its split, or the split's parts.
func (b *builder) readInput(r *channelRow) {
	if i := r.column("input"); i >= 0 {
		r.input, r.sends = r.says("input"), true
	}
	split, i := b.readSplit(r)
	if i >= 0 && r.output != "" {
		input, err := add(r.output, split)
		switch {
		case err != nil:
			b.problem(r.row, i, err.Error(), "look at the output and at the sign and size of the split")
		case r.sends && input != r.input && split != "":
			b.problem(r.row, i, fmt.Sprintf("the split leads to %s MHz, and the input is %s", input, saying(r.input)), "let one follow from the other, or empty one")
		case !r.sends || split != "":
			r.input, r.sends = input, true
		}
	}
	if r.says("transmit") == "no" {
		r.input, r.sends = "", true
	}
}

// readSplit gives the split of a row, "0" for simplex and "" where it never sends, and
// the column that says so.
func (b *builder) readSplit(r *channelRow) (string, int) {
	if i := r.column("split"); i >= 0 {
		return r.says("split"), i
	}
	i := r.column("split.direction")
	if i < 0 {
		return "", -1
	}
	size := strings.TrimLeft(r.says("split.size"), "+-")
	switch r.says("split.direction") {
	case "none":
		return "0", i
	case "up":
		size = "+" + size
	case "down":
		size = "-" + size
	default:
		return "", i
	}
	if len(size) == 1 {
		b.problem(r.row, i, "it has a direction and no size of the split", "write how far the input lies from the output")
	}
	return size, i
}

// add gives the frequency that a split leads to.
func add(output, split string) (string, error) {
	f, err := signal.ParseMegahertz(output)
	if err != nil || split == "" {
		return "", err
	}
	if isNumber(split) && strings.Trim(split, "+-0.") == "" {
		return output, nil
	}
	s, err := signal.ParseSplit(split)
	if sign, size := cutSign(split); err != nil && sign != "" { // farther apart than a repeater of the plan's own may say
		wide, wideErr := signal.ParseMegahertz(size)
		if s = signal.Split(wide); sign == "-" {
			s = -s
		}
		err = wideErr
	}
	if err != nil {
		return "", err
	}
	if f += signal.Hertz(s); !f.IsFrequency() {
		return "", fmt.Errorf("split %s from %s MHz leads to no frequency", split, output)
	}
	return f.String(), nil
}

// readTone gives a tone of a row, whole or of its parts.
func (b *builder) readTone(r *channelRow, name string) string {
	if r.column(name) >= 0 {
		return r.says(name)
	}
	kind, ctcss, dcs := r.says(name+".type"), r.says(name+".ctcss"), r.says(name+".dcs")
	text, i := "", -1
	switch {
	case kind == "none":
	case kind == "dcs" || kind == "" && dcs != "":
		mark := "N"
		if r.says(name+".polarity") == "inverted" {
			mark = "I"
		}
		for len(dcs) < 3 && dcs != "" {
			dcs = "0" + dcs // a spreadsheet program has taken the zeros away
		}
		text, i = "D"+dcs+mark, r.column(name+".dcs", name+".type")
	case kind == "ctcss" || ctcss != "":
		text, i = ctcss, r.column(name+".ctcss", name+".type")
	}
	if i < 0 {
		return ""
	}
	t, err := signal.ParseTone(text)
	if err != nil {
		what, fix := parted(err)
		b.problem(r.row, i, what, fix)
		return ""
	}
	return t.String()
}

// tells reports whether the table has a column for a tone.
func (r *channelRow) tells(name string) bool {
	return r.column(name, name+".type", name+".ctcss", name+".dcs") >= 0
}
