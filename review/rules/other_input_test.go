package rules_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"passband.example/plandiff/signal"
	"passband.example/review/rules"
)

// TestWrongSign turns the usual sign of each band around, on outputs all over its block, and
// wants the right sign named first and nothing said of the output, whichever rule speaks.
// Sources of the signs: NCVEC T2A01 (2 m) and T2A03 (70 cm), the national band plan of the US
// as splits/us.csv cites it; of what is barred: 47 CFR 97.205(b), 97.301(a).
func TestWrongSign(t *testing.T) {
	speak := only(rules.RepeaterNotAllowed.ID, rules.OffBand.ID, rules.OtherService.ID, rules.SplitReversed.ID)
	for _, c := range []struct {
		name      string
		low, high signal.Hertz // outputs
		step      signal.Hertz
		right     signal.Split
		rules     string // one of these speaks
		fix       string // with the split, and with the input in its place
		mended    bool
		why       string
	}{
		{"2 m, lower half", 146_610_000, 146_970_000, 30_000, -600_000, "split-reversed", "write %s, unless the coordination says otherwise", true, "both lie where repeaters may"},
		{"2 m, upper half", 147_030_000, 147_390_000, 30_000, +600_000, "split-reversed", "write %s, unless the coordination says otherwise", true, "both lie where repeaters may"},
		{"2 m below 145.5", 145_210_000, 145_390_000, 20_000, -600_000, "repeater-not-allowed", "did you mean %s, which is usual there?", true, "145.5 to 146 is barred"},
		{"70 cm below 443", 442_000_000, 442_975_000, 25_000, +5_000_000, "repeater-not-allowed", "did you mean %s, which is usual there?", true, "435 to 438 is barred"},
		{"70 cm above 443", 443_025_000, 444_975_000, 25_000, +5_000_000, "split-reversed", "write %s, unless the coordination says otherwise", true, "438 to 440 is not barred"},
		{"70 cm above 445", 447_025_000, 449_975_000, 25_000, -5_000_000, "off-band other-service", "did you mean %s, which is usual there?", true, "the band ends at 450"},
		{"70 cm below 442", 440_025_000, 441_975_000, 25_000, +5_000_000, "repeater-not-allowed", "did you mean %s, which is usual there?", false, "no document says that it is usual: named, and not mended"},
		{"6 m", 53_030_000, 53_470_000, 20_000, -1_000_000, "off-band other-service", "did you mean %s, which is usual there?", true, "the band ends at 54; near the edge as well"},
		{"1.25 m", 223_860_000, 224_980_000, 20_000, -1_600_000, "other-service", "did you mean %s, which is usual there?", true, "above 225 is military"},
		{"23 cm", 1_290_025_000, 1_293_975_000, 25_000, -20_000_000, "off-band other-service", "did you mean %s, which is usual there?", true, "the band ends at 1300"},
	} {
		t.Run(c.name, func(t *testing.T) {
			for output := c.low; output <= c.high; output += c.step {
				wrong, input := output-signal.Hertz(c.right), output+signal.Hertz(c.right)
				for _, r := range []struct{ record, write string }{
					{fmt.Sprintf("{output: %s, split: %s, fm: {}}", output, -c.right), "split: " + c.right.String()},
					{fmt.Sprintf("{output: %s, input: %s, fm: {}}", output, wrong), fmt.Sprintf("input: %s (split %s)", input, c.right)},
				} {
					found := check(t, speak, load(t, map[string]string{"plan.yaml": header, "a.yaml": "repeaters:\n  r: " + r.record + "\n"}))
					if len(found) != 1 || !slices.Contains(strings.Fields(c.rules), found[0].Rule) {
						t.Errorf("%s: %s: want one finding of %s, got %d", r.record, c.why, c.rules, len(found))
						continue
					}
					if want := fmt.Sprintf(c.fix, r.write); found[0].Fix != want {
						t.Errorf("%s: the fix is %q, want %q", r.record, found[0].Fix, want)
					}
					mend := ""
					if c.mended {
						mend = fmt.Sprintf("repeater r: input: %s -> %s", wrong, input)
					}
					if got := mendText(found[0].Mend); got != mend {
						t.Errorf("%s: the mend is %q, want %q: %s", r.record, got, mend, c.why)
					}
				}
			}
		})
	}
}
