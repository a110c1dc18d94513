package rules

import (
	"fmt"
	"slices"
	"strings"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/signal"
	"passband.example/review"
	"passband.example/review/license"
)

// ownSplit gives the split of a repeater as it is on the air, or false where its input is
// not known, or its split and its input say two things: see split-disagrees.
func ownSplit(r *plan.Repeater) (signal.Split, bool) {
	input := r.TransmitOn()
	if !r.Output.IsSet() || input == 0 || input == r.Output.V {
		return 0, false
	}
	split := signal.Split(input - r.Output.V)
	return split, !r.Split.IsSet() || r.Split.V == split
}

// writeSplits says what to write for one of these splits, in the key that the repeater has:
// a split beside an input would say two things.
func writeSplits(r *plan.Repeater, rows []*license.SplitRow) string {
	var splits, inputs []string
	for _, row := range rows {
		splits = append(splits, row.Split.String())
		inputs = append(inputs, (r.Output.V + signal.Hertz(row.Split)).String())
	}
	split, input := strings.Join(unique(splits), " or "), strings.Join(unique(inputs), " or ")
	if r.Input.Written() {
		return fmt.Sprintf("input: %s (split %s)", input, split)
	}
	return "split: " + split
}

// turnSign mends a split of the usual size and the other sign, where a row that was read
// says so. Rows of one size have one sign, so they leave one choice.
func turnSign(r *plan.Repeater, rows []*license.SplitRow) review.Mend {
	read := slices.IndexFunc(rows, func(row *license.SplitRow) bool { return row.Confidence != license.Memory })
	if read < 0 {
		return nil
	}
	return mend(r, "input", (r.Output.V + signal.Hertz(rows[read].Split)).String())
}

// fitInput compares the split that leads to the input of a repeater with what is usual for
// its output. The rows are those that lead where members may send.
func (j judgment) fitInput() (license.SplitFit, []*license.SplitRow) {
	if j.repeater == nil || j.station == license.RepeaterOutput {
		return license.SplitUnknown, nil
	}
	split, ok := ownSplit(j.repeater)
	if !ok {
		return license.SplitUnknown, nil
	}
	fit, rows := j.law.tables.FitSplit(j.repeater.Output.V, split)
	return fit, slices.DeleteFunc(slices.Clone(rows), func(row *license.SplitRow) bool {
		return !j.allowedOn(j.repeater.Output.V + signal.Hertz(row.Split))
	})
}

// usualSplit proposes a split that is usual for the output of a repeater, if there is one
// that leads where members may send. The fit says what is wrong with the one that it has.
func (j judgment) usualSplit() (license.SplitFit, string) {
	fit, rows := j.fitInput()
	if fit == license.SplitUsual || len(rows) == 0 {
		return license.SplitUnknown, ""
	}
	return fit, fmt.Sprintf("did you mean %s, which is usual there?", writeSplits(j.repeater, rows[:1]))
}

// turned mends an input that the law bars and that the other sign of its split would not
// have led to.
func (j judgment) turned() review.Mend {
	if fit, rows := j.fitInput(); fit == license.SplitReversed {
		return turnSign(j.repeater, rows)
	}
	return nil
}

// allowedOn tells whether a transmission would be allowed on another frequency; the input
// of a repeater must be so to its members.
func (j judgment) allowedOn(on signal.Hertz) bool {
	if on <= 0 {
		return false
	}
	there := *j.transmission
	there.on = on
	if there.station == license.RepeaterInput {
		there.station = license.Member
	}
	other := j.law.judge(&there)
	return other.outcome == license.Allowed && other.lawful()
}
