package rules

import (
	"slices"

	"passband.example/review/license"
)

// A judgment is a transmission with what speaks against it.
type judgment struct {
	*transmission
	law        *law
	verdict    license.Verdict
	objections []license.Objection   // those that are about this transmission
	outcome    license.Outcome       // the worst of them
	cause      cause                 // why it is denied
	denied     license.Objection     // the objection that says so
	services   []*license.ServiceRow // whose channels it is on, the nearest first
}

// A cause is why a transmission is denied wherever its station stands and whatever kind of
// station it is. Each transmission has one, and each cause has a rule of its own.
type cause uint8

const (
	notDenied    cause = iota
	offTheBand         // off-band
	otherService       // other-service
	ofClass            // class-not-entitled
	ofEmission         // emission-not-allowed
	ofPlan             // band-plan-law
)

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
		if c := j.causeOf(o); c != notDenied && (j.cause == notDenied || c == otherService && !j.overEdge()) {
			j.cause, j.denied = c, o
		} else if c == offTheBand && j.cause == offTheBand {
			j.denied.Rows = append(slices.Clone(o.Rows), j.denied.Rows...) // a row that closes the range says more
		}
	}
	if t.station != license.RepeaterInput && j.cause <= otherService && !j.overEdge() {
		j.onChannels()
	}
	return j
}

// lawful tells whether nothing denies a transmission; one on the input of a repeater must
// be lawful as that too.
func (j judgment) lawful() bool {
	if j.outcome == license.Denied {
		return false
	}
	if j.repeater == nil || j.station != license.Member {
		return true
	}
	input := *j.transmission
	input.station = license.RepeaterInput
	return j.law.judge(&input).outcome != license.Denied
}

// overEdge tells whether a transmission is in a band and reaches out of it: that it reaches
// into what is another's there is no second fault.
func (j judgment) overEdge() bool {
	return j.cause == offTheBand && j.denied.Reason == license.OverEdge
}

// causeOf gives the cause that an objection is; none where it does not deny, or depends on
// the kind of station, the place or the power.
func (j judgment) causeOf(o license.Objection) cause {
	if o.Outcome != license.Denied {
		return notDenied
	}
	switch o.Reason {
	case license.OutsideBands, license.OverEdge:
		return offTheBand
	case license.OtherService:
		return otherService
	case license.ClassBarred:
		return ofClass
	case license.EmissionBarred, license.TooWide:
		return ofEmission
	case license.NotAmateur:
		return j.barredBy(o)
	}
	return notDenied
}

// barredBy tells a range that is closed from one that is closed to this emission, by a
// band plan where that is law.
func (j judgment) barredBy(o license.Objection) cause {
	for _, row := range o.Rows {
		switch {
		case row.Emissions == license.Every:
			return offTheBand
		case len(j.law.prescribed(j.transmission)) > 0:
			return ofPlan
		}
	}
	return ofEmission
}

// onChannels looks for channels of other services. A transmission on one is never lawful,
// whatever a club's own rows say; rows that rest on memory need another that denies.
func (j *judgment) onChannels() {
	rows := j.law.tables.Services(j.on, j.emission.NecessaryBandwidth)
	sure := j.cause != notDenied
	for _, row := range rows {
		if row.Force == license.Law {
			j.services = append(j.services, row)
			sure = sure || row.Confidence != license.Memory
		}
	}
	if len(j.services) > 0 && sure {
		j.cause, j.outcome = otherService, license.Denied
	}
	slices.SortStableFunc(j.services, func(a, b *license.ServiceRow) int { return int(j.away(a) - j.away(b)) })
}

// prescribed gives the segments of a band plan that is law which a transmission touches.
func (l *law) prescribed(t *transmission) []*license.Segment {
	return slices.DeleteFunc(l.tables.SegmentsWithin(t.on, t.emission.NecessaryBandwidth), func(s *license.Segment) bool { return s.Force != license.Law })
}

// first gives the first objection of this outcome that keep wants.
func (j judgment) first(outcome license.Outcome, keep func(license.Reason) bool) (license.Objection, bool) {
	for _, o := range j.objections {
		if o.Outcome == outcome && keep(o.Reason) {
			return o, true
		}
	}
	return license.Objection{}, false
}

func barsStation(r license.Reason) bool { return r == license.StationBarred }

func barsPlace(r license.Reason) bool { return r == license.PlaceBarred }

func limitsPower(r license.Reason) bool { return r == license.PowerOver || r == license.PlacePowerOver }
