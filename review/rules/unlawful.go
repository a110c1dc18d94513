package rules

import (
	"fmt"

	"passband.example/review"
	"passband.example/review/license"
)

// unlawful reports what is denied for one cause: what members send, and what repeaters send
// themselves. An output that takes its input along is one fault with it, of the output's cause.
func unlawful(p *review.Pass, c cause) {
	l := lawOf(p)
	if l == nil {
		return
	}
	outputs, order := l.deniedOutputs()
	for _, j := range l.members {
		if j.cause == notDenied {
			continue
		}
		output := outputOf(j.transmission)
		both, ok := outputs[output]
		delete(outputs, output) // one fault
		switch {
		case !ok && j.cause == c:
			p.Report(j.unlawful())
		case ok && both.cause == c:
			p.Report(byOutput(j, both))
		}
	}
	for _, key := range order {
		if j, left := outputs[key]; left && j.cause == c {
			p.Report(j.unlawful())
		}
	}
}

// deniedOutputs gives the outputs of repeaters that are denied, and their order.
func (l *law) deniedOutputs() (map[sending]judgment, []sending) {
	outputs := make(map[sending]judgment)
	var order []sending
	for _, j := range l.repeaters {
		if j.station == license.RepeaterOutput && j.cause != notDenied {
			key := sending{j.by, j.on, j.emission}
			outputs[key], order = j, append(order, key)
		}
	}
	return outputs, order
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

// unlawful is the finding for a transmission that is denied.
func (j judgment) unlawful() review.Finding {
	f := j.finding(j.denied)
	if j.cause == otherService && len(j.services) > 0 {
		f.What = fmt.Sprintf("%s: %s", j.transmission, j.onService())
		f.Source = j.serviceSource()
	}
	if j.cause == ofPlan {
		f.Source += "; " + j.law.prescribed(j.transmission)[0].Cite()
	}
	return f
}

// byOutput turns a finding about an input into one about the output that it follows from.
func byOutput(input, output judgment) review.Finding {
	f := input.unlawful()
	if input.cause != output.cause {
		f = output.unlawful()
		f.Values[0] = input.on.String()
		f.What += fmt.Sprintf("; its input %s MHz, which members send on, is not allowed either", input.on)
	} else {
		f.What += fmt.Sprintf("; its own output %s MHz is not allowed either", output.on)
	}
	split := input.on - output.on
	f.Also = append(f.Also, review.Related{At: input.at, Text: "the split, which leads from the output to the input"})
	f.At = output.at
	f.Values = append(f.Values, output.on.String())
	f.Fix, f.Mend = coordinated, nil // a fix of the input alone would not mend it
	if meant := output.meant(output.on); meant != 0 && input.allowedOn(meant+split) {
		f.Fix = fmt.Sprintf("did you mean output: %s?", meant)
	}
	return f
}
