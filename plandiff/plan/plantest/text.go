package plantest

import (
	"bytes"
	"fmt"
	"math/rand/v2"

	"passband.example/plandiff/signal"
)

// Text writes a plan with so many channels, for measuring. Half of them are
// written one a line in the section channels, the others follow from repeaters
// with an FM side and 19 groups each. There are up to 4,000 groups, a zone for
// every 14 written channels with two talk paths more, and a comment at one record
// in 40. The same seed gives the same text; a seed changes the values and no count.
func Text(channels int, seed uint64) map[string][]byte {
	w := &writer{random: rand.New(rand.NewPCG(seed, 0))}
	groups := min(4_000, max(20, channels/10))
	repeaters := channels / 40
	w.line("plan: Generated\nedition: 2026\nregion: US\nlicense: general")
	w.line("groups:")
	for i := range groups {
		w.line("  g%04d: {id: %d, label: Group %d}", i, 9_990_000+i, i)
	}
	w.line("repeaters:")
	for i := range repeaters {
		w.repeater(i, groups)
	}
	w.line("channels:")
	for i := range channels / 2 {
		w.comment(i)
		w.line("  ch-%05d: {label: Ch %d, simplex: %s, fm: {tone: 103.5}, power: high}", i, i, w.frequency())
	}
	w.line("zones:")
	for i := range channels / 2 / 14 {
		w.comment(i)
		w.zone(i, repeaters)
	}
	w.line("radios:\n  pocket: {bands: [144-148, 420-450], modes: [fm, dmr], label_length: 12}")
	return map[string][]byte{"plan.yaml": w.Bytes()}
}

type writer struct {
	bytes.Buffer
	random *rand.Rand
}

func (w *writer) line(format string, args ...any) { fmt.Fprintf(w, format+"\n", args...) }

func (w *writer) comment(i int) {
	if i%40 == 0 {
		w.line("  # record %d was coordinated in 2024", i)
	}
}

// frequency draws one of the channels of 12.5 kHz in the 70 cm band.
func (w *writer) frequency() signal.Hertz {
	return 420_000_000 + 12_500*signal.Hertz(w.random.IntN(2_400))
}

func (w *writer) repeater(i, groups int) {
	w.comment(i)
	first := w.random.IntN(groups)
	w.line("  r%05d:\n    label: Rpt %d\n    callsign: N0QRV\n    output: %s\n    split: +5", i, i, w.frequency())
	w.line("    fm: {tone: 103.5}\n    dmr:\n      color_code: %d", w.random.IntN(16))
	w.line("      slot1: [%s]", list(first, 10, groups))
	w.line("      slot2: [%s]", list(first+10, 9, groups))
	w.line("    site: {lat: %d.5, lon: -%d.25}", 25+w.random.IntN(24), 70+w.random.IntN(50))
}

// list names n groups from the first, beginning anew behind the last.
func list(first, n, groups int) string {
	var text bytes.Buffer
	for i := range n {
		if i > 0 {
			text.WriteString(", ")
		}
		fmt.Fprintf(&text, "g%04d", (first+i)%groups)
	}
	return text.String()
}

func (w *writer) zone(i, repeaters int) {
	w.Buffer.WriteString(fmt.Sprintf("  zone-%04d: {label: Zone %d, channels: [", i, i))
	for j := range 14 {
		fmt.Fprintf(w, "ch-%05d, ", i*14+j)
	}
	w.line("r%05d/fm, r%05d/1/*]}", w.random.IntN(repeaters), w.random.IntN(repeaters))
}
