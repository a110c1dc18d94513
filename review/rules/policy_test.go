package rules_test

import (
	"fmt"
	"slices"
	"testing"

	"passband.example/plandiff/plan"
	"passband.example/review"
	"passband.example/review/rules"
)

// accepting is a plan in which one radio holds too many messages, and what is
// accepted of it.
func accepting(items string) string {
	return header + `messages:
  late: Running late
  home: Home
radios:
  pocket: {limits: {messages: 1}}
  mobile: {limits: {messages: 2}}
review:
  accept:
` + items
}

// TestAcceptances judges acceptances together with the findings that they are about.
func TestAcceptances(t *testing.T) {
	for _, c := range []struct {
		name, why string
		items     string
		want      []string // rule at line
	}{
		{"in force", "it accepts the finding, and nothing is left to say",
			"    - {rule: memory-full, at: pocket, until: 2027-06-01, reason: enough}\n", nil},
		{"last day", "until is the last day on which it counts",
			"    - {rule: memory-full, at: pocket, until: 2026-11-25, reason: enough}\n", nil},
		{"expired", "the finding counts again, and the end is told",
			"    - {rule: memory-full, at: pocket, until: 2026-11-24, reason: enough}\n",
			[]string{"memory-full plan.yaml:9", "acceptance-expired plan.yaml:13"}},
		{"unused", "the mobile holds both, and nothing else is accepted by it",
			"    - {rule: memory-full, at: mobile, until: 2027-06-01, reason: enough}\n",
			[]string{"memory-full plan.yaml:9", "acceptance-unused plan.yaml:13"}},
		{"expired and mended", "one thing is said of an acceptance, not two",
			"    - {rule: memory-full, at: mobile, until: 2026-01-01, reason: enough}\n",
			[]string{"memory-full plan.yaml:9", "acceptance-expired plan.yaml:13"}},
		{"of a rule that did not run", "nobody knows whether it would match",
			"    - {rule: unused, at: mobile, until: 2026-01-01, reason: enough}\n",
			[]string{"memory-full plan.yaml:9"}},
		{"incomplete", "that is the matter of another rule",
			"    - {rule: memory-full, at: mobile, until: 2026-01-01}\n",
			[]string{"memory-full plan.yaml:9"}},
		{"with its kind", "an acceptance may say kind and key",
			"    - {rule: memory-full, at: radio pocket, until: 2027-06-01, reason: enough}\n", nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			x := load(t, map[string]string{"plan.yaml": accepting(c.items)})
			if got := placed(check(t, only(rules.MemoryFull.ID), x)); !slices.Equal(got, c.want) {
				t.Errorf("got %q, want %q: %s", got, c.want, c.why)
			}
		})
	}
}

// TestAcceptancesSkipped wants no word of acceptances where the rules did not run.
func TestAcceptancesSkipped(t *testing.T) {
	x := load(t, map[string]string{
		"plan.yaml": accepting("    - {rule: memory-full, at: mobile, until: 2027-06-01, reason: enough}\n"),
		"bad.yaml":  "groups: {",
	})
	if got := placed(check(t, only(rules.MemoryFull.ID), x)); !slices.Equal(got, []string{"bad-syntax bad.yaml:1"}) {
		t.Errorf("got %q", got)
	}
}

// TestPolicyChanged judges changes of what is judged, and others.
func TestPolicyChanged(t *testing.T) {
	base := header + "review:\n  severity: {memory-full: block}\n"
	accept := "  accept:\n    - {rule: memory-full, at: pocket, until: 2027-06-01, reason: enough}\n"
	for _, c := range []struct {
		name, why string
		old, new  string
		want      []string
	}{
		{"severity changed", "a rule counts less", base, header + "review:\n  severity: {memory-full: off}\n", []string{"policy-changed plan.yaml:6"}},
		{"severity added", "a rule counts otherwise than its author thought", header, base, []string{"policy-changed plan.yaml:6"}},
		{"severity removed", "a club's own decision is gone", base, header, []string{"policy-changed plan.yaml:1"}},
		{"acceptance added", "a fault will be lived with", base, base + accept, []string{"policy-changed plan.yaml:8"}},
		{"edition", "it decides which rules may block", header, "plan: Example\nedition: 2027\nregion: US\nlicense: technician\n", []string{"policy-changed plan.yaml:2"}},
		{"region", "it decides which tables apply", header, "plan: Example\nedition: 2026\nregion: DE\nlicense: technician\n", []string{"policy-changed plan.yaml:3"}},
		{"license", "it decides what members may do", header, "plan: Example\nedition: 2026\nregion: US\nlicense: extra\n", []string{"policy-changed plan.yaml:4"}},
		{"name", "what the plan is called decides nothing", header, "plan: Other\nedition: 2026\nregion: US\nlicense: technician\n", nil},
		{"layout", "another place is no change", base, "review:\n  severity: {memory-full: block}\n" + header, nil},
		{"records", "a radio is judged, and does not judge", base, base + "radios:\n  pocket: {}\n", nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			old := load(t, map[string]string{"plan.yaml": c.old})
			now := load(t, map[string]string{"plan.yaml": c.new})
			v := judgeChange(t, only(), old, now)
			got := placed(v.Findings)
			if !slices.Equal(got, c.want) {
				t.Errorf("got %q, want %q: %s", got, c.want, c.why)
			}
			for _, f := range v.Findings {
				if f.Severity != review.Warn || f.Standing != review.New {
					t.Errorf("%s is %s and %s, and should be a warning that is new", f.What, f.Severity, f.Standing)
				}
			}
		})
	}
}

// placed gives the rule and the line of each finding.
func placed(fs []review.Finding) []string {
	var all []string
	for _, f := range fs {
		all = append(all, f.Rule+" "+lineOf(f.At))
	}
	return all
}

func lineOf(at plan.Place) string { return fmt.Sprintf("%s:%d", at.File, at.Line) }
