package tables

import (
	"fmt"
	"strings"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/signal"
)

// newRepeaters makes the repeaters that rows bring, and puts the rows on their slots.
func (b *builder) newRepeaters(stations []*station) {
	for _, s := range stations {
		if s.repeater.Kind == 0 {
			b.newRepeater(s)
		}
		for _, r := range s.rows {
			r.repeater = s.repeater
			b.onRepeater(r)
		}
	}
}

// newRepeater makes one of what its rows say. Its key is what they name it; its label
// the one that gives its channels theirs.
func (b *builder) newRepeater(s *station) {
	r := s.first
	label := r.says("repeater.label")
	if label == "" {
		label = b.stationLabel(s)
	}
	key := r.repeaterKey()
	if key == "" {
		key = b.draft.newKey(plan.KindRepeater, label)
	}
	s.repeater = b.draft.add(plan.KindRepeater, key)
	if label != "" && label != key {
		b.set(s.repeater, "label", []string{label}, r.row, r.column("repeater.label", "label"))
	}
	b.set(s.repeater, "output", []string{r.output}, r.row, r.column("output"))
	b.tune(s.repeater, r)
}

// tune gives a repeater its input, as a split where that is one.
func (b *builder) tune(t plan.Thing, r *channelRow) {
	i := r.column("input", "split", "split.direction")
	if r.input == "" {
		return
	}
	output, err := signal.ParseMegahertz(r.output)
	input, err2 := signal.ParseMegahertz(r.input)
	if split := signal.Split(input - output); err == nil && err2 == nil {
		if _, err := signal.ParseSplit(split.String()); err == nil {
			b.set(t, "split", []string{split.String()}, r.row, i)
			return
		}
	}
	b.set(t, "input", []string{r.input}, r.row, i)
}

// stationLabel finds what the labels of a station's rows have before the words FM or the
// group's: the most frequent, of several the first.
func (b *builder) stationLabel(s *station) string {
	count := make(map[string]int)
	best := ""
	for _, r := range s.rows {
		label, ok := strings.CutSuffix(r.says("label"), " "+b.tail(r))
		if !ok {
			label, _, _ = strings.Cut(r.says("label"), " ")
		}
		if count[label]++; label != "" && (best == "" || count[label] > count[best]) {
			best = label
		}
	}
	if best == "" {
		return s.first.output
	}
	return best
}

// tail is what the label of a channel ends with where nobody wrote it.
func (b *builder) tail(r *channelRow) string {
	if r.mode == string(plan.ModeFM) {
		return "FM"
	}
	if g, ok := b.draft.find(plan.Thing{Kind: plan.KindGroup, Key: r.group}); ok {
		return g.(*plan.Group).Called()
	}
	return r.group
}

// onRepeater makes the talk path of a row, and its own record where it has a key or
// another row has the talk path.
func (b *builder) onRepeater(r *channelRow) {
	edited, ok := b.draft.edit(r.repeater)
	if !ok {
		return
	}
	rep := edited.(*plan.Repeater)
	r.path = r.repeater.Key + "/fm"
	if r.mode == string(plan.ModeDMR) {
		r.path = fmt.Sprintf("%s/%s/%s", r.repeater.Key, r.says("slot"), r.group)
	}
	had := rep.FM.Present.IsSet()
	if r.mode == string(plan.ModeDMR) {
		had = rep.DMR.Present.IsSet()
	}
	if !had {
		b.set(r.repeater, r.mode, []string{"yes"}, r.row, -1)
	}
	for field, text := range b.sideOf(r) {
		if text == "" && had {
			continue // the table does not say
		}
		b.claim(r.repeater, field, text, r.row, r.column("color_code", "tone.send", "output"), !had && text != "")
	}
	b.claimField(r, r.repeater, "callsign", "callsign")
	if r.mode == string(plan.ModeDMR) {
		b.putOn(r, r.says("slot"))
	}
	key := r.says("key")
	switch {
	case key != "" && !strings.Contains(key, "/"):
		t := plan.Thing{Kind: plan.KindChannel, Key: key}
		if _, taken := b.draft.find(t); taken {
			b.problem(r.row, r.column("key"), fmt.Sprintf("the key %s is taken", saying(key)), "give the row another key")
			return
		}
		r.own = b.draft.add(plan.KindChannel, key)
		b.set(r.own, "path", []string{r.path}, r.row, r.column("key"))
		if holder := b.paths[r.path]; holder != nil {
			b.ownOf(holder)
		}
	case b.shared(r):
		b.ownOf(r)
	}
	b.onPath(r)
}

// shared reports whether another channel has the talk path of a row. One that nobody
// wrote would give way to one that somebody did, so it gets a record of its own.
func (b *builder) shared(r *channelRow) bool {
	if holder := b.paths[r.path]; holder != nil {
		b.ownOf(holder)
		return true
	}
	on := b.old.x.OnPath(r.path)
	if len(on) == 1 && on[0].Spec == nil {
		b.ownOf(&channelRow{row: &row{sheet: r.sheet, n: r.n, texts: make([][]string, len(r.texts))}, path: r.path})
	}
	return len(on) > 0
}

// onPath notes the first row of a talk path.
func (b *builder) onPath(r *channelRow) {
	if b.paths[r.path] == nil {
		b.paths[r.path] = r
	}
}
