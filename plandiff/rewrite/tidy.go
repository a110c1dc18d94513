package rewrite

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/rewrite/layout"
)

// Tidy gives a plan one layout, and gives the files that are different then: keys in
// the order of the model, records as they stand, spacing as layout.Format has it,
// numbers in the form in which passband writes them. Comments and quotes stay, and
// the plan means the same: what was laid out is read again and compared, and every
// comment is counted. Tidying twice changes nothing more.
//
// The error names the place that cannot be laid out; then no file is given.
func Tidy(files map[string][]byte, p *plan.Plan) (map[string][]byte, error) {
	if len(p.Problems) > 0 {
		return nil, fmt.Errorf("the plan has places that cannot be read, the first at %w", p.Problems[0])
	}
	e := &editor{files: files, old: p, want: p, trees: map[string]*tree{}, tables: map[string]*table{}}
	if err := e.open(true); err != nil {
		return nil, err
	}
	if err := e.spell(); err != nil {
		return nil, err
	}
	texts, rank := make(map[string][]byte), ranking()
	for name, t := range e.trees {
		before := t.doc.Comments()
		text, err := t.doc.Format(rank)
		if err != nil {
			return nil, unshaped(name, err)
		}
		if err := sameComments(name, before, text); err != nil {
			return nil, err
		}
		texts[name] = text
	}
	for name, t := range e.tables {
		if !t.s.WholeRows() {
			texts[name] = t.tidy()
		}
	}
	maps.DeleteFunc(texts, func(name string, text []byte) bool { return string(files[name]) == string(text) })
	if err := e.verify(texts); err != nil {
		return nil, err
	}
	return texts, nil
}

// spell writes numbers, and words that may be written in several ways, as passband
// writes them.
func (e *editor) spell() error {
	for _, s := range plan.Sections() {
		for _, r := range s.All(e.old) {
			for i := range s.Fields {
				if err := e.spellField(&s.Fields[i], r); err != nil {
					return err
				}
			}
		}
	}
	return nil
}

func (e *editor) spellField(f *plan.Field, r plan.Record) error {
	if f.Form == plan.Flag || f.Ref != plan.NoRef || e.trees[r.Place().File] == nil {
		return nil
	}
	if rep, ok := r.(*plan.Repeater); ok && f.Name == "input" && !rep.Input.IsSet() {
		return nil // it follows from the split
	}
	for _, item := range f.Items(r) {
		t := e.trees[item.At.File]
		if t == nil {
			continue
		}
		at, ok := t.values[at{item.At.Line, item.At.Col}]
		if !ok || at.locked != nil || at.entry.Value.IsText() || at.entry.Value.Value == item.Text {
			continue
		}
		at.entry.SetText(item.Text, at.in.Flow)
	}
	return e.spellSplit(r)
}

// spellSplit writes a split, which is no field where the input tells the same.
func (e *editor) spellSplit(r plan.Record) error {
	rep, ok := r.(*plan.Repeater)
	if !ok || !rep.Split.IsSet() || rep.Split.Text == rep.Split.V.String() {
		return nil
	}
	if at, ok := e.trees[rep.Split.At.File].values[at{rep.Split.At.Line, rep.Split.At.Col}]; ok && at.locked == nil {
		at.entry.SetText(rep.Split.V.String(), at.in.Flow)
	}
	return nil
}

// ranking gives the order of the model, in which the keys of a block are looked for once.
func ranking() layout.Order {
	known := make(map[string]int)
	return func(above []string, key string) int {
		if len(above) < 2 {
			return rank(above, key)
		}
		place := above[0] + "\x00" + strings.Join(above[2:], "\x00") + "\x00\x00" + key
		if above[0] == "review" {
			place = above[1] + "\x00" + place
		}
		at, ok := known[place]
		if !ok {
			at = rank(above, key)
			known[place] = at
		}
		return at
	}
}

// rank gives the order of the model: sections, and the keys of records.
func rank(above []string, key string) int {
	if len(above) > 0 && above[0] == "review" {
		above = above[1:]
		if len(above) == 0 {
			return slices.Index([]string{"severity", "accept"}, key)
		}
	}
	for i, s := range plan.Sections() {
		switch {
		case len(above) == 0 && s.Kind == plan.KindPlan && s.Field(key) != nil:
			return slices.Index(keysOf(s, ""), key)
		case len(above) == 0 && s.Key == key && outerOf(s) == "":
			return 100 + i
		case len(above) > 1 && s.Key == above[0] && s.Kind != plan.KindPlan && s.Key != "":
			return slices.Index(keysOf(s, strings.Join(above[2:], ".")), key)
		}
	}
	if len(above) == 0 {
		return 1000 // review
	}
	return 0 // records stay in their order
}

// sameComments makes sure that no comment was lost.
func sameComments(name string, before []string, text []byte) error {
	d, err := layout.Parse(text)
	if err != nil {
		return fmt.Errorf("%s cannot be laid out so that it is read back (%w); it stays as it is", name, err)
	}
	after := d.Comments()
	slices.Sort(before)
	slices.Sort(after)
	if !slices.Equal(before, after) {
		return fmt.Errorf("%s cannot be laid out without losing the comment %q; it stays as it is", name, firstMissing(before, after))
	}
	return nil
}

func firstMissing(before, after []string) string {
	for i, c := range before {
		if i >= len(after) || after[i] != c {
			return c
		}
	}
	return ""
}

// tidy gives the table with its cells trimmed and quoted only where they must be.
func (t *table) tidy() []byte {
	var b strings.Builder
	for i, line := range t.lines {
		line = strings.TrimPrefix(line, "\uFEFF")
		if strings.TrimSpace(line) == "" {
			continue
		}
		row := cells(line)
		for j := range row {
			if row[j] = strings.TrimSpace(unquoted(row[j])); i == 0 {
				row[j] = strings.ToLower(row[j])
			}
			row[j] = quotedCell(row[j], false)
		}
		b.WriteString(strings.Join(row, ",") + "\n")
	}
	return []byte(b.String())
}
