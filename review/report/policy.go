package report

import (
	"io"
	"strconv"

	"passband.example/plandiff/plan"
	"passband.example/review"
)

// PolicyForm is what is in force for a plan and where it was written, for programs and
// for Policy. A rule is listed where it is not as severe as it is by itself.
type PolicyForm struct {
	Passband   string         `json:"passband"`
	Version    int            `json:"version"`
	Plan       string         `json:"plan,omitempty"`
	At         *Origin        `json:"at"`
	Rules      int            `json:"rules"`
	Header     []HeaderForm   `json:"header"`
	Severities []SeverityForm `json:"severities"`
	Accepted   []AcceptForm   `json:"accepted"`
	Tables     []RowsForm     `json:"tables"`
	Caution    string         `json:"caution"`
}

// HeaderForm is a key of plan.yaml that rules go by. Value is "" where it is not set.
type HeaderForm struct {
	Name  string     `json:"name"`
	Value string     `json:"value"`
	At    plan.Place `json:"at,omitzero"`
}

// SeverityForm is a rule that is not as severe as it is by itself.
type SeverityForm struct {
	Rule    string     `json:"rule"`
	Usual   string     `json:"usual"`
	InForce string     `json:"in_force"`
	Because string     `json:"because"`
	At      plan.Place `json:"at,omitzero"`
}

// AcceptForm is a finding that the club lives with, and how many of today it covers.
type AcceptForm struct {
	Rule    string     `json:"rule"`
	Of      string     `json:"of"`
	Until   string     `json:"until"`
	Reason  string     `json:"reason"`
	Covers  int        `json:"covers"`
	Expired bool       `json:"expired"`
	At      plan.Place `json:"at"`
}

// RowsForm is a table of the club's own, and how many rows of it count.
type RowsForm struct {
	File string `json:"file"`
	Rows int    `json:"rows"`
}

// PolicyOf says what is in force for the judged plan of a document on this day.
func PolicyOf(d *Document, rules []*review.Rule, today plan.Date) PolicyForm {
	p := d.Expansion.Plan
	out := PolicyForm{
		Passband: "policy", Version: version, Plan: p.Header.Title.Or(""), At: d.New, Rules: d.Verdict.Rules,
		Severities: []SeverityForm{}, Accepted: []AcceptForm{}, Caution: caution,
	}
	h := p.Header
	for _, v := range []struct {
		name  string
		value plan.Value[string]
	}{{"edition", plan.Value[string]{Text: h.Edition.Text, At: h.Edition.At}}, {"region", h.Region}, {"license", h.License}, {"area", h.Area}, {"neighbors", h.List}} {
		out.Header = append(out.Header, HeaderForm{v.name, v.value.Text, v.value.At})
	}
	policy := d.Verdict.Policy
	if !h.Edition.IsSet() {
		out.Header[0].Value = strconv.Itoa(policy.Edition)
	}
	for _, r := range rules {
		if now, eased := policy.SeverityOf(r); now != r.Severity {
			out.Severities = append(out.Severities, severityForm(policy, r, now, eased))
		}
	}
	covers := make(map[*plan.Acceptance]int)
	for _, a := range d.Verdict.Accepted {
		covers[a.By]++
	}
	for _, a := range policy.Acceptances {
		out.Accepted = append(out.Accepted, AcceptForm{
			a.Rule.Text, a.At.Text, a.Until.Text, a.Reason.Text, covers[a], a.Until.IsSet() && a.Until.V.Before(today), a.Place(),
		})
	}
	out.Tables = []RowsForm{{plan.LicenseFile, p.LicenseRows.Len()}, {plan.SeparationFile, p.SeparationRows.Len()}, {plan.NeighborsFile, p.Neighbors.Len()}}
	return out
}

func severityForm(policy review.Policy, r *review.Rule, now review.Severity, eased string) SeverityForm {
	f := SeverityForm{Rule: r.ID, Usual: r.Severity.String(), InForce: now.String(), Because: eased}
	for _, set := range policy.Severities {
		if set.Key.V == r.ID {
			f.At = set.Place()
		}
	}
	if f.Because == "" {
		f.Because = "by the policy of the plan"
	}
	return f
}

// Policy reports what is in force for a plan, and where that was written.
func Policy(d *Document, f PolicyForm) *Page {
	p := new(Page)
	d.title(p, "Policy")
	p.heading(2, text("What it is judged by"))
	t := table{head: []string{"key", "value", "at"}, numbers: []bool{false, false, false}}
	for _, h := range f.Header {
		value := code(h.Value)
		switch {
		case h.Value == "":
			value = faint("not set")
		case h.At.IsZero():
			value = text("%s, since none is set", h.Value)
		}
		t.rows = append(t.rows, []Span{text("%s", h.Name), value, d.cell(h.At)})
	}
	p.table(t)
	for _, rows := range f.Tables {
		if rows.Rows > 0 {
			p.item(0, code(rows.File), text(": %s of the club's own", count(rows.Rows, "row")))
		}
	}
	p.heading(2, text("Rules that are not as severe as by themselves"))
	t = table{head: []string{"rule", "usual", "in force", "because", "at"}, numbers: make([]bool, 5)}
	for _, s := range f.Severities {
		t.rows = append(t.rows, []Span{code(s.Rule), text("%s", s.Usual), strong(s.InForce), text("%s", s.Because), d.cell(s.At)})
	}
	p.tableOr(t, "none")
	p.heading(2, text("Findings that the club lives with"))
	t = table{head: []string{"rule", "of", "until", "covers today", "reason", "at"}, numbers: []bool{false, false, false, true, false, false}}
	for _, a := range f.Accepted {
		covers := text("%d", a.Covers)
		if a.Expired {
			covers = Span{"expired", Warns}
		}
		t.rows = append(t.rows, []Span{code(a.Rule), code(a.Of), text("%s", a.Until), covers, text("%s", a.Reason), d.cell(a.At)})
	}
	p.tableOr(t, "none")
	if d.Verdict.Skipped != "" {
		p.paragraph(Span{"The rules do not run", Warns}, text(": %s", d.Verdict.Skipped))
	}
	p.paragraph(text("%d rules; passband explain lists them, and the page of each. A change is judged by the policy of the plan it would go into, never by its own.", f.Rules))
	p.paragraph(faint("%s", caution))
	return p
}

// tableOr writes a table, or a word where it has no rows.
func (p *Page) tableOr(t table, none string) {
	if len(t.rows) == 0 {
		p.paragraph(text("%s", none))
		return
	}
	p.table(t)
}

// cell gives a place as a cell of a table.
func (d *Document) cell(at plan.Place) Span {
	if at.IsZero() {
		return Span{}
	}
	return Span{d.place(at), At}
}

// PolicyJSON writes Policy for programs.
func PolicyJSON(w io.Writer, f PolicyForm) error { return WriteJSON(w, f) }
