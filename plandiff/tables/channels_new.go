package tables

import (
	"fmt"
	"slices"
	"strings"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/signal"
)

// newChannels makes what rows bring: simplex and listening channels, and repeaters, of
// all the rows that are one station.
func (b *builder) newChannels(rows []*channelRow) {
	var stations []*station
	known := make(map[string]*station)
	for _, r := range rows {
		if r.old != nil || r.bad {
			continue
		}
		if r.output == "" {
			b.problem(r.row, r.column("output"), "the plan has no such channel, and a new one needs what it receives", "write its output, or the key of the channel that is meant")
			continue
		}
		if r.mode == string(plan.ModeDMR) {
			var ok bool
			if r.group, ok = b.groupOf(r); !ok {
				continue
			}
		}
		if !r.throughRepeater() {
			b.newSimplex(r)
			continue
		}
		if !b.complete(r) {
			continue
		}
		name := r.station()
		s := known[name]
		if s == nil {
			s = &station{first: r, repeater: b.stationOf(r)}
			known[name], stations = s, append(stations, s)
		}
		s.rows = append(s.rows, r)
	}
	b.newRepeaters(mergeSides(joinNamed(stations)))
}

// joinNamed puts rows that do not name their repeater to the one that other rows with
// the same signal name.
func joinNamed(stations []*station) []*station {
	named := make(map[string]*station)
	for _, s := range stations {
		for _, r := range s.rows {
			if r.repeaterKey() != "" && named[r.signal()] == nil {
				named[r.signal()] = s
			}
		}
	}
	return slices.DeleteFunc(stations, func(s *station) bool {
		to := named[s.first.signal()]
		if to == nil || s.first.repeaterKey() != "" {
			return false
		}
		to.rows = append(to.rows, s.rows...)
		return true
	})
}

// throughRepeater reports whether a row is of a repeater: it sends elsewhere than it
// receives, or it says so.
func (r *channelRow) throughRepeater() bool {
	return r.input != "" && r.input != r.output || r.repeaterKey() != ""
}

// repeaterKey gives the key of the repeater that a row names, or "".
func (r *channelRow) repeaterKey() string {
	if key := r.says("repeater"); key != "" {
		return key
	}
	for _, value := range []string{"path", "key"} {
		if key, _, ok := strings.Cut(r.says(value), "/"); ok {
			return key
		}
	}
	return ""
}

// complete notes what a DMR row through a repeater lacks.
func (b *builder) complete(r *channelRow) bool {
	if r.mode == string(plan.ModeFM) {
		return true
	}
	switch {
	case r.says("slot") == "":
		b.problem(r.row, r.column("slot"), "a DMR channel through a repeater needs its time slot", "write 1 or 2")
	case r.group == "":
		b.problem(r.row, r.column("group", "group.id", "group.label"), "a DMR channel through a repeater needs the group that it calls", "write the number of the group")
	default:
		return true
	}
	return false
}

// newSimplex makes a channel that is on no repeater.
func (b *builder) newSimplex(r *channelRow) {
	key := r.says("key")
	if key == "" {
		name := r.says("label")
		if name == "" {
			name = r.output
		}
		key = b.draft.newKey(plan.KindChannel, name)
	}
	t := plan.Thing{Kind: plan.KindChannel, Key: key}
	if _, taken := b.draft.find(t); taken {
		b.problem(r.row, r.column("key"), fmt.Sprintf("the key %s is taken", saying(key)), "give the row another key")
		return
	}
	b.draft.add(plan.KindChannel, key)
	r.own, r.path = t, key
	field := "receive"
	if r.input != "" {
		field = "simplex"
	}
	b.set(t, field, []string{r.output}, r.row, r.column("output"))
	b.set(t, r.mode, []string{"yes"}, r.row, r.column("mode"))
	for field, text := range b.sideOf(r) {
		b.set(t, field, texts(text), r.row, r.column("output"))
	}
	if r.mode == string(plan.ModeDMR) {
		b.set(t, "dmr.group", texts(r.group), r.row, r.column("group", "group.id", "group.label"))
		b.set(t, "dmr.slot", texts(r.says("slot")), r.row, r.column("slot"))
	}
}

