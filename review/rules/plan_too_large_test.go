package rules_test

import (
	"strings"
	"testing"

	"passband.example/plandiff/plan"
	"passband.example/review/rules"
)

// TestPlanTooLarge hands the rule what Expand notes of a plan that is too large:
// to make one takes seconds, and is for the tests of package plan.
func TestPlanTooLarge(t *testing.T) {
	x := load(t, map[string]string{"plan.yaml": header})
	if got := check(t, only(rules.PlanTooLarge.ID), x); len(got) > 0 {
		t.Errorf("a plan that fits: %v", got)
	}
	x.Overflow = plan.Place{File: "zones.yaml", Line: 7, Col: 3}
	got := check(t, only(rules.PlanTooLarge.ID), x)
	if len(got) != 1 || got[0].At != x.Overflow || !strings.Contains(got[0].What, "5 million") {
		t.Errorf("a plan that does not fit: %+v", got)
	}
}

// TestOverflowSilences wants nothing said of zones and lists that were not
// worked out to their end.
func TestOverflowSilences(t *testing.T) {
	text := header + `channels:
  call: {simplex: 146.52, fm: {}}
  uhf: {simplex: 446, fm: {}}
repeaters:
  ridge: {output: 444.325, split: +5, fm: {}}
zones:
  valley: {channels: [uhf, zone:hills]}
  hills: {channels: []}
scan_lists:
  all: {channels: [uhf], priority: call}
radios:
  pocket: {bands: [144-148]}
`
	for _, r := range []string{
		rules.ChannelInNoZone.ID, rules.PathInNoZone.ID, rules.ScanPriorityMissing.ID,
		rules.RadioHoldsNothing.ID, rules.ZoneFitsNoRadio.ID, rules.ChannelFitsNoRadio.ID,
	} {
		x := load(t, map[string]string{"plan.yaml": text})
		x.Overflow = plan.Place{File: "plan.yaml", Line: 1, Col: 1}
		if got := check(t, only(r), x); len(got) > 0 {
			t.Errorf("%s speaks of what was not worked out: %s", r, got[0].What)
		}
	}
}
