package rules

import (
	_ "embed"
	"fmt"

	"passband.example/review"
	"passband.example/review/license"
)

//go:embed off_band.md
var offBandDoc string

// OffBand reports a transmission that the license tables of the region do not allow.
var OffBand = &review.Rule{
	ID:       "off-band",
	Severity: review.Block, // it may disturb others, and is unlawful
	Edition:  2026,
	Doc:      offBandDoc,
	Run:      offBand,
}

func offBand(p *review.Pass) {
	l := lawOf(p.Plan)
	if l == nil {
		return
	}
	outputs := make(map[sending]judgment)
	var order []sending
	for _, t := range repeaterTransmissions(p.Plan) {
		if t.station != license.RepeaterOutput {
			continue
		}
		if j := l.judge(t); j.outcome == license.Denied {
			key := sending{t.by, t.on, t.emission}
			outputs[key], order = j, append(order, key)
		}
	}
	for _, t := range memberTransmissions(p.Expansion) {
		j := l.judge(t)
		o, denied := j.first(license.Denied, barsAnybody)
		if !denied {
			continue
		}
		f := j.finding(o)
		if both, ok := outputs[outputOf(t)]; ok {
			delete(outputs, outputOf(t)) // one cause
			f = byOutput(f, j, both)
		}
		p.Report(f)
	}
	for _, key := range order {
		j := outputs[key]
		if o, denied := j.first(license.Denied, barsAnybody); denied {
			p.Report(j.finding(o))
		}
	}
}

// outputOf gives the sending of a repeater's output that makes a member's by its
// split: where both are wrong, the output is the cause of both.
func outputOf(t *transmission) sending {
	r := t.repeater
	if r == nil || r.Input.Written() || !r.Output.IsSet() {
		return sending{}
	}
	return sending{t.by, r.Output.V, t.emission}
}

// byOutput turns a finding about an input into one about the output that it follows from.
func byOutput(f review.Finding, input, output judgment) review.Finding {
	split := input.on - output.on
	f.What += fmt.Sprintf("; its own output %s MHz is not allowed either", output.on)
	f.Also = append(f.Also, review.Related{At: f.At, Text: "the split, which leads from the output to the input"})
	f.At = output.at
	f.Values = append(f.Values, output.on.String())
	f.Fix = coordinated // a fix of the input alone would not mend it
	if meant := output.meant(output.on); meant != 0 && input.law.ask(input.transmission, meant+split).Outcome == license.Allowed {
		f.Fix = fmt.Sprintf("did you mean output: %s?", meant)
	}
	return f
}
