package survey

import (
	"fmt"
	"slices"
	"strings"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/signal"
	"passband.example/review/license"
	"passband.example/review/rf"
)

// A Search asks which pairs are worth asking the coordinator about, for a new repeater or for one
// that is to move.
type Search struct {
	Plan *plan.Plan
	Law  *license.Tables // whose law, band plan and usual splits count
	At   rf.Place
	Band string    // 2m, 70cm: one of rf.BandNames
	Mode plan.Mode // FM, wide, or DMR

	// Moving is the repeater of the plan that is to move: it is not in its own way. Nil for a new one.
	Moving *plan.Repeater
}

// Pairs are the answer to a Search.
type Pairs struct {
	rf.Choice
	Offered  int          // pairs of the band that have a usual split
	Stations []rf.Station // those that were looked at, for Choice.Site and the like
	Cautions []string     // what the list does not know
}

// Choose looks for pairs: those on the channels of the band plan with a usual split there, which the
// law lets a repeater have, which stand as far from every known station as the separation table asks, and
// which cause no product of third order and no harmonic at the site. The best are first.
func (q Search) Choose() Pairs {
	s := Of(q.Plan)
	answer := Pairs{Stations: q.others(s)}
	offered := q.offered()
	answer.Offered = len(offered)
	place := q.At
	answer.Choice = s.Table.Choose(rf.Wish{
		Station: rf.Station{Place: &place, FM: q.Mode == plan.ModeFM, DMR: q.Mode == plan.ModeDMR},
		Pairs:   offered, Stations: answer.Stations, Allowed: q.allowed,
	})
	answer.Cautions = q.cautions(&answer)
	return answer
}

// others are the stations of the survey but the one that moves, as the plan or its neighbor list has it.
func (q Search) others(s *Survey) []rf.Station {
	if q.Moving == nil {
		return s.Stations
	}
	return slices.DeleteFunc(slices.Clone(s.Stations), func(st rf.Station) bool {
		same := st.Callsign != "" && st.Callsign == q.Moving.Callsign.Or("") && st.Output == q.Moving.Output.Or(0)
		return st.Ours && st.Name == q.Moving.Key.V || !st.Ours && same
	})
}

// offered are the pairs of the band: outputs on the channel steps of the band plan, each with the splits
// that are usual there. Where the band plan has no steps for any of them, those of 12.5 kHz count.
func (q Search) offered() []rf.Pair {
	pairs := q.onSteps(q.onStep)
	if len(pairs) == 0 {
		pairs = q.onSteps(func(f signal.Hertz) bool { return f%usualStep == 0 })
	}
	return pairs
}

// onSteps are the pairs of the band whose outputs are on a step.
func (q Search) onSteps(onStep func(signal.Hertz) bool) []rf.Pair {
	low, high, ok := rf.BandLimits(q.Band)
	if !ok {
		return nil
	}
	var pairs []rf.Pair
	for f := low; f <= high; f += finestStep {
		if !onStep(f) {
			continue
		}
		for _, row := range q.Law.UsualSplits(f) {
			pair := rf.Pair{Output: f, Input: f + signal.Hertz(row.Split)}
			if rf.Band(pair.Input) == q.Band && !slices.Contains(pairs[max(0, len(pairs)-4):], pair) {
				pairs = append(pairs, pair)
			}
		}
	}
	return pairs
}

// The steps: every step in use is a multiple of 2.5 or 6.25 kHz, and channels of 20 kHz on 2 m lie on
// odd tens of kilohertz, as 145.210; where a band plan says none, 12.5 kHz (common practice, no source).
const (
	finestStep = 2_500
	usualStep  = 12_500
	oddStep    = 20_000
)

// onStep reports whether an output is on a channel of the band plan. DMR fits between two others of 25 kHz.
func (q Search) onStep(f signal.Hertz) bool {
	s := q.Law.Raster(f)
	if s == nil {
		return false
	}
	step := s.Rasters[0]
	return f%step == 0 || f%(step/2) == 0 && (q.Mode == plan.ModeDMR && step == 2*usualStep || step == oddStep)
}

// allowed asks the law and the band plan about both frequencies of a pair.
func (q Search) allowed(pair rf.Pair) (reason string, ok bool) {
	emission := license.FMWide()
	if q.Mode == plan.ModeDMR {
		emission = license.DMRVoice()
	}
	site := &license.Site{At: q.At.At, HalfLat: q.At.HalfLat, HalfLon: q.At.HalfLon}
	unclear := ""
	for _, side := range []struct {
		on      signal.Hertz
		station license.Station
	}{{pair.Output, license.RepeaterOutput}, {pair.Input, license.RepeaterInput}} {
		v := q.Law.Transmit(license.Query{Center: side.on, Emission: emission, Station: side.station, Site: site})
		if v.Outcome == license.Denied || len(q.Law.KeptAgainst(side.on, emission.NecessaryBandwidth)) > 0 || len(q.Law.Calling(side.on, emission.NecessaryBandwidth)) > 0 {
			return "", false
		}
		if v.Outcome == license.Doubtful {
			unclear = "; whether the law allows it is unclear there: passband law " + side.on.String()
		}
	}
	split := signal.Split(pair.Input - pair.Output)
	for _, row := range q.Law.UsualSplits(pair.Output) {
		if row.Split == split && (reason == "" || row.Confidence == license.Read) {
			reason = fmt.Sprintf("the split %s MHz is usual there (%s) [%s]", split, row.Source, row.Confidence)
		}
	}
	return strings.TrimPrefix(reason+unclear, "; "), true
}

// cautions say what the list does not know.
func (q Search) cautions(a *Pairs) []string {
	var all []string
	add := func(there bool, format string, args ...any) {
		if there {
			all = append(all, fmt.Sprintf(format, args...))
		}
	}
	add(q.Plan.Header.List.Or("") == "", "the plan names no neighbor list (neighbors: %s), so only its own repeaters were looked at", plan.NeighborsFile)
	add(len(a.Unplaced) > 0, "stations whose place is not known, so that they were not looked at: %d", len(a.Unplaced))
	add(len(a.MaybeSite) > 0, "stations that may share the site, which a locator leaves open, so that their mixing products were not looked at: %d", len(a.MaybeSite))
	add(q.At.Slack() > 0, "the place is a locator's cell, up to %.1f km off; distances were taken from its nearest corner", q.At.Slack()/1000)
	all = append(all, "channel steps and splits differ from area to area, terrain is not in it, and receivers have images that no plan knows")
	return append(all, "it is a list to take to the frequency coordinator, who knows of stations that no list has, and decides")
}
