package rules_test

import (
	"strings"
	"testing"

	"passband.example/review"
	"passband.example/review/rules"
)

// TestAirWords wants what a person is told to do, and figures as a person writes them.
func TestAirWords(t *testing.T) {
	const pair = "repeaters:\n  knob: {output: 146.94, split: -0.6, fm: {tone: 88.5}, site: {lat: 41.5, lon: -104.0}}\n" +
		"  ridge: {output: 146.94, split: -0.6, fm: {tone: 103.5}, site: {lat: 40.0, lon: -104.0}}\n"
	const own = "region,band,spacing_hz,required,applies,source,confidence,note\nour valley,2m,0,160 km,any,council,read,\n"
	for _, c := range []struct {
		name, why string
		rule      *review.Rule
		text      string
		rows      string // separation.csv
		says      string
		not       string
	}{
		{"default row", "a coordinator may ask another distance", rules.SpacingBarelyMet, pair, "", "put their row into separation.csv", "your own row"},
		{"own row", "there is none to put over it", rules.SpacingBarelyMet, pair, own, "your own row", "put their row"},
		{"ERP of a kilowatt and more", "50 W with 23 dB are 9,976 W: 10^2.3 = 199.53", rules.ERPDisagrees,
			"repeaters: {r: {output: 146.94, split: -0.6, fm: {}, site: {erp_w: 50, power_w: 50, gain_dbd: 24, loss_db: 1}}}\n", "", "make 9980 W", "e+"},
	} {
		t.Run(c.name, func(t *testing.T) {
			files := map[string]string{"plan.yaml": header, "air.yaml": c.text}
			if c.rows != "" {
				files["separation.csv"] = c.rows
			}
			found := findings(t, c.rule, files)
			if len(found) != 1 {
				t.Fatalf("%s: %d findings", c.why, len(found))
			}
			if text := found[0].What + " " + found[0].Fix; !strings.Contains(text, c.says) || strings.Contains(text, c.not) {
				t.Errorf("%s: %s", c.why, text)
			}
		})
	}
}
