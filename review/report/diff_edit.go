package report

import (
	"fmt"
	"slices"
	"strings"

	"passband.example/plandiff"
	"passband.example/plandiff/plan"
)

// change says one change.
func (d *Document) change(p *Page, c *plandiff.Change) {
	switch {
	case c.Op == plandiff.Renamed && c.Thing.Kind == plan.KindNeighbor: // its edits tell it
	case c.Op == plandiff.Renamed:
		line := Line{text("has the key "), Span{c.Thing.Key, New}, text(" now, was "), Span{c.Was.Key, Old}, text(" (%s)", match(c.Match))}
		p.detail(0, "", line.and(d.at(c.At)...)...)
	case c.Op == plandiff.Added:
		p.detail(0, "", Line{text("is new: ")}.and(contents(c)...).and(d.at(c.At)...)...)
	case c.Op == plandiff.Removed:
		p.detail(0, "", Line{text("is gone: ")}.and(contents(c)...).and(d.wasAt(c.WasAt)...)...)
	case c.Retuned():
		line := Line{text("moved: ")}.and(value(c.Field("output"))...).and(text(", and members send on ")).and(value(c.Field("input"))...)
		p.detail(0, "", line.and(d.at(c.At)...)...)
	default:
		for i := range c.Edits {
			d.edit(p, &c.Edits[i])
		}
	}
}

func match(m plandiff.Match) string {
	if m.How == plandiff.ByAlike {
		return fmt.Sprintf("%d%% alike", m.Alike)
	}
	return m.How.String()
}

// contents names what a record that came or went holds.
func contents(c *plandiff.Change) Line {
	var line Line
	for _, e := range c.Edits {
		texts := append(append([]string{}, e.Old...), e.New...)
		if e.Form == plan.Flag || len(texts) == 0 {
			continue
		}
		if len(line) > 0 {
			line = append(line, text(", "))
		}
		line = append(line, text("%s ", fieldWords(e.Field)), code(strings.Join(texts, " ")))
	}
	if len(line) == 0 {
		return Line{text("nothing in it")}
	}
	return line
}

// edit says one field with another value.
func (d *Document) edit(p *Page, e *plandiff.Edit) {
	said := value(e)
	if len(e.Steps) > 0 {
		steps := make([]Line, len(e.Steps))
		for i, s := range e.Steps {
			steps[i] = step(s)
		}
		said = listed(steps)
	}
	p.detail(0, "", Line{text("%s: ", fieldWords(e.Field))}.and(said...).and(d.where(e)...)...)
}

// where gives the place of a field, or the one it had.
func (d *Document) where(e *plandiff.Edit) Line {
	switch {
	case !e.NewAt.IsZero():
		return d.at(e.NewAt)
	case !e.OldAt.IsZero():
		return d.wasAt(e.OldAt)
	}
	return nil
}

func step(s plandiff.Step) Line {
	switch s.Op {
	case plandiff.Came:
		return Line{Span{s.Text, New}, text(" added at %d", s.To)}
	case plandiff.Went:
		return Line{Span{s.Text, Old}, text(" taken out")}
	case plandiff.Left:
		return left(s.Text)
	}
	return Line{code(s.Text), text(" moved from %d to %d", s.From, s.To)}
}

// left says that a reference was left as it was when what it named got another key.
func left(ref string) Line {
	return Line{code(ref), text(" still stands there, and what it named has another key now")}
}

// value says an old value and a new one; a longer text piece by piece.
func value(e *plandiff.Edit) Line {
	switch {
	case len(e.Old) == 0 && len(e.New) == 0:
		return Line{text("changed")}
	case len(e.Old) == 0:
		return Line{text("not set -> "), Span{strings.Join(e.New, " "), New}}
	case len(e.New) == 0:
		return Line{Span{strings.Join(e.Old, " "), Old}, text(" -> not set")}
	case len(e.Steps) == 0 && slices.Equal(e.Old, e.New): // each in the keys of its own plan
		return left(strings.Join(e.New, " "))
	case isText(e) && len(e.Old[0])+len(e.New[0]) > 40 && len(e.Old[0])+len(e.New[0]) < mostPieced:
		return pieces(e.Old[0], e.New[0])
	}
	return Line{Span{strings.Join(e.Old, " "), Old}, text(" -> "), Span{strings.Join(e.New, " "), New}}
}

// mostPieced is the length in bytes of two texts from which they are shown whole:
// the time to find pieces grows with its square, and a long note that differs
// much is read sooner than put together.
const mostPieced = 1000

func isText(e *plandiff.Edit) bool {
	switch e.Field {
	case "label", "note", "when", "text", "plan", "reason", "name":
		return e.Form == plan.Scalar
	}
	return false
}

// pieces marks what left a text with [-...-] and what came with {+...+}, so that
// it can be read without colors.
func pieces(old, new string) Line {
	var line Line
	for _, piece := range plandiff.TextPieces(old, new) {
		switch piece.Op {
		case plandiff.Went:
			line = append(line, Span{"[-" + piece.Text + "-]", Old})
		case plandiff.Came:
			line = append(line, Span{"{+" + piece.Text + "+}", New})
		default:
			line = append(line, text("%s", piece.Text))
		}
	}
	return line
}

// fieldWords gives the name of a field as a person says it.
func fieldWords(name string) string {
	if words := ownWords(name); words != "" {
		return words
	}
	if limit, ok := strings.CutPrefix(name, "limits."); ok {
		return "limit of " + strings.ReplaceAll(limit, "_", " ")
	}
	name = strings.TrimPrefix(strings.TrimPrefix(name, "dmr."), "fm.")
	return strings.NewReplacer("_", " ", ".", " ").Replace(name)
}

// ownWords gives the name of a field that its key does not tell.
func ownWords(name string) string {
	switch name {
	case "fm":
		return "FM side"
	case "dmr":
		return "DMR side"
	case "fm.tone.send":
		return "tone sent"
	case "fm.tone.receive":
		return "tone received"
	case "fm.access":
		return "FM access"
	case "dmr.access":
		return "DMR access"
	case "dmr.slot1":
		return "slot 1"
	case "dmr.slot2":
		return "slot 2"
	case "timeout_s":
		return "time-out in s"
	case "site.height_m":
		return "antenna height in m"
	case "site.erp_w":
		return "ERP in W"
	case "license":
		return "license class"
	case plan.FieldWas:
		return "key before, as stated"
	}
	return ""
}
