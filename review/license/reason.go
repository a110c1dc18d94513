package license

import (
	"slices"

	"passband.example/plandiff/signal"
)

// notCovered finds why step 1 failed for a kind of emission, by taking what the rows
// ask for one by one: a band at all, the class, the emission, the width.
func (j *judge) notCovered(kind Kind) Objection {
	anybody := j.coverage(filter{})
	if s, whole := anybody.around(j.reach); s == nil {
		return Objection{Reason: OutsideBands, Rows: anybody.beside(j.reach, j.better)}
	} else if !whole {
		return j.overEdge(s)
	}
	class := j.coverage(filter{class: j.q.Class})
	s, whole := class.around(j.reach)
	if !whole {
		return j.notOfClass(class, s)
	}
	able, whole := j.coverage(filter{class: j.q.Class, kind: kind}).around(j.reach)
	if !whole {
		return j.notAllowed(kind, s, able)
	}
	narrow, _ := j.coverage(j.filter(kind)).around(j.reach)
	o := j.beyond(TooWide, narrow)
	for _, row := range able.within(j.reach) {
		if row.MaxWidth != 0 && row.MaxWidth < j.q.Emission.NecessaryBandwidth {
			o.Rows = append(o.Rows, row)
		}
	}
	return o
}

// notAllowed explains an emission that the rows of s, which the class has, don't allow outside
// of the span able.
func (j *judge) notAllowed(kind Kind, s, able *span) Objection {
	o := j.beyond(EmissionBarred, able)
	for _, row := range s.within(j.outside(able)) {
		if row.Emissions&kind == 0 {
			o.Rows = append(o.Rows, row)
		}
	}
	return o
}

// notOfClass explains a frequency that the class does not have and somebody else does:
// by who may, or where nobody may do this there, by the band of the class.
func (j *judge) notOfClass(class *coverage, s *span) Objection {
	o := j.beyond(ClassBarred, s)
	for _, other := range j.Classes() {
		as := *j
		as.q.Class = other
		if other != j.q.Class && as.covered(j.reach) {
			o.Classes = append(o.Classes, other)
			for kind := range j.q.Emission.Kind.each() {
				entitling, _ := j.coverage(as.filter(kind)).around(j.reach)
				o.Rows = appendNew(o.Rows, entitling.within(j.reach)...)
			}
		}
	}
	switch {
	case len(o.Classes) > 0:
		return o
	case s != nil:
		return j.overEdge(s)
	default:
		return Objection{Reason: OutsideBands, Rows: class.beside(j.reach, j.better)}
	}
}

// covered tells whether step 1 is met at another place of the band.
func (j *judge) covered(r reach) bool {
	for kind := range j.q.Emission.Kind.each() {
		if _, whole := j.coverage(j.filter(kind)).around(r); !whole {
			return false
		}
	}
	return true
}

func (j *judge) overEdge(s *span) Objection {
	o := j.beyond(OverEdge, s)
	for _, row := range s.within(j.reach) {
		if low, high := halves(2*row.Low), halves(2*row.High); o.Below > 0 && low == s.low || o.Above > 0 && high == s.high {
			o.Rows = append(o.Rows, row)
		}
	}
	o.Rows = j.evidence(o.Rows)
	return o
}

// evidence narrows rows to those that speak of the class and the emission, if there are such
// and they do not rest on memory alone.
func (j *judge) evidence(rows []*Row) []*Row {
	var own []*Row
	for _, row := range rows {
		if j.speaks(row) {
			own = append(own, row)
		}
	}
	if len(own) == 0 || allFromMemory(own) {
		return rows
	}
	return own
}

func (j *judge) speaks(row *Row) bool {
	return row.concerns(j.q.Class) && row.Emissions&j.q.Emission.Kind == j.q.Emission.Kind
}

// better tells whether a is the better row to name: surer, or else of the class and emission.
func (j *judge) better(a, b *Row) bool {
	if (a.Confidence == Memory) != (b.Confidence == Memory) {
		return b.Confidence == Memory
	}
	return j.speaks(a) && !j.speaks(b)
}

// outside returns the part of the emission that lies outside of s, or all of it.
func (j *judge) outside(s *span) reach {
	switch {
	case s == nil, s.low > j.low && s.high < j.high:
		return j.reach
	case s.low > j.low:
		return reach{j.low, s.low}
	default:
		return reach{s.high, j.high}
	}
}

// beyond returns an objection that says how far the emission reaches out of a span.
func (j *judge) beyond(reason Reason, s *span) Objection {
	o := Objection{Reason: reason}
	if s != nil {
		o.Below = signal.Hertz(max(0, s.low-j.low)+1) / 2
		o.Above = signal.Hertz(max(0, j.high-s.high)+1) / 2
	}
	return o
}

func appendNew(rows []*Row, more ...*Row) []*Row {
	for _, row := range more {
		if !slices.Contains(rows, row) {
			rows = append(rows, row)
		}
	}
	return rows
}
