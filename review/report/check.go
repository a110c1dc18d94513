package report

import (
	"fmt"
	"strings"

	"passband.example/plandiff/plan"
	"passband.example/review"
)

// Check reports what is wrong with one plan.
func Check(d *Document) *Page {
	p := new(Page)
	d.title(p, "Check")
	d.findings(p, d.Verdict.Findings)
	d.accepted(p)
	d.verdict(p)
	return p
}

// findings lists findings as a compiler does: place, severity, what.
func (d *Document) findings(p *Page, fs []review.Finding) {
	for _, f := range fs {
		p.item(0, code(d.place(f.At)), text(": "), severity(f.Severity), text(": %s ", f.What), faint("[%s]", f.Rule))
		if f.Why != "" {
			p.detail(0, "why", text("%s", f.Why))
		}
		if f.Fix != "" {
			p.detail(0, "do", text("%s", f.Fix))
		}
		if f.Source != "" {
			p.detail(0, "rests on", text("%s", f.Source))
		}
		for _, r := range f.Also {
			line := Line{}
			if !r.At.IsZero() {
				line = append(line, code(d.place(r.At)), text(": "))
			}
			p.detail(0, "see", append(line, text("%s", r.Text))...)
		}
		if f.Eased != "" {
			p.detail(0, "milder", text("%s", f.Eased))
		}
	}
}

func severity(s review.Severity) Span {
	return Span{s.String(), map[review.Severity]Style{review.Block: Blocks, review.Warn: Warns, review.Note: Notes}[s]}
}

func (d *Document) accepted(p *Page) {
	for _, a := range d.Verdict.Accepted {
		p.item(0, code(d.place(a.Finding.At)), text(": accepted: %s ", a.Finding.What), faint("[%s]", a.Finding.Rule))
		p.detail(0, "until", text("%s, %s", a.By.Until.V, a.By.Reason.V))
	}
}

// verdict is the last word: whether it blocks, why, and what that rests on.
func (d *Document) verdict(p *Page) {
	v := d.Verdict
	if v.Skipped != "" {
		p.paragraph(text("%s.", sentence(v.Skipped)))
	}
	verdict := Span{"Nothing blocks", Good}
	if v.Blocks() {
		verdict = Span{"Blocked", Blocks}
	}
	p.paragraph(verdict, text(": %s.", d.tally()))
	p.paragraph(faint("Judged by %s, edition %s. %s", count(v.Rules, "rule"), edition(v.Policy.Edition), caution))
}

func edition(year int) string {
	if year == 0 {
		return "not stated"
	}
	return fmt.Sprint(year)
}

// tally counts the findings by severity and, where a change is judged, standing.
func (d *Document) tally() string {
	v := d.Verdict
	var parts []string
	for _, s := range []review.Severity{review.Block, review.Warn, review.Note} {
		if n := v.Count(s, review.New); n > 0 {
			parts = append(parts, fmt.Sprintf("%d %s", n, s))
		}
	}
	if len(parts) == 0 {
		parts = append(parts, "no finding")
	}
	if v.Change {
		parts[0] = "new: " + parts[0]
		still := v.Count(review.Block, review.Still) + v.Count(review.Warn, review.Still) + v.Count(review.Note, review.Still)
		parts = append(parts, fmt.Sprintf("still there: %d", still), fmt.Sprintf("gone: %d", len(v.Gone)))
	}
	if n := len(v.Accepted); n > 0 {
		parts = append(parts, fmt.Sprintf("accepted: %d", n))
	}
	return strings.Join(parts, ", ")
}

func sentence(s string) string { return strings.ToUpper(s[:1]) + s[1:] }

// count says a number of things.
func count(n int, thing string) string {
	if n == 1 {
		return "1 " + thing
	}
	if strings.HasSuffix(thing, "y") {
		return fmt.Sprintf("%d %sies", n, strings.TrimSuffix(thing, "y"))
	}
	return fmt.Sprintf("%d %ss", n, thing)
}

// CheckJSON is the JSON form of Check.
type CheckJSON struct {
	Passband string         `json:"passband"`
	Version  int            `json:"version"`
	Plan     string         `json:"plan"`
	At       *Origin        `json:"at"`
	Blocks   bool           `json:"blocks"`
	Skipped  string         `json:"skipped,omitempty"`
	Rules    int            `json:"rules"`
	Edition  int            `json:"edition"`
	Findings []FindingJSON  `json:"findings"`
	Accepted []AcceptedJSON `json:"accepted"`
	Caution  string         `json:"caution"`
}

// FindingJSON is a finding with its identity.
type FindingJSON struct {
	ID string `json:"id"`
	review.Finding
}

// AcceptedJSON is a finding that the club lives with.
type AcceptedJSON struct {
	FindingJSON
	Until  string `json:"until"`
	Reason string `json:"reason"`
}

// JSON gives the form of Check for programs.
func (d *Document) checkJSON() CheckJSON {
	v := d.Verdict
	out := CheckJSON{
		Passband: "check", Version: version, Plan: d.Expansion.Plan.Header.Title.Or(""), At: d.New, Blocks: v.Blocks(),
		Skipped: v.Skipped, Rules: v.Rules, Edition: v.Policy.Edition, Findings: findingsJSON(d, v.Findings),
		Accepted: []AcceptedJSON{}, Caution: caution,
	}
	for _, a := range v.Accepted {
		out.Accepted = append(out.Accepted, AcceptedJSON{findingJSON(d, a.Finding), a.By.Until.V.String(), a.By.Reason.V})
	}
	return out
}

func findingsJSON(d *Document, fs []review.Finding) []FindingJSON {
	out := make([]FindingJSON, 0, len(fs))
	for _, f := range fs {
		out = append(out, findingJSON(d, f))
	}
	return out
}

func findingJSON(d *Document, f review.Finding) FindingJSON {
	if f.About == nil {
		f.About = []plan.Thing{}
	}
	return FindingJSON{f.ID(), f}
}
