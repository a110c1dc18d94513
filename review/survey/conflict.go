package survey

import (
	"fmt"

	"passband.example/plandiff/plan"
	"passband.example/review/rf"
)

// A Conflict is two stations that stand nearer to each other than a table asks, or nearly so.
type Conflict struct {
	rf.Conflict
	Ours  Party // a repeater of the plan
	Other Party
	a, b  *rf.Station

	// Remarks are what a coordinator remarked about the pair, the latest first. Where there is one, the
	// pair was looked at by somebody who decides, and it is no more than a note.
	Remarks []*plan.Coordination
}

// Text says what the conflict is: both parties, what meets, both distances.
func (c *Conflict) Text() string {
	return fmt.Sprintf("%s; they are %s apart, bearing %.0f degrees, and %s asks %s", c.meeting(), Apart(c.Distance), c.Bearing, c.rowName(), Km(c.Row.RequiredM))
}

// meeting says which frequencies meet.
func (c *Conflict) meeting() string {
	a, b, what := c.a.Output, c.b.Output, "output"
	switch {
	case c.Kind == rf.Crossed && c.Outgoing:
		return crossed(c.Ours.Name, c.Other.Name, c.a.Output.String(), c.b.Input.String())
	case c.Kind == rf.Crossed:
		return crossed(c.Other.Name, c.Ours.Name, c.b.Output.String(), c.a.Input.String())
	case c.Inputs:
		a, b, what = c.a.Input, c.b.Input, "input"
	}
	if a == b {
		return fmt.Sprintf("%s and %s have the same %s, %s MHz%s", c.Ours.Name, c.Other.Name, what, a, c.keys())
	}
	text := fmt.Sprintf("%s and %s have %ss %s kHz from each other, %s and %s MHz", c.Ours.Name, c.Other.Name, what, c.Spacing.KHz(), a, b)
	if c.Kind == rf.CoChannel {
		text += ", which the table counts as one channel" + c.keys()
	}
	return text
}

func crossed(sender, hearer, output, input string) string {
	if output == input {
		return fmt.Sprintf("the output of %s, %s MHz, is the input of %s", sender, output, hearer)
	}
	return fmt.Sprintf("the output of %s, %s MHz, falls on the input of %s, %s MHz", sender, output, hearer, input)
}

// keys says how the tones or color codes compare, where that says something.
func (c *Conflict) keys() string {
	if c.Access == rf.Uncompared {
		return ""
	}
	return ", with " + c.Access.String()
}

func (c *Conflict) rowName() string {
	if c.Row.Region == "any" {
		return "the row used"
	}
	return "the row of " + c.Row.Region
}

// Apart writes a distance in kilometers and miles, as an interval where a locator leaves room.
func Apart(d rf.Interval) string {
	if d.Certain() {
		return Km(d.Least)
	}
	return fmt.Sprintf("%.0f to %.0f km (%.0f to %.0f mi)", d.Least/1000, d.Most/1000, d.Least/mileM, d.Most/mileM)
}

// mileM is the international mile, in meters.
const mileM = 1609.344

// Km writes meters in kilometers and miles.
func Km(meters float64) string {
	if meters < 9_950 {
		return fmt.Sprintf("%.1f km (%.1f mi)", meters/1000, meters/mileM)
	}
	return fmt.Sprintf("%.0f km (%.0f mi)", meters/1000, meters/mileM)
}
