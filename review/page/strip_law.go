package page

import (
	"cmp"
	"slices"

	"passband.example/plandiff/signal"
	"passband.example/review/license"
)

// license draws what the license says, one lane, and gives where the next one begins. What
// forbids lies over what allows.
func (st *strip) license(l law, y int) int {
	st.Names = append(st.Names, laneName{y + segment - 4, "license"})
	rows := l.within(st.Low, st.High)
	for r := otherwise; r <= barred; r++ {
		for _, span := range union(rows, r) {
			st.block("law "+r.class(), span, y, r.words(), r == voice || r == otherwise && !covered(rows, span))
		}
	}
	if len(rows) == 0 {
		st.block("law none", stretch{st.Low, st.High}, y, "no table says that an amateur may send here", true)
	}
	return y + segment + laneGap
}

// A stretch is a part of the spectrum.
type stretch struct{ low, high signal.Hertz }

// union joins what rows of one right cover.
func union(rows []*license.Row, r right) (all []stretch) {
	var of []stretch
	for _, row := range rows {
		if rightOf(row) == r {
			of = append(of, stretch{row.Low, row.High})
		}
	}
	slices.SortFunc(of, func(a, b stretch) int { return cmp.Compare(a.low, b.low) })
	for _, s := range of {
		if n := len(all); n > 0 && s.low <= all[n-1].high {
			all[n-1].high = max(all[n-1].high, s.high)
			continue
		}
		all = append(all, s)
	}
	return all
}

// covered tells whether voice is allowed on part of a stretch, whose name would hide another.
func covered(rows []*license.Row, s stretch) bool {
	return slices.ContainsFunc(union(rows, voice), func(v stretch) bool { return v.low < s.high && s.low < v.high })
}

// mostTiers is how many segments of band plans are drawn above each other.
const mostTiers = 3

// plan draws the band plan. Segments that overlap lie in tiers, the wide ones first.
func (st *strip) plan(l law, y int) int {
	all := l.segments(st.Low, st.High)
	if len(all) == 0 {
		return y
	}
	slices.SortStableFunc(all, func(a, b *license.Segment) int { return cmp.Compare(b.High-b.Low, a.High-a.Low) })
	st.Names = append(st.Names, laneName{y + segment - 4, "band plan"})
	var tiers [][]stretch
	for _, s := range all {
		span := stretch{s.Low, s.High}
		free := func(tier []stretch) bool {
			return !slices.ContainsFunc(tier, func(o stretch) bool { return o.low < span.high && span.low < o.high })
		}
		at := slices.IndexFunc(tiers, free)
		if at < 0 {
			if len(tiers) == mostTiers {
				continue // the table has it
			}
			at = len(tiers)
			tiers = append(tiers, nil)
		}
		tiers[at] = append(tiers[at], span)
		class := "seg"
		if s.Kept != license.NotKept {
			class = "seg kept"
		}
		st.block(class, span, y+at*(segment+1), s.Use, true)
	}
	return y + len(tiers)*(segment+1) + laneGap
}

// block draws a segment, with its name where there is room and that is wanted.
func (st *strip) block(class string, s stretch, y int, text string, named bool) {
	x := st.x(s.low)
	b := block{Class: class, X: x, W: max(st.x(s.high)-x, 10), Y: y}
	b.Title = s.low.String() + " to " + s.high.String() + " MHz: " + text
	if named && int(b.W) >= len([]rune(text))*letter+60 {
		b.Text, b.TextX, b.TextY = text, x+30, y+segment-4
	}
	st.Blocks = append(st.Blocks, b)
}
