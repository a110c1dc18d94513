package rules

import (
	"fmt"
	"math"
	"strconv"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/signal"
	"passband.example/review"
	"passband.example/review/rf"
)

// An antenna is a repeater with what exposure arithmetic needs of it, and the result.
type antenna struct {
	repeater *plan.Repeater
	watts    float64 // ERP
	from     string  // what the plan says of it: 100 W ERP
	duty     string  // all the time
	exposure rf.Exposure

	// Of all antennas within a mile together, as if they were one: their shares of the limit add up.
	publicM, exemptM float64
	with             int // how many others those are
}

// antennasOf gives the antennas of a plan for which there are figures and a rule, made once.
func antennasOf(p *review.Pass) []*antenna {
	type key struct{}
	return review.Once(p, key{}, func() []*antenna {
		rule, known := exposureRule(p.Plan)
		if !known {
			return nil
		}
		var all []*antenna
		of := make(map[*plan.Repeater]*antenna)
		for _, r := range p.Plan.Repeaters.Sorted() {
			if a := antennaOf(rule, r); a != nil {
				all, of[r] = append(all, a), a
			}
		}
		for _, site := range surveyOf(p).Sites {
			var here []*antenna
			for _, m := range site.Members {
				if a := of[m.Repeater]; a != nil {
					here = append(here, a)
				}
			}
			together(here)
		}
		return all
	})
}

// exposureRule gives the exposure rule of the plan's country, if one is known.
func exposureRule(p *plan.Plan) (string, bool) {
	for _, rule := range rf.ExposureRules() {
		if rule == p.Header.Region.Or("") {
			return rule, true
		}
	}
	return "", false
}

// antennaOf does the arithmetic for one repeater; nil where the plan has no figures, or the rule none
// for the frequency.
func antennaOf(rule string, r *plan.Repeater) *antenna {
	a := &antenna{repeater: r, duty: "counted as sending all the time"}
	share := 1.0
	if r.Site.Duty.IsSet() {
		share, a.duty = float64(r.Site.Duty.V)/100, fmt.Sprintf("sending %d %% of the time", r.Site.Duty.V)
	}
	var ok bool
	if a.watts, a.from, ok = radiated(r); !ok || !r.Output.IsSet() {
		return nil
	}
	exposure, err := rf.Expose(rule, rf.Transmission{Frequency: r.Output.V, ERPWatts: a.watts, Duty: share})
	if err != nil {
		return nil // see radio-not-checked
	}
	a.exposure, a.publicM, a.exemptM = exposure, exposure.PublicM, exposure.ExemptM
	return a
}

// radiated gives the ERP of a repeater, as stated or from the figures that make it.
func radiated(r *plan.Repeater) (watts float64, from string, ok bool) {
	s := r.Site
	if s.ERP.IsSet() {
		return s.ERP.V.Watts(), s.ERP.V.String() + " ERP", true
	}
	if watts, ok = chain(r); !ok {
		return 0, "", false
	}
	return watts, fmt.Sprintf("%s W ERP, from %s, %s of gain and %s of loss", digits(watts), s.Output.V, s.Gain.V, s.Loss.V), true
}

// digits writes watts to three figures, without an exponent.
func digits(watts float64) string {
	if watts >= 100 {
		scale := math.Pow(10, math.Floor(math.Log10(watts))-2)
		watts = math.Round(watts/scale) * scale
		return strconv.FormatFloat(watts, 'f', 0, 64)
	}
	return fmt.Sprintf("%.3g", watts)
}

// chain gives the ERP that follows from power, gain and loss, where the plan has all three.
func chain(r *plan.Repeater) (watts float64, ok bool) {
	s := r.Site
	if !s.Output.IsSet() || !s.Gain.IsSet() || !s.Loss.IsSet() {
		return 0, false
	}
	return rf.RadiatedWatts(s.Output.V, s.Gain.V.Float(), s.Loss.V.Float()), true
}

// together adds the shares of the antennas of a site up.
func together(here []*antenna) {
	var public, exempt []float64
	for _, a := range here {
		public, exempt = append(public, a.exposure.PublicM), append(exempt, a.exposure.ExemptM)
	}
	for _, a := range here {
		a.publicM, a.exemptM, a.with = rf.Together(public...), rf.Together(exempt...), len(here)-1
	}
}

// String says what the arithmetic gives.
func (a *antenna) String() string {
	text := fmt.Sprintf("%s on %s MHz, %s, %s: the limit for the public is met %s from the antenna", a.repeater.Thing(), a.repeater.Output.V, a.from, a.duty, metersUp(a.exposure.PublicM))
	if a.exposure.OccupationalM > 0 {
		text += fmt.Sprintf(", the occupational one %s", metersUp(a.exposure.OccupationalM))
	}
	if a.exposure.ExemptM > 0 {
		text += fmt.Sprintf(", and an evaluation is asked for where anybody comes nearer than %s", metersUp(a.exposure.ExemptM))
	}
	if a.with > 0 {
		text += fmt.Sprintf("; with %s within a mile, as if at one antenna: %s and %s", counted(a.with, "other", "others"), metersUp(a.publicM), metersUp(a.exemptM))
	}
	return text
}

// metersUp writes a distance rounded up, so that it is never less than what was reckoned.
func metersUp(m float64) string { return fmt.Sprintf("%.1f m", math.Ceil(m*10)/10) }

// exposureSource names the limits.
func (a *antenna) source() string {
	return fmt.Sprintf("%s [%s]; %.3g W/m2 for the public, averaged over %.0f min; typical ground reflection (OET Bulletin 65)",
		a.exposure.Public.Source, a.exposure.Public.Confidence, a.exposure.Public.WattsPerM2, a.exposure.Public.AverageMin)
}

// value is what makes a finding about an antenna the same one.
func (a *antenna) value() string {
	return fmt.Sprintf("%s MHz %.4g W %s", a.repeater.Output.V, a.watts, a.duty)
}

// nearest gives how near people come to an antenna, where the plan says so.
func (a *antenna) nearest() (signal.Meters, bool) {
	return a.repeater.Site.People.V, a.repeater.Site.People.IsSet()
}

// reportNear reports the antennas whose people_m keep wants.
func reportNear(p *review.Pass, keep func(a *antenna, people float64) bool, finding review.Finding, format string) {
	for _, a := range antennasOf(p) {
		people, said := a.nearest()
		if !said || !keep(a, people.Float()) {
			continue
		}
		f := finding
		f.At, f.About, f.Values = a.repeater.Site.People.At, []plan.Thing{a.repeater.Thing()}, []string{a.value(), people.String()}
		f.What = fmt.Sprintf(format, people, a)
		f.Source = a.source()
		p.Report(f)
	}
}
