package license

import (
	"slices"

	"passband.example/plandiff/signal"
)

// Transmit judges one transmission, all of its occupied width counted, in these steps:
//
//  1. Rows that give a right, of the jurisdiction and class, that allow the emission at its
//     width, must cover all of it. Touching rows join, edges are inside:
//     2f-B >= 2L and 2f+B <= 2U. Source: 47 CFR 97.307(b); AFuV Anlage 1.
//  2. For a beacon or a repeater the rows that open ranges to that kind of station, if there are
//     any, must cover it as well. A repeater is judged twice by the caller, on its output
//     and on its input: 47 CFR 97.205(b) bars receiving too.
//  3. A row that says no, for the station, class and emission, must not overlap it.
//  4. A row for a place decides if the site is known, and raises a doubt if it is not.
//  5. A power is compared with a limit of like kind; unlike kinds raise a doubt at most.
//
// The verdict also holds the margin to the nearest edge, for a note where it is less
// than the transmitter's frequency error (common practice).
func (t *Tables) Transmit(q Query) Verdict {
	j := judge{Tables: t, q: q, reach: reachOf(q.Center, q.Emission.NecessaryBandwidth)}
	if q.Center <= 0 || q.Center > widest || q.Emission.NecessaryBandwidth < 0 || q.Emission.NecessaryBandwidth > widest {
		j.object(Objection{Reason: OutsideBands})
		return j.verdict
	}
	if j.entitled() && !j.opened() {
		j.object(j.notOpened())
	}
	j.barred()
	j.places()
	j.findNearest()
	return j.verdict
}

// A judge holds one query while it is judged.
type judge struct {
	*Tables
	q Query
	reach
	verdict Verdict
}

func (j *judge) filter(kind Kind) filter {
	return filter{class: j.q.Class, kind: kind, width: j.q.Emission.NecessaryBandwidth}
}

// entitled is step 1, with the power limits of the rows that give the right.
func (j *judge) entitled() bool {
	var spans []*span
	for kind := range j.q.Emission.Kind.each() {
		s, whole := j.coverage(j.filter(kind)).around(j.reach)
		if !whole {
			j.object(j.notCovered(kind))
			return false
		}
		spans = append(spans, s)
	}
	j.verdict.Margin = widest
	for _, s := range spans {
		j.rest(s)
		j.verdict.Margin = min(j.verdict.Margin, signal.Hertz(min(j.low-s.low, s.high-j.high)/2))
	}
	return true
}

// opened is step 2: whether the rows for the kind of station, if there are any, cover it.
func (j *judge) opened() bool {
	if j.q.Station == Member {
		return true
	}
	c := j.coverage(filter{class: j.q.Class, station: j.q.Station})
	if len(c.spans) == 0 {
		return true
	}
	s, whole := c.around(j.reach)
	if whole {
		j.rest(s)
	}
	return whole
}

func (j *judge) notOpened() Objection {
	return Objection{Reason: StationBarred, Rows: j.coverage(filter{class: j.q.Class, station: j.q.Station}).beside(j.reach, j.better)}
}

// rest notes which rows of a span the verdict rests on: at each point of the emission the
// one that objects least, and of those the one that is surest.
func (j *judge) rest(s *span) {
	rows := s.within(j.reach)
	for _, from := range rows {
		at := max(j.low, halves(2*from.Low))
		best := from
		for _, row := range rows {
			if halves(2*row.Low) <= at && at < halves(2*row.High) && j.less(row, best) {
				best = row
			}
		}
		if slices.Contains(j.verdict.Rows, best) {
			continue
		}
		j.verdict.Rows = append(j.verdict.Rows, best)
		j.verdict.FromMemory = j.verdict.FromMemory || best.Confidence == Memory
		j.verdict.Fallback = j.verdict.Fallback || j.standsIn(best)
		if best.Right == Permit {
			j.object(Objection{Reason: NeedsPermit, Outcome: Doubtful, Rows: []*Row{best}})
		}
		if over := j.q.overPower(best); over != Allowed {
			j.object(Objection{Reason: PowerOver, Outcome: over, Rows: []*Row{best}})
		}
	}
}

func (j *judge) less(a, b *Row) bool {
	if x, y := j.doubt(a), j.doubt(b); x != y {
		return x < y
	}
	return a.Confidence < b.Confidence
}

func (j *judge) doubt(r *Row) Outcome {
	doubt := j.q.overPower(r)
	if r.Right == Permit {
		doubt = max(doubt, Doubtful)
	}
	return doubt
}

// barred is step 3: one objection for each reason, with all rows that make it.
func (j *judge) barred() {
	const near halves = 2 * 25_000 // as far as a margin is worth saying
	wide := reach{j.low - near, j.high + near}
	var byReason [PlacePowerOver + 1][]*Row
	for _, row := range j.bars.overlapping(wide) {
		if !j.barredBy(row) {
			continue
		}
		low, high := halves(2*row.Low), halves(2*row.High)
		switch {
		case high <= j.low:
			j.verdict.Margin = min(j.verdict.Margin, signal.Hertz(j.low-high)/2)
		case low >= j.high:
			j.verdict.Margin = min(j.verdict.Margin, signal.Hertz(low-j.high)/2)
		default:
			byReason[row.barReason()] = append(byReason[row.barReason()], row)
		}
	}
	for _, reason := range []Reason{StationBarred, NotAmateur, OtherService} {
		if rows := byReason[reason]; len(rows) > 0 {
			j.object(Objection{Reason: reason, Rows: rows})
		}
	}
}

// barredBy tells whether a row that says no speaks of the query at all.
func (j *judge) barredBy(row *Row) bool {
	kind := j.q.Emission.Kind
	return row.concerns(j.q.Class) && row.stands(j.q.Station) && (kind == 0 || row.Emissions&kind != 0)
}

func (r *Row) barReason() Reason {
	switch {
	case r.Service != amateur:
		return OtherService
	case r.Station != Member:
		return StationBarred
	default:
		return NotAmateur
	}
}
