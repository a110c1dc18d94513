package page

import (
	"fmt"
	"slices"
	"strings"
)

// A side says which of both plans a lane shows.
type side uint8

const (
	sideBoth side = iota // nothing differs, or nothing is compared
	sideWas
	sideNow
)

func (t *tuned) on(s side) int {
	if s == sideWas {
		return t.Was
	}
	return t.Now
}

// lanes draws what the channels occupy: what members hear as outlines, with names above, and what they
// send as solid forms, with names below. Where something differs, before and now lie
// above each other.
func (st *strip) lanes(compared bool, y int) {
	sides := []side{sideBoth}
	if compared && st.changes() > 0 {
		sides = []side{sideWas, sideNow}
	}
	y += st.tags(false, y)
	for _, sends := range []bool{false, true} {
		if !slices.ContainsFunc(st.signals, func(t *tuned) bool { return t.Sends == sends }) {
			continue
		}
		for _, s := range sides {
			st.lane(sends, s, y)
			y += laneHeight + laneGap
		}
	}
	y += st.tags(true, y)
	st.Bottom = y
	st.Height = y + 4
}

// mostMarks is how many signals a lane shows one by one.
const mostMarks = 120

func (st *strip) lane(sends bool, s side, y int) {
	name := map[bool]string{false: "hear", true: "send"}[sends] + [...]string{"", ", before", ", now"}[s]
	st.Names = append(st.Names, laneName{y + laneHeight - 7, name})
	var on []*tuned
	for _, t := range st.signals {
		if t.Sends == sends && t.on(s) > 0 {
			on = append(on, t)
		}
	}
	if len(on) > mostMarks {
		st.bars(on, s, y)
		return
	}
	for _, t := range on {
		x := st.x(t.low())
		w := max(st.x(t.high())-x, 14)
		st.Marks = append(st.Marks, mark{
			Class: strings.TrimSpace(lane(sends) + " " + string(t.Mode) + " " + t.State()),
			X:     x, W: w, Y: y, H: laneHeight, Title: t.title(s),
		})
	}
}

func lane(sends bool) string {
	if sends {
		return "send"
	}
	return "hear"
}

func (t *tuned) title(s side) string {
	does := "members hear"
	if t.Sends {
		does = "members send"
	}
	said := fmt.Sprintf("%s MHz, %s %s kHz wide, %s: %s, %s", t.Center, strings.ToUpper(string(t.Mode)), t.Width.KHz(), does, t.named(mostTitled, 0), count(t.on(s), "channel"))
	switch t.State() {
	case "came":
		said += ", new"
	case "went":
		said += ", gone"
	case "changed":
		said += ", others than before"
	}
	return said
}

// mostTitled is how many users the text behind a mark names.
const mostTitled = 12

// barUnits is how wide a bar is, in units; a strip has some hundred.
const barUnits = 10

// bars draws how many channels there are instead of each signal.
func (st *strip) bars(on []*tuned, s side, y int) {
	counts := make([]int, stripPlot/barUnits+1)
	for _, t := range on {
		counts[(int(st.x(t.Center))/10-stripGutter)/barUnits] += t.on(s)
	}
	most := slices.Max(counts)
	class := lane(on[0].Sends) + " many"
	for i, n := range counts {
		if n == 0 {
			continue
		}
		h := max(n*laneHeight/most, 2)
		st.Marks = append(st.Marks, mark{
			Class: class, X: tenths((stripGutter + i*barUnits) * 10), W: barUnits*10 - 10, Y: y + laneHeight - h, H: h,
			Title: fmt.Sprintf("%s within %d kHz", count(n, "channel"), int(stripSpan)/stripPlot*barUnits/1000),
		})
	}
}

// tagHeight is the height of a line of names.
const tagHeight = 12

// mostTagLines is how many lines of names a kind of signal may have.
const mostTagLines = 3

// tags names the signals of a kind, what came or went first, as far as there is room, and
// gives the height that the names take. The first line is the one next to the lane.
func (st *strip) tags(sends bool, y int) int {
	var lines [mostTagLines][]tag
	for _, changed := range []bool{true, false} {
		if !changed && st.crowded(sends) {
			break // the bars have no names
		}
		for _, t := range st.signals {
			if t.Sends == sends && (t.State() != "") == changed {
				st.seat(&lines, tag{X: st.x(t.Center), Text: marked(t)})
			}
		}
	}
	used := 0
	for used < mostTagLines && len(lines[used]) > 0 {
		used++
	}
	for i := range used {
		for _, one := range lines[i] {
			one.Y = y + (used-i)*tagHeight - 2
			if sends {
				one.Y = y + (i+1)*tagHeight - 2
			}
			st.Tags = append(st.Tags, one)
		}
	}
	if used > 0 && !sends {
		return used*tagHeight + 3
	}
	return used * tagHeight
}

// crowded tells whether a lane of a kind shows bars.
func (st *strip) crowded(sends bool) bool {
	was, now := 0, 0
	for _, t := range st.signals {
		if t.Sends == sends {
			was, now = was+min(t.Was, 1), now+min(t.Now, 1)
		}
	}
	return max(was, now) > mostMarks
}

// seat puts a name into the first line that has room for it, if one has and it does not
// stand there already: two modes of one repeater have one name.
func (st *strip) seat(lines *[mostTagLines][]tag, one tag) {
	half := one.half()
	one.X = min(max(one.X, stripGutter*10+half), stripWidth*10-half)
	for i := range lines {
		if slices.Contains(lines[i], one) {
			return
		}
		if !slices.ContainsFunc(lines[i], func(o tag) bool { return one.X-half < o.X+o.half()+60 && o.X-o.half()-60 < one.X+half }) {
			lines[i] = append(lines[i], one)
			return
		}
	}
}

// half is half the width of a name.
func (t tag) half() tenths { return tenths(len([]rune(t.Text)) * letter / 2) }

// marked names who is on a signal, with what became of it.
func marked(t *tuned) string {
	names := t.named(mostTagged, mostTag)
	switch t.State() {
	case "came":
		return "+ " + names
	case "went":
		return "− " + names
	}
	return names
}
