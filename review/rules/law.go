package rules

import (
	"passband.example/plandiff/plan"
	"passband.example/plandiff/signal"
	"passband.example/review/license"
)

// A law is what the transmissions of a plan are judged by.
type law struct {
	tables *license.Tables
	class  license.Class // of the members; empty: what all classes may together
	sites  map[plan.Thing]*license.Site
	judged map[license.Query]license.Verdict // channels share frequencies
}

// lawOf gives the law of the plan's region, or nil where no table can be told. A
// class that can't be told takes nothing away: see license-unknown.
func lawOf(p *plan.Plan) *law {
	if !p.Header.Region.IsSet() {
		return nil
	}
	tables, err := license.For(p.Header.Region.V)
	if err != nil {
		return nil // see region-unknown
	}
	l := &law{tables: tables, sites: make(map[plan.Thing]*license.Site), judged: make(map[license.Query]license.Verdict)}
	if class, err := tables.Class(p.Header.License.Or("")); err == nil {
		l.class = class
	}
	return l
}

// A judgment is a transmission with what speaks against it.
type judgment struct {
	*transmission
	law        *law
	verdict    license.Verdict
	objections []license.Objection // those that are about this transmission
	outcome    license.Outcome     // the worst of them
}

// judge judges a transmission. What a repeater's input is to its members is judged
// as theirs, so of the input itself only what bars repeaters counts.
func (l *law) judge(t *transmission) judgment {
	j := judgment{transmission: t, law: l, verdict: l.ask(t, t.on)}
	for _, o := range j.verdict.Objections {
		if t.station == license.RepeaterInput && o.Reason != license.StationBarred {
			continue
		}
		j.objections = append(j.objections, o)
		j.outcome = max(j.outcome, o.Outcome)
	}
	return j
}

// ask gives the verdict on a transmission, were it on this frequency. The class of
// the plan is that of its members; whose license the repeater is under is not known.
// Members are taken to be where their repeater is.
func (l *law) ask(t *transmission, on signal.Hertz) license.Verdict {
	q := license.Query{Center: on, Emission: t.emission, Station: t.station, Site: l.site(t.repeater)}
	if t.station == license.Member {
		q.Class = l.class
	}
	v, known := l.judged[q]
	if !known {
		v = l.tables.Transmit(q)
		l.judged[q] = v
	}
	return v
}

// site gives the same site for the same repeater each time, so that it can be a key.
func (l *law) site(r *plan.Repeater) *license.Site {
	if r == nil {
		return nil
	}
	s, known := l.sites[r.Thing()]
	if !known {
		s = siteOf(r)
		l.sites[r.Thing()] = s
	}
	return s
}

// first gives the first objection that keep wants, of this outcome.
func (j judgment) first(outcome license.Outcome, keep func(license.Reason) bool) (license.Objection, bool) {
	for _, o := range j.objections {
		if o.Outcome == outcome && keep(o.Reason) {
			return o, true
		}
	}
	return license.Objection{}, false
}

func barsStation(r license.Reason) bool { return r == license.StationBarred }

func barsAnybody(r license.Reason) bool { return r != license.StationBarred }
