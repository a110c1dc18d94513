package rules

import (
	"sync"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/signal"
	"passband.example/review"
	"passband.example/review/license"
)

// A law is what the transmissions of a plan are judged by.
type law struct {
	tables   *license.Tables // with the club's own rows
	national *license.Tables // without them
	class    license.Class   // of the members; empty: what all classes may together
	sites    map[plan.Thing]*license.Site
	judged   map[license.Query]license.Verdict // channels share frequencies
	mu       sync.Mutex                        // of sites and judged

	judgments          []judgment // of all that the plan puts on the air, members first
	members, repeaters []judgment // its two parts
}

// lawOf gives the law that the plan of a pass is judged by, or nil where no table can be told.
func lawOf(p *review.Pass) *law {
	type key struct{}
	return review.Once(p, key{}, func() *law {
		l := newLaw(p.Plan)
		if l == nil {
			return nil
		}
		members, repeaters := sentByMembers(p), repeaterTransmissions(p.Plan)
		l.judgments = make([]judgment, 0, len(members)+len(repeaters))
		for _, t := range append(members, repeaters...) {
			l.judgments = append(l.judgments, l.judge(t))
		}
		l.members, l.repeaters = l.judgments[:len(members)], l.judgments[len(members):]
		return l
	})
}

// newLaw gives the law of the plan's region. A class that can't be told takes nothing
// away: see license-unknown.
func newLaw(p *plan.Plan) *law {
	if !p.Header.Region.IsSet() {
		return nil
	}
	tables, err := license.For(p.Header.Region.V)
	if err != nil {
		return nil // see region-unknown
	}
	l := &law{national: tables, tables: withClub(tables, p.ClubRows()), sites: make(map[plan.Thing]*license.Site), judged: make(map[license.Query]license.Verdict)}
	if class, err := tables.Class(p.Header.License.Or("")); err == nil {
		l.class = class
	}
	return l
}

// query asks about a transmission, were it on this frequency. The class of the plan is
// that of its members; whose license the repeater is under is not known. Members are
// taken to be where their repeater is.
func (l *law) query(t *transmission, on signal.Hertz) license.Query {
	q := license.Query{Center: on, Emission: t.emission, Station: t.station, Output: t.output, ERP: t.erp, Site: l.site(t.repeater)}
	if t.station == license.Member {
		q.Class = l.class
	}
	return q
}

// ask gives the verdict on a transmission, were it on this frequency.
func (l *law) ask(t *transmission, on signal.Hertz) license.Verdict {
	q := l.query(t, on)
	l.mu.Lock()
	v, known := l.judged[q]
	l.mu.Unlock()
	if !known {
		v = l.tables.Transmit(q)
		l.mu.Lock()
		l.judged[q] = v
		l.mu.Unlock()
	}
	return v
}

// site gives the same site for the same repeater each time, so that it can be a key.
func (l *law) site(r *plan.Repeater) *license.Site {
	if r == nil {
		return nil
	}
	l.mu.Lock()
	defer l.mu.Unlock()
	s, known := l.sites[r.Thing()]
	if !known {
		s = siteOf(r)
		l.sites[r.Thing()] = s
	}
	return s
}

func (l *law) region() string { return l.tables.Name }
