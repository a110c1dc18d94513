package page

import h "passband.example/review/markup"

func (f *findings) html() *h.Node {
	return section("findings", "Findings",
		lead(h.Text(f.lead())),
		h.Each(f.Fresh, group.html),
		folded(f.Gone, "gone with this change"),
		folded(f.Still, "stood before, not held against this change"),
		folded(f.Accepted, "that the club has accepted"),
		h.If(f.More > 0, h.El("p", h.Class("more"), h.Text(more(f.More, "finding")+" left out here; "), h.El("code", h.Text("passband "+f.command())), h.Text(" prints all of them."))))
}

// lead says what the findings are.
func (f *findings) lead() string {
	switch {
	case len(f.Fresh) > 0 && f.Change:
		return "What this change brings, the gravest first."
	case len(f.Fresh) > 0:
		return "The gravest first."
	case f.Change:
		return "The change brings no finding."
	}
	return "No finding."
}

// command is the one that prints all findings.
func (f *findings) command() string {
	if f.Change {
		return "review"
	}
	return "check"
}

func (g group) html() *h.Node {
	first := h.Each(g.Shown, finding.html)
	if len(g.Folded) == 0 {
		return first
	}
	summary := h.Group(h.Text(count(len(g.Folded), "finding")+" more of the rule "), shown(g.Folded[0].Rule))
	return h.Group(first, fold(summary, h.Each(g.Folded, finding.html)))
}

// folded hides findings that are not held against the plan behind how many they are.
func folded(all []finding, what string) *h.Node {
	if len(all) == 0 {
		return nil
	}
	return fold(h.Text(count(len(all), "finding")+" "+what), h.Each(all, finding.html))
}

func (f finding) html() *h.Node {
	severity := f.Severity.String()
	return h.El("article", h.Class("finding sev-"+severity),
		h.El("h3", span("sev", h.Text(severity)), h.Text(" "), shown(f.What)),
		h.El("dl",
			term("where", h.El("code", h.Class("at"), shown(f.Place))),
			term("why", optional(f.Why)),
			term("do", optional(f.Fix)),
			h.If(len(f.Mend) > 0, term("mend", h.Group(h.Text("a machine can mend this: "), h.El("code", h.Text("passband check --fix"))))),
			h.Each(f.See, func(r related) *h.Node {
				return term("see", h.Group(h.If(r.Place != "", h.El("code", h.Class("at"), shown(r.Place)), h.Text(": ")), shown(r.Text)))
			}),
			term("rests on", optional(f.Source)),
			term("milder", optional(f.Eased)),
			h.If(f.Until != "", term("accepted", h.Group(h.Text("until "), shown(f.Until), h.Text(": "), shown(f.Reason)))),
			term("rule", h.El("code", h.Text("passband explain "), shown(f.Rule)))))
}

// term is a row of what is known of a finding, or nothing where that is nil.
func term(name string, said *h.Node) *h.Node {
	if said == nil {
		return nil
	}
	return h.Group(h.El("dt", h.Text(name)), h.El("dd", said))
}

// optional is a text, or nil where there is none.
func optional(s string) *h.Node {
	if s == "" {
		return nil
	}
	return shown(s)
}
