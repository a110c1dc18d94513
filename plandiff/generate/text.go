package generate

import (
	"bytes"
	"fmt"
	"slices"
	"strings"

	"passband.example/plandiff/signal"
)

// Style is a way of writing. None changes what the plan means.
type Style struct {
	Reversed bool // the records of each section from the last to the first
	Block    bool // a line for each value, wide indents, quotes, and no comment
	Respelt  bool // trailing zeros, and the input instead of the split
}

// A sheet is what one file holds.
type sheet struct {
	name      string
	groups    []*group
	repeaters []*repeater
	channels  []*channel
	zones     []*zone
	text      []byte // as it was last written; nil after an edit
}

func sheetName(i, of int) string {
	if of == 1 {
		return "plan.yaml"
	}
	return fmt.Sprintf("part-%02d.yaml", i)
}

const (
	head  = "plan: Generated\nedition: 2026\nregion: US\nlicense: general\n"
	radio = "radios:\n  handheld: {bands: [144-148, 420-450], modes: [fm, dmr], label_length: 16}\n"
)

// Files writes the plan: file names and their text.
func (c *Club) Files() map[string][]byte {
	files := map[string][]byte{"plan.yaml": []byte(head + radio)}
	for _, s := range c.sheets {
		if s.text == nil || c.Style != c.written {
			s.text = c.text(s)
		}
		files[s.name] = s.text
	}
	c.written = c.Style
	if len(c.operators) > 0 {
		files["operators.csv"] = c.table()
	}
	return files
}

func (c *Club) table() []byte {
	var w bytes.Buffer
	w.WriteString("id,callsign,name\n")
	for _, o := range c.operators {
		fmt.Fprintf(&w, "%d,%s,%s\n", o.id, o.callsign, o.name)
	}
	return w.Bytes()
}

func (c *Club) text(s *sheet) []byte {
	w := &writer{Style: c.Style}
	if s.name == "plan.yaml" {
		w.WriteString(head + radio)
	}
	section(w, "groups", s.groups, w.group)
	section(w, "repeaters", s.repeaters, w.repeater)
	section(w, "channels", s.channels, func(ch *channel) { w.channel(ch, c.groups) })
	section(w, "zones", s.zones, w.zone)
	return w.Bytes()
}

type writer struct {
	bytes.Buffer
	Style
}

func section[R any](w *writer, name string, records []R, write func(R)) {
	if len(records) == 0 {
		return
	}
	w.line("%s:", name)
	if w.Reversed {
		records = slices.Clone(records)
		slices.Reverse(records)
	}
	for _, r := range records {
		write(r)
	}
}

func (w *writer) line(format string, args ...any) { fmt.Fprintf(w, format+"\n", args...) }

func (w *writer) comment(there bool) {
	if there && !w.Block {
		w.line("  # coordinated in 2024")
	}
}

// record writes a record in one line, or one line a value.
func (w *writer) record(key string, values ...string) {
	if !w.Block {
		w.line("  %s: {%s}", key, strings.Join(values, ", "))
		return
	}
	w.line("    %s:", key)
	for _, v := range values {
		if label, ok := strings.CutPrefix(v, "label: "); ok {
			v = fmt.Sprintf("label: %q", label)
		}
		w.line("        %s", v)
	}
}

func (w *writer) group(g *group) {
	w.record(g.key, fmt.Sprintf("id: %d", g.id), "label: "+g.label)
}

func (w *writer) channel(ch *channel, groups []*group) {
	w.comment(ch.comment)
	mode, value := ch.mode(groups)
	w.record(ch.key, "label: "+ch.label, "simplex: "+w.megahertz(ch.frequency()), mode+": {"+value+"}", "power: "+ch.power)
}

func (w *writer) zone(z *zone) {
	w.comment(z.comment)
	w.record(z.key, "label: "+z.label, "channels: "+list(z.members))
}

func (w *writer) megahertz(f signal.Hertz) string {
	if w.Respelt {
		return f.String() + "0"
	}
	return f.String()
}

func list[S fmt.Stringer](items []S) string {
	texts := make([]string, len(items))
	for i, item := range items {
		texts[i] = item.String()
	}
	return "[" + strings.Join(texts, ", ") + "]"
}

func (w *writer) repeater(r *repeater) {
	w.comment(r.comment)
	in := "  "
	if w.Block {
		in = "    "
	}
	w.line("%s%s:\n%s%slabel: %s", in, r.key, in, in, r.label)
	w.line("%s%scallsign: %s\n%s%soutput: %s", in, in, r.callsign, in, in, w.megahertz(r.output))
	if w.Respelt {
		w.line("%s%sinput: %s", in, in, w.megahertz(r.output+5_000_000))
	} else {
		w.line("%s%ssplit: +5", in, in)
	}
	w.line("%s%sfm: {tone: 103.5}\n%s%sdmr:\n%s%s%scolor_code: %d", in, in, in, in, in, in, in, r.color)
	for i, groups := range r.slots {
		w.line("%s%s%sslot%d: %s", in, in, in, i+1, list(groups))
	}
	w.line("%s%ssite: {lat: %s, lon: %s}", in, in, r.lat, r.lon)
}
