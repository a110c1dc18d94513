package report_test

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"

	"passband.example/review/report"
	"passband.example/review/rules"
)

// TestSarif wants what GitHub's code scanning needs of a file (its documentation,
// "SARIF support for code scanning"); e2e/contract holds it against the schema.
func TestSarif(t *testing.T) {
	d := north(t)
	d.New.Folder = "plans/the valley"
	var out bytes.Buffer
	if err := report.Sarif(&out, d, rules.All()); err != nil {
		t.Fatal(err)
	}
	var log report.SarifLog
	if err := json.Unmarshal(out.Bytes(), &log); err != nil {
		t.Fatal(err)
	}
	run := log.Runs[0]
	if log.Version != "2.1.0" || run.AutomationDetails.ID != "passband/plans/the valley/" || len(run.Results) != len(d.Verdict.Findings) {
		t.Errorf("%s %s, %d results", log.Version, run.AutomationDetails.ID, len(run.Results))
	}
	seen := map[string]bool{}
	for _, r := range run.Results {
		at := r.Locations[0].Physical
		g := at.Region
		if !strings.HasPrefix(at.Artifact.URI, "plans/the%20valley/") || g.StartLine < 1 || g.StartColumn < 1 || g.EndLine < g.StartLine || g.EndColumn <= g.StartColumn {
			t.Errorf("%+v", at)
		}
		if run.Tool.Driver.Rules[r.RuleIndex].ID != r.RuleID || r.Message.Text == "" || r.BaselineState != map[bool]string{true: "unchanged", false: "new"}[r.RuleID == "coordinated"] {
			t.Errorf("%+v", r)
		}
		seen[r.PartialFingerprints["primaryLocationLineHash"]] = true
	}
	if len(seen) != len(run.Results) {
		t.Errorf("%d fingerprints of %d results", len(seen), len(run.Results))
	}
	for _, r := range run.Tool.Driver.Rules {
		if r.ShortDescription.Text == "" || len(r.ShortDescription.Text) > 1024 || r.FullDescription.Text == "" || len(r.FullDescription.Text) > 1024 || r.Help.Text == "" {
			t.Errorf("rule %s is not described", r.ID)
		}
	}
}
