package rules

import (
	"fmt"
	"strings"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/signal"
	"passband.example/review"
	"passband.example/review/license"
)

// answers closes every verdict: the last word is not a program's.
const answers = "the license holder answers for every transmission"

// finding says that a judgment ended in an objection.
func (j judgment) finding(o license.Objection) review.Finding {
	return review.Finding{
		At: j.at, About: []plan.Thing{j.by}, Values: []string{j.on.String(), j.emission.Designator},
		What:   fmt.Sprintf("%s: %s", j.transmission, j.says(o)),
		Why:    "it may disturb those whose frequency it is, and it is unlawful; " + answers,
		Fix:    j.mend(),
		Source: j.source(o),
		Mend:   j.turned(),
	}
}

// says gives an objection in words that follow the transmission and a colon.
func (j judgment) says(o license.Objection) string {
	switch o.Reason {
	case license.OutsideBands:
		return "outside every amateur band of " + j.law.region()
	case license.OverEdge:
		return over(o)
	case license.ClassBarred:
		return j.whoMay(o)
	case license.EmissionBarred:
		return "this kind of transmission is not allowed there" + onlyKinds(o)
	case license.TooWide:
		return "wider than is allowed there" + widest(o)
	case license.NeedsPermit:
		return "only with a permission of one's own, or only in some countries"
	case license.StationBarred:
		return "closed to repeaters" + ownRow(o)
	case license.OtherService:
		return "it belongs to another service" + serviceOf(o)
	case license.NotAmateur:
		return "closed by a rule of its own" + ownRow(o) + conditionOf(o)
	case license.PlaceBarred:
		return "not allowed " + o.Place
	}
	return o.Reason.String()
}

// whoMay names the classes that may, or says that nobody of the plan's class may.
func (j judgment) whoMay(o license.Objection) string {
	var may []string
	for _, class := range o.Classes {
		may = append(may, j.law.tables.ClassLabel(class))
	}
	return fmt.Sprintf("a %s may not, only %s", j.law.tables.ClassLabel(j.law.class), several(may))
}

// onlyKinds says what the rows allow in place of a transmission that they do not.
func onlyKinds(o license.Objection) string {
	var kinds license.Kind
	for _, r := range o.Rows {
		kinds |= r.Emissions
	}
	if kinds == 0 {
		return ""
	}
	return ", only " + strings.ReplaceAll(kinds.String(), "|", ", ")
}

// widest says how wide the widest of the rows lets a transmission be.
func widest(o license.Objection) string {
	var most signal.Hertz
	for _, r := range o.Rows {
		most = max(most, r.MaxWidth)
	}
	if most == 0 {
		return ""
	}
	return fmt.Sprintf(", at most %s kHz", most.KHz())
}

// ownRow marks an objection that is the club's own.
func ownRow(o license.Objection) string {
	if len(o.Rows) > 0 && o.Rows[0].Jurisdiction == license.Club {
		return " that is the club's own"
	}
	return ""
}

// over says how far a transmission reaches out, and on which side.
func over(o license.Objection) string {
	if o.Above >= o.Below {
		return fmt.Sprintf("it reaches %s kHz above the edge of the band", o.Above.KHz())
	}
	return fmt.Sprintf("it reaches %s kHz below the edge of the band", o.Below.KHz())
}

func serviceOf(o license.Objection) string {
	if len(o.Rows) == 0 || o.Rows[0].Service == "" {
		return ""
	}
	return ", " + o.Rows[0].Service
}

func conditionOf(o license.Objection) string {
	if len(o.Rows) == 0 || o.Rows[0].Condition == "" {
		return ""
	}
	return " (" + o.Rows[0].Condition + ")"
}

// source says what an objection rests on: rows of the tables, their section and
// edition, and how sure they are.
func (j judgment) source(o license.Objection) string {
	const most = 2
	var rows []string
	for _, r := range o.Rows[:min(most, len(o.Rows))] {
		rows = append(rows, rowSource(r))
	}
	if len(rows) == 0 {
		rows = []string{"the license tables of " + j.law.region()}
	}
	if fallback := j.law.tables.Fallback(); fallback != "" && j.verdict.Fallback {
		rows = append(rows, fallback)
	}
	return strings.Join(rows, "; ")
}

// rowSource cites a row, says how sure it is, and marks one that is the club's own claim.
func rowSource(r *license.Row) string {
	cite := fmt.Sprintf("%s, %s line %d (%s)", r.Cite(), r.File, r.Line, r.Confidence)
	if r.Jurisdiction == license.Club {
		return "the club's own claim: " + cite
	}
	return cite
}

// nearby is how far a frequency may be off by a slip of the channel step or the width;
// one that is farther away is no help.
const nearby signal.Hertz = 100_000

// tens is how far a slip in the second digit of a VHF or UHF frequency leads.
const tens signal.Hertz = 10_000_000

// coordinated is the fix where none can be told for a repeater.
const coordinated = "look up the frequency that was coordinated"

// mend says what to do about a frequency that is not allowed: the split with the other
// sign, the nearest frequency, or the one that was likely meant.
func (j judgment) mend() string {
	fit, split := j.usualSplit()
	if fit == license.SplitReversed {
		return split
	}
	if n := j.verdict.Nearest; n != 0 && max(n-j.on, j.on-n) <= nearby {
		fix := fmt.Sprintf("the nearest that is allowed is %s MHz", n)
		if j.repeater != nil {
			fix += "; ask the coordinator before you move the repeater"
		}
		return fix
	}
	if split != "" {
		return split
	}
	if meant := j.meant(j.on); meant != 0 {
		return fmt.Sprintf("did you mean %s?", meant)
	}
	if j.repeater != nil {
		return coordinated
	}
	return "look the frequency up; for a channel to listen on, write receive: in place of simplex:"
}

// meant gives the one frequency that is ten megahertz off and allowed, or zero.
func (j judgment) meant(on signal.Hertz) signal.Hertz {
	var found signal.Hertz
	for _, f := range []signal.Hertz{on - tens, on + tens} {
		if j.allowedOn(f) {
			if found != 0 {
				return 0
			}
			found = f
		}
	}
	return found
}
