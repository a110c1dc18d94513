package rules

import (
	_ "embed"
	"fmt"
	"strings"

	"github.com/agnivade/levenshtein"
	"passband.example/plandiff/plan"
	"passband.example/review"
)

//go:embed dangling_reference.md
var danglingReferenceDoc string

// DanglingReference reports a name that refers to nothing in the plan.
var DanglingReference = &review.Rule{
	ID:       "dangling-reference",
	Severity: review.Block, // a radio would be loaded without the channel, group or list
	Edition:  2026,
	Doc:      danglingReferenceDoc,
	Run:      danglingReference,
}

func danglingReference(p *review.Pass) {
	for _, u := range p.Expansion.Unresolved {
		f := review.Finding{
			At: u.At, About: []plan.Thing{u.From}, Values: []string{u.Kind, u.Text},
			What: fmt.Sprintf("%s refers to the %s %q, which the plan does not have", u.From, u.Kind, u.Text),
			Why:  "members would be handed a radio without it",
			Fix:  fmt.Sprintf("write the key of a %s that is in the plan, or take the entry out", u.Kind),
		}
		if other := otherKind(p.Plan, u); other != "" {
			f.Fix = other
		} else if u.Near != "" {
			f.Fix = fmt.Sprintf("did you mean %s?", u.Near)
			f.Mend = nearMend(p.Plan, u)
		}
		p.Report(f)
	}
}

// otherKind says what to write where the key of a repeater or a group stands for a
// channel: what everybody tries first.
func otherKind(p *plan.Plan, u plan.Unresolved) string {
	if u.Kind != "channel" {
		return ""
	}
	if _, ok := p.Repeaters.Find(u.Text); ok {
		return fmt.Sprintf("%s is a repeater: write %s/* for all its channels, or one of its talk paths", u.Text, u.Text)
	}
	if _, ok := p.Groups.Find(u.Text); ok {
		return fmt.Sprintf("%s is a group: write \"*/*/%s\" for it on every repeater, or one of its talk paths", u.Text, u.Text)
	}
	return ""
}

// nearMend writes the one name that is near, where nothing else can be meant: no other
// is as near, and it has the same digits. Of a talk path, either the repeater or the
// rest may be misspelled.
func nearMend(p *plan.Plan, u plan.Unresolved) review.Mend {
	r, ok := p.Find(u.From)
	if !ok || !u.OnlyNear || !sameDigits(u.Text, u.Near) || strings.Contains(u.Text, "*") {
		return nil
	}
	key, rest, _ := strings.Cut(u.Text, "/")
	nearKey, nearRest, path := strings.Cut(u.Near, "/")
	if path && key != nearKey && (rest != nearRest || !onlyRepeater(p, key, nearKey)) {
		return nil
	}
	return mendItem(r, u.At, func(text string) []string {
		return []string{strings.TrimSuffix(text, u.Text) + u.Near} // zone: stands before the key
	})
}

// onlyRepeater reports whether no other repeater's key is as near to what is written.
func onlyRepeater(p *plan.Plan, key, near string) bool {
	var others []string
	for _, r := range p.Repeaters.All() {
		if r.Key.V != near {
			others = append(others, r.Key.V)
		}
	}
	other := plan.Nearest(key, others)
	return other == "" || levenshtein.ComputeDistance(key, near) < levenshtein.ComputeDistance(key, other)
}
