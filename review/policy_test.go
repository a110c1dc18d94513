package review_test

import (
	"slices"
	"strings"
	"testing"

	"passband.example/review"
)

// policed is a plan with a policy: two findings, of nameless and of from-2027.
func policed(edition, severity string, accept ...string) string {
	text := "plan: Hills\nedition: " + edition + "\nrepeaters:\n  ridge: {output: 444.325, split: +5, fm: {tone: 103.5}}\n" +
		"channels:\n  call: {simplex: 146.52, fm: {tone: 67.0}, timeout_s: 5}\nreview:\n"
	if severity != "" {
		text += "  severity: {" + severity + "}\n"
	}
	if len(accept) > 0 {
		text += "  accept:\n"
	}
	for _, a := range accept {
		text += "    - {" + a + "}\n"
	}
	return text
}

const lived = "rule: nameless, at: ridge, until: 2027-06-01, reason: the callsign is pending"

// TestPolicyOfTheBase judges changes of the policy: they take effect after the
// merge, never on the change that brings them, and are told.
func TestPolicyOfTheBase(t *testing.T) {
	both := []string{"still there block nameless ridge", "still there warn from-2027 call"}
	for _, c := range []struct {
		name, why string
		old, new  string
		want      []string
		accepted  int
	}{
		{"no change", "the default severities hold; a rule of 2027 warns in a plan of 2026", policed("2026", ""), policed("2026", ""), both, 0},
		{"switched off by the change", "it counts from the next change on", policed("2026", ""), policed("2026", "nameless: off"),
			append([]string{"new warn policy-changed nameless"}, both...), 0},
		{"switched on by the change", "so does this", policed("2026", "nameless: off"), policed("2026", "nameless: block"),
			[]string{"new warn policy-changed nameless", "still there warn from-2027 call"}, 0},
		{"made milder by the change", "the base blocks", policed("2026", "nameless: block"), policed("2026", "nameless: note"),
			append([]string{"new warn policy-changed nameless"}, both...), 0},
		{"milder in the base", "the club has decided", policed("2026", "nameless: note"), policed("2026", "nameless: note"),
			[]string{"still there note nameless ridge", "still there warn from-2027 call"}, 0},
		{"the telling switched off by the change", "nor can that be silenced by the change that does it", policed("2026", ""), policed("2026", "policy-changed: off"),
			append([]string{"new warn policy-changed policy-changed"}, both...), 0},
		{"accepted in the base", "the finding is not among those that count", policed("2026", "", lived), policed("2026", "", lived),
			[]string{"still there warn from-2027 call"}, 1},
		{"accepted by the change", "a change cannot waive its own findings", policed("2026", ""), policed("2026", "", lived),
			append([]string{"new warn policy-changed nameless at ridge"}, both...), 0},
		{"no longer accepted by the change", "it counts from the next change on", policed("2026", "", lived), policed("2026", ""),
			[]string{"new warn policy-changed nameless at ridge", "still there warn from-2027 call"}, 1},
		{"prolonged by the change", "the base's day is past", policed("2026", "", strings.Replace(lived, "2027-06-01", "2026-01-01", 1)), policed("2026", "", lived),
			append([]string{"new warn policy-changed nameless at ridge", "still there warn acceptance-expired nameless at ridge"}, both...), 0},
		{"edition raised by the change", "a rule of 2027 blocks from the next change on", policed("2026", ""), policed("2027", ""),
			append([]string{"new warn policy-changed "}, both...), 0},
		{"edition lowered by the change", "a change cannot ease what judges it", policed("2027", ""), policed("2026", ""),
			[]string{"new warn policy-changed ", "still there block from-2027 call", "still there block nameless ridge"}, 0},
		{"edition of the rule", "it blocks", policed("2027", ""), policed("2027", ""),
			[]string{"still there block from-2027 call", "still there block nameless ridge"}, 0},
		{"made a block by a policy of another edition", "the edition says what may block", policed("2026", "from-2027: block"), policed("2026", "from-2027: block"), both, 0},
		{"accepted under a key that the change renames", "the acceptance is about the same repeater", policed("2026", "", lived),
			strings.ReplaceAll(policed("2026", "", lived), "ridge", "summit"), []string{"still there warn from-2027 call"}, 1},
	} {
		t.Run(c.name, func(t *testing.T) {
			v := judge(t, someRules(), c.old, c.new)
			slices.Sort(c.want)
			if got := told(v); !slices.Equal(got, c.want) {
				t.Errorf("%s: got %q, want %q", c.why, got, c.want)
			}
			if len(v.Accepted) != c.accepted {
				t.Errorf("%d are accepted, want %d", len(v.Accepted), c.accepted)
			}
		})
	}
}

