package rules

import (
	"fmt"
	"math"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/signal"
	"passband.example/review"
	"passband.example/review/license"
)

// A powered tells one transmission with a power from another.
type powered struct {
	sending
	output signal.Power
}

// poweredTransmissions gives what is sent with a power that the plan states in watts: what
// the transmitters of members and repeaters give, and what repeaters radiate. They stand
// where the power does. It is worked out once for all rules.
func poweredTransmissions(p *review.Pass) []*transmission {
	type key struct{}
	return review.Once(p, key{}, func() []*transmission { return withPower(p.Expansion) })
}

func withPower(x *plan.Expansion) []*transmission {
	var all []*transmission
	known := make(map[powered]*transmission)
	for _, c := range x.Channels {
		if c.Power == "" {
			continue
		}
		watts, err := signal.ParseWatts(c.Power)
		if c.Transmit == 0 || err != nil || c.Spec != nil && c.Spec.Transmit.Bad {
			continue
		}
		t, ok := ofMember(x.Plan, c)
		if !ok {
			continue
		}
		t.output = watts
		switch {
		case c.Spec != nil && c.Spec.Extra.Power.IsSet():
			t.by, t.at = c.Spec.Thing(), c.Spec.Extra.Power.At
		case c.Repeater != nil && c.Repeater.Extra.Power.IsSet():
			t.at = c.Repeater.Extra.Power.At
		}
		key := powered{sending{t.by, t.on, t.emission}, watts}
		if known[key] == nil {
			known[key] = &t
			all = append(all, &t)
		}
		known[key].channels++
	}
	for _, t := range repeaterTransmissions(x.Plan) {
		site := t.repeater.Site
		if t.station != license.RepeaterOutput || !site.ERP.IsSet() && !site.Output.IsSet() {
			continue
		}
		t.output, t.at = site.Output.Or(0), site.Output.At
		if watts, _, ok := radiated(t.repeater); ok {
			t.erp = signal.Power(math.Round(watts * 1000))
		}
		all = append(all, t)
	}
	return all
}

// compared gives the power that a limit is held against, in words, and where it stands: what
// a repeater radiates where the limit is one of that, or what the transmitter gives.
func (j judgment) compared(row *license.Row) (watts signal.Power, words string, at plan.Place) {
	radiates := row.PowerKind == license.ERP || row.PowerKind == license.EIRP || j.output <= row.MaxPower
	if j.erp == 0 || !radiates {
		return j.output, j.output.String() + " from the transmitter", j.at
	}
	_, words, _ = radiated(j.repeater)
	if site := j.repeater.Site; site.ERP.IsSet() {
		return j.erp, words, site.ERP.At
	}
	return j.erp, words, j.at
}

// overLimits reports powers above a limit, where that ends so: denied, where like is
// compared with like, or in a doubt.
func overLimits(p *review.Pass, outcome license.Outcome) {
	l := lawOf(p)
	if l == nil {
		return
	}
	told := make(map[powered]bool) // in another mode
	for _, t := range poweredTransmissions(p) {
		j := l.judge(t)
		key := powered{sending{by: t.by, on: t.on}, t.output}
		if j.cause != notDenied || told[key] || outcome == license.Doubtful && j.outcome == license.Denied {
			continue
		}
		if o, over := j.first(outcome, limitsPower); over {
			told[key] = true
			p.Report(j.overLimit(o))
		}
	}
}

// overLimit is the finding for a power above the limit of an objection.
func (j judgment) overLimit(o license.Objection) review.Finding {
	row := o.Rows[0]
	watts, has, at := j.compared(row)
	f := review.Finding{
		At: at, About: []plan.Thing{j.by}, Values: []string{j.on.String(), watts.String()},
		What:   fmt.Sprintf("%s, with %s: the limit is %s", j.transmission, has, row.Limit()),
		Why:    "more power than is allowed disturbs others farther away; " + answers,
		Fix:    "write a power within the limit, and use no more than the contact needs",
		Source: j.source(o),
	}
	if o.Place != "" {
		f.What += " " + o.Place
	}
	if o.Outcome == license.Doubtful {
		f.What += ", and " + unlike(o, row)
		f.Why = "what the plan states and what the limit measures are not the same, so a person must tell; " + answers
		f.Fix = "reckon with your antenna, or look the rule up"
	}
	return f
}

// unlike says why a power can't be compared with a limit.
func unlike(o license.Objection, row *license.Row) string {
	switch {
	case row.Confidence == license.Memory:
		return "that limit rests on memory"
	case o.Place != "":
		return "whether the station is there can't be told"
	case row.PowerKind == license.ERP, row.PowerKind == license.EIRP:
		return "what is radiated depends on the antenna"
	case row.PowerKind == license.Mean:
		return "the mean of what is sent in time slots is less"
	}
	return "the text that was read does not say what it measures"
}
