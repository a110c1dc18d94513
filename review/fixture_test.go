package review_test

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"
	"passband.example/plandiff"
	"passband.example/plandiff/plan"
	"passband.example/plandiff/plan/plantest"
	"passband.example/review"
)

// today is the day on which the tests judge.
var today = plan.Date{Year: 2026, Month: 11, Day: 25}

// expand reads the plan of a text: one plan.yaml, or several files of an archive.
func expand(t *testing.T, text string) *plan.Expansion {
	t.Helper()
	files := map[string][]byte{"plan.yaml": []byte(text)}
	if strings.HasPrefix(text, "-- ") {
		clear(files)
		for _, f := range txtar.Parse([]byte(text)).Files {
			files[f.Name] = f.Data
		}
	}
	return plan.Expand(plantest.Load(t, files))
}

func judge(t *testing.T, rules []*review.Rule, old, new string) *review.Verdict {
	t.Helper()
	v, err := review.Judge(context.Background(), rules, plandiff.Compare(expand(t, old), expand(t, new)), nil, today)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

func check(t *testing.T, rules []*review.Rule, text string) *review.Verdict {
	t.Helper()
	v, err := review.Check(context.Background(), rules, expand(t, text), today)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// told gives the findings of a verdict, those that are gone among them, as
// "standing severity rule about", sorted.
func told(v *review.Verdict) []string {
	var all []string
	for _, f := range slices.Concat(v.Findings, v.Gone) {
		text := fmt.Sprintf("%s %s %s", f.Standing, f.Severity, f.Rule)
		for _, about := range f.About {
			text += " " + about.Key
		}
		all = append(all, text)
	}
	slices.Sort(all)
	return all
}

// The rules of these tests: one about records, one about channels, one about
// entries that stand there again, and those of the policy itself.
func someRules() []*review.Rule {
	return []*review.Rule{
		{ID: "nameless", Severity: review.Block, Edition: 2026, Run: nameless},
		{ID: "toneless", Severity: review.Warn, Edition: 2026, Run: toneless},
		{ID: "again", Severity: review.Note, Edition: 2026, Run: again},
		{ID: "from-2027", Severity: review.Block, Edition: 2027, Run: fast},
		{ID: review.AcceptanceExpired, Severity: review.Warn, Edition: 2026},
		{ID: review.AcceptanceUnused, Severity: review.Warn, Edition: 2026},
		{ID: review.PolicyChanged, Severity: review.Warn, Edition: 2026},
	}
}

// nameless reports a repeater without a callsign.
func nameless(p *review.Pass) {
	for _, r := range p.Plan.Repeaters.All() {
		if !r.Callsign.Written() {
			p.Report(review.Finding{At: r.Place(), About: []plan.Thing{r.Thing()}, What: r.Thing().String() + " has no callsign"})
		}
	}
}

// toneless reports a channel that sends without a tone, by its frequency.
func toneless(p *review.Pass) {
	for _, c := range p.Expansion.Channels {
		if c.Transmit != 0 && c.ToneSend.IsZero() {
			p.Report(review.Finding{At: c.At, About: []plan.Thing{c.Thing()}, Values: []string{c.Transmit.String()}, What: c.Thing().String() + " sends no tone"})
		}
	}
}

// again reports each entry of a zone that names a channel again.
func again(p *review.Pass) {
	for _, z := range p.Expansion.Zones {
		for _, m := range z.Twice {
			p.Report(review.Finding{At: m.At, About: []plan.Thing{z.Zone.Thing(), m.Channel.Thing()}, What: m.Entry + " stands there again"})
		}
	}
}

// fast reports a channel that may send for no more than ten seconds.
func fast(p *review.Pass) {
	for _, c := range p.Plan.Channels.All() {
		if c.Extra.Timeout.Or(60) < 10 {
			p.Report(review.Finding{At: c.Extra.Timeout.At, About: []plan.Thing{c.Thing()}, What: "too short"})
		}
	}
}