// TestEased wants it said why a finding is milder than its rule.
func TestEased(t *testing.T) {
	for _, c := range []struct {
		name, why, plan string
		rule, want      string
	}{
		{"by the edition", "updating the program never blocks a club that changed nothing", policed("2026", ""), "from-2027", "the rule is newer than the plan's edition"},
		{"by the policy", "the club's own decision", policed("2026", "nameless: note"), "nameless", "by the policy of the plan"},
		{"not at all", "it is as bad as the rule says", policed("2026", ""), "nameless", ""},
		{"made worse", "that is nothing milder", policed("2027", "from-2027: block"), "from-2027", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			v := check(t, someRules(), c.plan)
			i := slices.IndexFunc(v.Findings, func(f review.Finding) bool { return f.Rule == c.rule })
			if i < 0 || v.Findings[i].Eased != c.want {
				t.Errorf("%s: want %q in %+v", c.why, c.want, v.Findings)
			}
		})
	}
}

// TestAcceptance checks plans with one acceptance each.
func TestAcceptance(t *testing.T) {
	expired := strings.Replace(lived, "2027-06-01", "2026-11-24", 1)
	for _, c := range []struct {
		name, why string
		accept    string
		want      []string
		accepted  int
	}{
		{"in force", "nothing is left to say", lived, nil, 1},
		{"kind and key", "an acceptance may name both", strings.Replace(lived, "at: ridge", "at: Repeater ridge", 1), nil, 1},
		{"last day", "it counts to the end of it", strings.Replace(lived, "2027-06-01", "2026-11-25", 1), nil, 1},
		{"expired", "the finding counts again", expired, []string{"new block nameless ridge", "new warn acceptance-expired nameless at ridge"}, 0},
		{"of another record", "it matches nothing", strings.Replace(lived, "at: ridge", "at: knob", 1),
			[]string{"new block nameless ridge", "new warn acceptance-unused nameless at knob"}, 0},
		{"of another kind", "the key is that of a repeater, not of a zone", strings.Replace(lived, "at: ridge", "at: zone ridge", 1),
			[]string{"new block nameless ridge", "new warn acceptance-unused nameless at zone ridge"}, 0},
		{"of another rule", "it matches nothing", strings.Replace(lived, "rule: nameless", "rule: toneless", 1),
			[]string{"new block nameless ridge", "new warn acceptance-unused toneless at ridge"}, 0},
		{"of no rule", "a rule that did not run could not match", strings.Replace(lived, "rule: nameless", "rule: never-heard-of", 1),
			[]string{"new block nameless ridge"}, 0},
		{"without a reason", "it does not count, and another rule says so", strings.Replace(lived, ", reason: the callsign is pending", "", 1),
			[]string{"new block nameless ridge"}, 0},
		{"without an end", "nor does this", strings.Replace(lived, "until: 2027-06-01, ", "", 1),
			[]string{"new block nameless ridge"}, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			v := check(t, someRules(), policed("2026", "from-2027: off", c.accept))
			if got := told(v); !slices.Equal(got, c.want) {
				t.Errorf("%s: got %q, want %q", c.why, got, c.want)
			}
			if len(v.Accepted) != c.accepted {
				t.Errorf("%d are accepted, want %d", len(v.Accepted), c.accepted)
			}
		})
	}
}

// TestExpiredIsTold wants the finding itself to say that it was accepted once.
func TestExpiredIsTold(t *testing.T) {
	v := check(t, someRules(), policed("2026", "", strings.Replace(lived, "2027-06-01", "2026-11-24", 1)))
	for _, f := range v.Findings {
		if f.Rule == "nameless" && (len(f.Also) != 1 || !strings.Contains(f.Also[0].Text, "accepted until")) {
			t.Errorf("it says %+v", f.Also)
		}
	}
}
