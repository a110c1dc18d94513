package report

import (
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
		p.item(0, code(d.place(f.At)), text(": "), severity(f.Severity), faint(" [%s]", f.Rule), text(": %s", f.What))
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
		if f.Why == "" && f.Fix == "" && f.Source == "" && len(f.Also) == 0 {
			p.detail(0, "see", code("passband explain "+f.Rule))
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
		p.item(0, code(d.place(a.Finding.At)), text(": accepted"), faint(" [%s]", a.Finding.Rule), text(": %s", a.Finding.What))
		p.detail(0, "until", text("%s: %s", a.By.Until.V, a.By.Reason.V))
	}
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

func (d *Document) checkJSON() CheckJSON {
	v := d.Verdict
	out := CheckJSON{
		Passband: "check", Version: version, Plan: d.Expansion.Plan.Header.Title.Or(""), At: d.New, Blocks: v.Blocks(),
		Skipped: v.Skipped, Rules: v.Rules, Edition: v.Policy.Edition, Findings: findingsJSON(v.Findings),
		Accepted: []AcceptedJSON{}, Caution: caution,
	}
	for _, a := range v.Accepted {
		out.Accepted = append(out.Accepted, AcceptedJSON{findingJSON(a.Finding), a.By.Until.V.String(), a.By.Reason.V})
	}
	return out
}

func findingsJSON(fs []review.Finding) []FindingJSON {
	out := make([]FindingJSON, 0, len(fs))
	for _, f := range fs {
		out = append(out, findingJSON(f))
	}
	return out
}

func findingJSON(f review.Finding) FindingJSON {
	if f.About == nil {
		f.About = []plan.Thing{}
	}
	return FindingJSON{f.ID(), f}
}