// sideOf gives the fields of a row's mode that a repeater and a channel have both.
func (b *builder) sideOf(r *channelRow) map[string]string {
	if r.mode == string(plan.ModeDMR) {
		return map[string]string{"dmr.color_code": r.says("color_code")}
	}
	width := r.says("width")
	if width == "wide" {
		width = ""
	}
	return map[string]string{"fm.tone.send": r.toneSend, "fm.tone.receive": r.toneRecv, "fm.width": width}
}

// A station is rows that are one repeater.
type station struct {
	first    *channelRow
	rows     []*channelRow
	repeater plan.Thing // of the plan; zero where the rows bring it
}

// unnamed is 1 where no row says the key of the repeater.
func (s *station) unnamed() int {
	if s.first.repeaterKey() == "" {
		return 1
	}
	return 0
}

// station tells which rows are one repeater: those that name it, else those with its
// pair of frequencies and its color code, or in FM its tones.
func (r *channelRow) station() string {
	if key := r.repeaterKey(); key != "" {
		return key
	}
	return "\x00" + r.signal()
}

// signal is what the rows of one side of a repeater have in common.
func (r *channelRow) signal() string {
	parts := []string{r.output, r.input, r.says("callsign"), r.says("repeater.label"), r.mode}
	if r.mode == string(plan.ModeDMR) {
		return strings.Join(append(parts, r.says("color_code")), "\x00")
	}
	return strings.Join(append(parts, r.toneSend, r.toneRecv, r.says("width")), "\x00")
}

// stationOf finds the repeater of the plan that a row is of.
func (b *builder) stationOf(r *channelRow) plan.Thing {
	if key := r.repeaterKey(); key != "" {
		t := plan.Thing{Kind: plan.KindRepeater, Key: key}
		if _, ok := b.draft.find(t); ok {
			return t
		}
		return plan.Thing{}
	}
	if b.pairs == nil {
		b.pairs = make(map[string][]*plan.Repeater)
		for _, rep := range b.draft.all(plan.KindRepeater) {
			rep := rep.(*plan.Repeater)
			pair := first(mhz(rep.Output.Or(0))) + " " + first(mhz(rep.TransmitOn()))
			b.pairs[pair] = append(b.pairs[pair], rep)
		}
	}
	for _, rep := range b.pairs[r.output+" "+r.input] {
		if b.fits(r, rep) {
			return rep.Thing()
		}
	}
	return plan.Thing{}
}

// fits reports whether a row can be of a repeater with its pair.
func (b *builder) fits(r *channelRow, rep *plan.Repeater) bool {
	if call := r.says("callsign"); call != "" && rep.Callsign.IsSet() && call != string(rep.Callsign.V) {
		return false
	}
	if label := r.says("repeater.label"); label != "" && label != rep.Called() {
		return false
	}
	if r.mode == string(plan.ModeDMR) {
		cc := r.says("color_code")
		return rep.DMR.Present.IsSet() && (cc == "" || !rep.DMR.ColorCode.IsSet() || cc == rep.DMR.ColorCode.V.String())
	}
	return rep.FM.Present.IsSet() && (!r.tells("tone.send") || first(toneText(rep.FM.ToneSend.V)) == r.toneSend)
}

func toneText(t signal.Tone) []string {
	if t.IsZero() {
		return nil
	}
	return []string{t.String()}
}

// mergeSides makes one repeater of an FM and a DMR side that share a pair and the first
// word of their labels, where no other station has the pair.
func mergeSides(stations []*station) []*station {
	pairs := make(map[string][]*station)
	slices.SortStableFunc(stations, func(a, b *station) int { return a.unnamed() - b.unnamed() }) // a name is not to be taken
	for _, s := range stations {
		if s.repeater.Kind == 0 {
			pair := s.first.output + " " + s.first.input
			pairs[pair] = append(pairs[pair], s)
		}
	}
	gone := make(map[*station]bool)
	for _, on := range pairs {
		if len(on) == 2 && on[1].first.repeaterKey() == "" && on[0].first.mode != on[1].first.mode && firstWord(on[0]) == firstWord(on[1]) {
			on[0].rows = append(on[0].rows, on[1].rows...)
			gone[on[1]] = true
		}
	}
	return slices.DeleteFunc(stations, func(s *station) bool { return gone[s] })
}

func firstWord(s *station) string {
	word, _, _ := strings.Cut(strings.TrimSpace(s.first.says("label")), " ")
	return strings.ToLower(word)
}
