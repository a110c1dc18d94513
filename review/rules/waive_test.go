package rules_test

import (
	"context"
	"strings"
	"testing"

	"passband.example/plandiff"
	"passband.example/plandiff/plan"
	"passband.example/review"
	"passband.example/review/rules"
)

const roomy = `
plan: Example
edition: 2026
region: US
license: technician
channels:
  call: {simplex: 146.52, fm: {}}
zones:
  valley: {channels: [call]}
radios:
  pocket: {bands: [100-500], modes: [fm], limits: {channels: 1}}
`

// TestAChangeCannotWaiveItself is promise 4: each change brings a fault and, in
// the same breath, what would let it pass. It blocks all the same, and says that
// what is judged was changed.
func TestAChangeCannotWaiveItself(t *testing.T) {
	slip := []string{"call: {simplex: 146.52, fm: {}}", "call: {simplex: 164.52, fm: {}}"}
	tests := []struct {
		name  string
		edits []string
		rule  string
		why   string
	}{
		{"severity", append(slip, "radios:", "review: {severity: {off-band: off}}\nradios:"), "off-band", "policy is the base's"},
		{"acceptance", append(slip, "radios:", "review: {accept: [{rule: off-band, at: call, until: 2099-01-01, reason: mine}]}\nradios:"), "off-band", "policy is the base's"},
		{"region", append(slip, "region: US", "region: XX"), "off-band", "so are the license tables"},
		{"region gone", append(slip, "region: US\n", ""), "off-band", "a line that is left out opens no door"},
		{"license gone", append(slip, "license: technician\n", ""), "off-band", ""},
		{"edition gone", append(slip, "edition: 2026\n", ""), "off-band", ""},
		{"limit", []string{"channels: 1}", "channels: 9}", "zones:", "  net: {simplex: 146.55, fm: {}}\nzones:", "[call]", "[call, net]"}, "memory-full", "radio limits are the base's"},
		{"limit gone", []string{", limits: {channels: 1}", "", "zones:", "  net: {simplex: 146.55, fm: {}}\nzones:", "[call]", "[call, net]"}, "memory-full", ""},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			old := load(t, map[string]string{"plan.yaml": roomy})
			text := roomy
			for i := 0; i < len(tt.edits); i += 2 {
				if !strings.Contains(text, tt.edits[i]) {
					t.Fatalf("there is no %q to replace", tt.edits[i])
				}
				text = strings.ReplaceAll(text, tt.edits[i], tt.edits[i+1])
			}
			c := plandiff.Compare(old, load(t, map[string]string{"plan.yaml": text}))
			v, err := review.Judge(context.Background(), rules.All(), c, nil, today)
			if err != nil {
				t.Fatal(err)
			}
			found := make(map[string]review.Severity)
			for _, f := range v.Findings {
				if f.Standing == review.New {
					found[f.Rule] = f.Severity
				}
			}
			if found[tt.rule] != review.Block || !v.Blocks() {
				t.Errorf("%s: %s does not block: %v", tt.why, tt.rule, found)
			}
			if found[review.PolicyChanged] == review.Off {
				t.Errorf("the change of what is judged is not told: %v", found)
			}
		})
	}
}

// TestUnderKeepsTheStricter: a change may narrow a limit, and is judged by it.
func TestUnderKeepsTheStricter(t *testing.T) {
	base := load(t, map[string]string{"plan.yaml": strings.Replace(roomy, "channels: 1}", "channels: 5}", 1)}).Plan
	now := load(t, map[string]string{"plan.yaml": strings.Replace(roomy, "channels: 1}", "channels: 2}", 1)}).Plan
	if now.Under(base, nil) != now {
		t.Error("the narrower limit of the change does not stand")
	}
	r, _ := base.Under(now, plan.Renames{}).Radios.Find("pocket")
	if got := r.Limits[plan.LimitChannels].V; got != 2 {
		t.Errorf("the limit is %d, and the base says 2", got)
	}
}
