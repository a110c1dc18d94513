package report

import (
	"io"
	"slices"
	"strings"

	"github.com/rivo/uniseg"

	"passband.example/plandiff"
	"passband.example/plandiff/chronicle"
	"passband.example/plandiff/history"
	"passband.example/plandiff/plan"
)

// Trace reports where every attribute of a thing comes from.
func Trace(d *Document, traces []*chronicle.Trace) *Page {
	p := new(Page)
	for _, t := range traces {
		d.trace(p, t)
	}
	return p
}

func (d *Document) trace(p *Page, t *chronicle.Trace) {
	line := Line{strong(t.Thing.String())}
	if t.Label != "" && t.Label != t.Thing.Key {
		line = append(line, text(" (%s)", t.Label))
	}
	p.heading(1, line.and(d.at(t.At)...)...)
	rows := table{head: []string{"attribute", "value", "was", "commit"}, numbers: make([]bool, 4)}
	var commits []*history.Commit
	seen := make(map[string]bool)
	for _, a := range t.Attributes {
		rows.rows = append(rows.rows, attributeRow(t, a))
		if c := a.Origin.Commit; c != nil && !seen[c.Hash] {
			seen[c.Hash] = true
			commits = append(commits, c)
		}
	}
	p.table(rows)
	p.paragraph(faint("Where nothing stands under was, it has been so from its first day; the commits:"))
	for _, c := range commits {
		p.item(0, code(c.Short()), text(" %s %s: %s", day(c.When), c.Author, subject(*c)))
	}
	if older(t.Attributes) {
		p.item(0, text("earlier: not in this shallow clone (\"git fetch --unshallow\" fetches it)"))
	}
	if t.Channel {
		d.sources(p, t)
	}
}

func older(attributes []chronicle.Attribute) bool {
	return slices.ContainsFunc(attributes, func(a chronicle.Attribute) bool { return a.Origin.Hidden })
}

// attributeRow tells one attribute; the items of a list have rows of their own.
func attributeRow(t *chronicle.Trace, a chronicle.Attribute) []Span {
	name, value := text("%s", attributeWords(t, a.Name)), code(clipped(strings.Join(a.Value, " ")))
	if a.Item {
		name = Span{}
	} else if len(a.Value) > 1 {
		value = text("%s", entries(a.Value))
	}
	return []Span{name, value, was(a), changedIn(a.Origin)}
}

func entries(items []string) string {
	if len(items) == 1 {
		return items[0]
	}
	return count(len(items), "entry")
}

// changedIn names the commit in which something changed last; who made it, and
// when, stands below the table.
func changedIn(o chronicle.Origin) Span {
	switch {
	case o.Hidden:
		return faint("earlier")
	case o.Commit == nil:
		return text("not recorded yet")
	}
	return code(o.Commit.Short())
}

func was(a chronicle.Attribute) Span {
	o := a.Origin
	switch {
	case o.Hidden || o.Op == plandiff.Added:
		return Span{} // it has been so from its first day
	case o.Step == plandiff.Moved:
		return text("at %s", o.Was[0])
	case o.Step == plandiff.Came:
		return faint("not in it")
	case len(o.Was) == 0:
		return faint("not set")
	case len(a.Value) > 1:
		return Span{entries(o.Was), Old}
	}
	return Span{clipped(strings.Join(o.Was, " ")), Old}
}

// longestCell is how wide a value may be in the table, so that the rest fits beside
// it; the JSON form has all of it.
const longestCell = 24

// clipped shortens a long value, and shows that it did.
func clipped(s string) string {
	s = Visible(s)
	if uniseg.StringWidth(s) <= longestCell {
		return s
	}
	var b strings.Builder
	width := 0
	for g := uniseg.NewGraphemes(s); g.Next(); {
		if width += g.Width(); width > longestCell-1 {
			break
		}
		b.WriteString(g.Str())
	}
	return strings.TrimRight(b.String(), " ") + "…"
}

func attributeWords(t *chronicle.Trace, name string) string {
	if name == chronicle.KeyAttribute && t.Channel {
		return "name"
	}
	if t.Channel {
		return name
	}
	return fieldWords(name)
}

// sources lists the lines that make a channel what it is.
func (d *Document) sources(p *Page, t *chronicle.Trace) {
	p.heading(2, text("Where it stands"))
	for _, a := range t.Attributes {
		var parts []Line
		for _, w := range a.From {
			if w.Field == chronicle.KeyAttribute {
				continue
			}
			parts = append(parts, Line{code(w.Thing.String()), text(" %s", fieldWords(w.Field))}.and(d.at(w.At)...))
		}
		if len(parts) > 0 {
			p.item(0, append(Line{text("%s: ", attributeWords(t, a.Name))}, listed(parts)...)...)
		}
	}
}

// TraceForm is the JSON form of Trace.
type TraceForm struct {
	Passband string      `json:"passband"`
	Version  int         `json:"version"`
	Plan     string      `json:"plan"`
	At       *Origin     `json:"at"`
	Things   []ThingForm `json:"things"`
}

// ThingForm is one thing with its attributes; worked out says that it is a channel
// as a radio has it, and not a record.
type ThingForm struct {
	Thing      plan.Thing      `json:"thing"`
	WorkedOut  bool            `json:"worked_out"`
	Attributes []AttributeForm `json:"attributes"`
}

// AttributeForm is an attribute; the commit is null where the change is not
// recorded yet, or, with hidden, where a shallow clone does not have it.
type AttributeForm struct {
	Name   string      `json:"name"`
	Item   bool        `json:"item,omitempty"` // the value is one item of a list
	Value  []string    `json:"value"`
	Weight plan.Weight `json:"weight"`
	From   []FromForm  `json:"from"`
	Commit *CommitForm `json:"commit"`
	Hidden bool        `json:"hidden,omitempty"`
	Op     plandiff.Op `json:"op"`
	Was    []string    `json:"was"`
	As     string      `json:"as,omitempty"` // the key after that commit
}

// FromForm is a field that says an attribute.
type FromForm struct {
	Thing plan.Thing `json:"thing"`
	Field string     `json:"field"`
	Item  string     `json:"item,omitempty"` // where it is only one item of a list that matters
	At    plan.Place `json:"at"`
}

// TraceJSON writes Trace for programs.
func TraceJSON(w io.Writer, d *Document, traces []*chronicle.Trace) error {
	out := TraceForm{Passband: "trace", Version: version, Plan: d.Expansion.Plan.Header.Title.Or(""), At: d.New, Things: []ThingForm{}}
	for _, t := range traces {
		thing := ThingForm{Thing: t.Thing, WorkedOut: t.Channel, Attributes: []AttributeForm{}}
		for _, a := range t.Attributes {
			f := AttributeForm{Name: a.Name, Item: a.Item, Value: orEmpty(a.Value), Weight: a.Weight, From: []FromForm{}, Hidden: a.Origin.Hidden,
				Op: a.Origin.Op, Was: orEmpty(a.Origin.Was), As: a.Origin.As}
			for _, from := range a.From {
				f.From = append(f.From, FromForm(from))
			}
			if c := a.Origin.Commit; c != nil {
				form := commitForm(*c)
				f.Commit = &form
			}
			thing.Attributes = append(thing.Attributes, f)
		}
		out.Things = append(out.Things, thing)
	}
	return WriteJSON(w, out)
}
