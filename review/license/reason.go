package license

import "passband.example/plandiff/signal"

// notCovered finds why step 1 failed for a kind of emission, by taking what the rows
// ask for one by one: a band at all, the class, the emission, the width.
func (j *judge) notCovered(kind Kind) Objection {
	anybody := j.coverage(filter{})
	if s, whole := anybody.around(j.reach); s == nil {
		return Objection{Reason: OutsideBands, Rows: anybody.beside(j.reach)}
	} else if !whole {
		return j.overEdge(s)
	}
	class := j.coverage(filter{class: j.q.Class})
	s, whole := class.around(j.reach)
	if !whole {
		return j.notOfClass(class, s)
	}
	able := j.coverage(filter{class: j.q.Class, kind: kind})
	if a, whole := able.around(j.reach); !whole {
		o := j.beyond(EmissionBarred, a)
		for _, row := range s.within(j.reach) {
			if row.Emissions&kind == 0 {
				o.Rows = append(o.Rows, row)
			}
		}
		return o
	}
	a, _ := able.around(j.reach)
	narrow, _ := j.coverage(j.filter(kind)).around(j.reach)
	o := j.beyond(TooWide, narrow)
	for _, row := range a.within(j.reach) {
		if row.MaxWidth != 0 && row.MaxWidth < j.q.Emission.NecessaryBandwidth {
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
		return Objection{Reason: OutsideBands, Rows: class.beside(j.reach)}
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
	return o
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
		if !containsRow(rows, row) {
			rows = append(rows, row)
		}
	}
	return rows
}

func containsRow(rows []*Row, row *Row) bool {
	for _, r := range rows {
		if r == row {
			return true
		}
	}
	return false
}
