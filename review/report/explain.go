package report

import (
	"fmt"
	"io"
	"strings"

	"passband.example/plandiff/plan"
	"passband.example/review"
)

// Explain reports the page of a rule.
func Explain(r *review.Rule) (*Page, error) {
	page, err := review.ParsePage(r.Doc)
	if err != nil {
		return nil, err
	}
	p := new(Page)
	p.heading(1, strong(page.ID), text(" ["), severity(r.Severity), text("]"))
	p.paragraph(text("%s", page.Title))
	for _, part := range []struct{ title, body string }{
		{"What is wrong", page.What}, {"Why it matters", page.Why}, {"What to do", page.Fix}, {"What it rests on", page.Source},
	} {
		p.heading(2, text("%s", part.title))
		prose(p, part.body)
	}
	p.heading(2, text("This fails"))
	p.fence("yaml", page.Fails)
	p.heading(2, text("This passes"))
	p.fence("yaml", page.Passes)
	if ofLoading(r.ID) {
		return p, nil // no policy makes what cannot be read readable
	}
	p.paragraph(faint("A plan that sees it otherwise says so in plan.yaml, with a reason in a comment:"))
	p.fence("yaml", fmt.Sprintf("review: {severity: {%s: %s}}", page.ID, other(r.Severity)))
	return p, nil
}

// ofLoading reports whether a rule is about text that cannot be read.
func ofLoading(id string) bool {
	switch id {
	case plan.BadSyntax, plan.BadValue, plan.UnknownKey, plan.DuplicateKey, plan.FileRefused:
		return true
	}
	return false
}

// other gives a severity that differs, for an example.
func other(s review.Severity) review.Severity {
	if s == review.Note {
		return review.Warn
	}
	return review.Note
}

// prose turns the text of a page into paragraphs and items. Text between
// backticks is code.
func prose(p *Page, body string) {
	for part := range strings.SplitSeq(body, "\n\n") {
		if !strings.HasPrefix(part, "- ") {
			p.paragraph(inline(part)...)
			continue
		}
		for point := range strings.SplitSeq(strings.TrimPrefix(part, "- "), "\n- ") {
			p.point(inline(point)...)
		}
	}
}

func inline(s string) Line {
	var line Line
	for i, part := range strings.Split(strings.Join(strings.Fields(s), " "), "`") {
		if i%2 == 1 {
			line = append(line, code(part))
		} else {
			line = append(line, text("%s", part))
		}
	}
	return line
}

// Rules reports all rules in a table.
func Rules(all []*review.Rule) (*Page, error) {
	p := new(Page)
	p.heading(1, text("Rules"))
	for _, s := range []review.Severity{review.Block, review.Warn, review.Note} {
		first := true
		for _, r := range all {
			if r.Severity != s {
				continue
			}
			page, err := review.ParsePage(r.Doc)
			if err != nil {
				return nil, err
			}
			if first {
				p.heading(2, severity(s))
				first = false
			}
			p.item(0, code(r.ID), text(": %s", page.Title))
		}
	}
	p.paragraph(code("passband explain RULE"), text(" shows the page of one."))
	return p, nil
}

// RuleForm is the JSON form of a rule's page.
type RuleForm struct {
	Passband string          `json:"passband"`
	Version  int             `json:"version"`
	ID       string          `json:"id"`
	Severity review.Severity `json:"severity"`
	Edition  int             `json:"edition"`
	Title    string          `json:"title"`
	What     string          `json:"what"`
	Why      string          `json:"why"`
	Fix      string          `json:"fix"`
	Source   string          `json:"source"`
	Fails    string          `json:"fails"`
	Passes   string          `json:"passes"`
}

// RulesForm is the JSON form of Rules.
type RulesForm struct {
	Passband string     `json:"passband"`
	Version  int        `json:"version"`
	Rules    []RuleForm `json:"rules"`
}

// ExplainJSON writes the page of a rule for programs.
func ExplainJSON(w io.Writer, r *review.Rule) error {
	form, err := ruleForm(r)
	if err != nil {
		return err
	}
	return WriteJSON(w, form)
}

// RulesJSON writes all rules for programs.
func RulesJSON(w io.Writer, all []*review.Rule) error {
	out := RulesForm{Passband: "rules", Version: version}
	for _, r := range all {
		form, err := ruleForm(r)
		if err != nil {
			return err
		}
		out.Rules = append(out.Rules, form)
	}
	return WriteJSON(w, out)
}

func ruleForm(r *review.Rule) (RuleForm, error) {
	page, err := review.ParsePage(r.Doc)
	if err != nil {
		return RuleForm{}, fmt.Errorf("the page of %s: %w", r.ID, err)
	}
	return RuleForm{
		Passband: "explain", Version: version, ID: r.ID, Severity: r.Severity, Edition: r.Edition, Title: page.Title,
		What: page.What, Why: page.Why, Fix: page.Fix, Source: page.Source, Fails: page.Fails, Passes: page.Passes,
	}, nil
}
