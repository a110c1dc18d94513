package review_test

import (
	"context"
	"slices"
	"strings"
	"testing"

	"passband.example/plandiff"
	"passband.example/plandiff/plan"
	"passband.example/plandiff/plan/plantest"
	"passband.example/review"
	"pgregory.net/rapid"
)

// TestBaseWentOn judges changes to a plan whose base others have changed since: by the
// policy that the base has now, under the keys that the change knows.
func TestBaseWentOn(t *testing.T) {
	stood := policed("2026", "")
	still := []string{"still there block nameless ridge", "still there warn from-2027 call"}
	accepted := policed("2026", "", lived)
	to := func(text, key string) string { return strings.ReplaceAll(text, "ridge", key) }
	for _, c := range []struct {
		name, why      string
		base, old, new string
		want           []string
		accepted       int
	}{
		{"accepted since", "the club has decided meanwhile", accepted, stood, stood, still[1:], 1},
		{"accepted no more", "so it has here", stood, accepted, accepted, still, 0},
		{"accepted under a key that the base has changed", "the repeater is the same one", to(accepted, "summit"), stood, stood, still[1:], 1},
		{"accepted under a key that both have changed", "in two ways, from one", to(accepted, "summit"), stood, to(stood, "crest"), still[1:], 1},
		{"accepted under a key that both have changed alike", "in one way", to(accepted, "summit"), stood, to(stood, "summit"), still[1:], 1},
		{"accepted under the key that the change gives up", "as in a change of the base itself", accepted, stood, to(stood, "crest"), still[1:], 1},
		{"of kind and key", "which are both followed", strings.Replace(to(accepted, "summit"), "at: summit", "at: repeater summit", 1), stood, stood, still[1:], 1},
		{"of another record", "that the change does not have", strings.Replace(accepted, "at: ridge", "at: knob", 1), stood, stood, still, 0},
		{"milder since", "the base says so", policed("2026", "nameless: note"), stood, stood,
			[]string{"still there note nameless ridge", "still there warn from-2027 call"}, 0},
		{"stricter since", "a head that begins at an older commit gains nothing", policed("2026", "nameless: block"), policed("2026", "nameless: off"), policed("2026", "nameless: off"), still, 0},
		{"a later edition since", "a rule of 2027 blocks", policed("2027", ""), stood, stood,
			[]string{"still there block from-2027 call", "still there block nameless ridge"}, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			compared := plandiff.Compare(expand(t, c.old), expand(t, c.new))
			v, err := review.Judge(context.Background(), someRules(), compared, expand(t, c.base).Plan, today)
			if err != nil {
				t.Fatal(err)
			}
			if got := told(v); !slices.Equal(got, c.want) || len(v.Accepted) != c.accepted {
				t.Errorf("%s: %q, %d accepted", c.why, got, len(v.Accepted))
			}
		})
	}
}

// TestLimitsOfTheBase judges by limits that the base has narrowed since, and by those of
// a class of radio that it has renamed.
func TestLimitsOfTheBase(t *testing.T) {
	text := func(radio, channels string) string {
		return "plan: Hills\nedition: 2026\nradios:\n  " + radio + ": {bands: [144-148], modes: [fm], label_length: 12, limits: {channels: " + channels + "}}\n"
	}
	limit := []*review.Rule{{ID: "limit", Severity: review.Note, Edition: 2026, Run: func(p *review.Pass) {
		for _, r := range p.Plan.Radios.All() {
			p.Report(review.Finding{At: r.Place(), About: []plan.Thing{r.Thing()}, Values: []string{r.Limits[plan.LimitChannels].Text}})
		}
	}}}
	for _, c := range []struct{ name, base, old, new, want string }{
		{"narrowed", text("pocket", "5"), text("pocket", "9"), text("pocket", "9"), "5"},
		{"narrowed further by the change", text("pocket", "5"), text("pocket", "9"), text("pocket", "3"), "3"},
		{"renamed and narrowed", text("handheld", "5"), text("pocket", "9"), text("pocket", "9"), "5"},
		{"renamed by both", text("handheld", "5"), text("pocket", "9"), text("shirt", "9"), "5"},
		{"came on both sides", text("pocket", "5"), "plan: Hills\nedition: 2026\n", text("pocket", "9"), "5"},
	} {
		t.Run(c.name, func(t *testing.T) {
			v, err := review.Judge(context.Background(), limit, plandiff.Compare(expand(t, c.old), expand(t, c.new)), expand(t, c.base).Plan, today)
			if err != nil {
				t.Fatal(err)
			}
			if len(v.Findings) != 1 || v.Findings[0].Values[0] != c.want {
				t.Errorf("%+v, want the limit %s", v.Findings, c.want)
			}
		})
	}
}

// TestBaseIsTheOldPlan gives the old plan as base by nil, by itself and as a copy: it is
// all one.
func TestBaseIsTheOldPlan(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		old := plantest.Plan(t)
		c := plandiff.Compare(plan.Expand(old), plan.Expand(plantest.Edit(t, old)))
		again, err := plandiff.Apply(old, nil)
		if err != nil {
			t.Fatal(err)
		}
		var first []string
		for i, base := range []*plan.Plan{nil, old, again} {
			v, err := review.Judge(context.Background(), everything, c, base, today)
			if err != nil {
				t.Fatal(err)
			}
			if got := told(v); i == 0 {
				first = got
			} else if !slices.Equal(got, first) {
				t.Errorf("%q, and with nil %q", got, first)
			}
		}
	})
}
