package report

// A Point is one thing that a report lists, with what belongs to it, for a form that lays
// it out in its own way.
type Point struct {
	Line    Line
	Details []Detail
}

// A Detail is a line that belongs to a point, or to the detail before it that is less deep.
type Detail struct {
	Depth int
	Label string // a word of what it is, or ""
	Line  Line
}

// Causes gives what was edited, each record with its changes, and every channel that
// they reach one deeper than what says how many there are.
func Causes(d *Document) []Point {
	whole := *d
	whole.Unfold = true
	p := new(Page)
	whole.causes(p, d.Comparison.Causes)
	return p.points()
}

// points gives the lists of a page.
func (p *Page) points() []Point {
	var all []Point
	for _, b := range p.blocks {
		switch b := b.(type) {
		case item:
			all = append(all, Point{Line: b.line})
		case detail:
			last := &all[len(all)-1]
			last.Details = append(last.Details, Detail{b.depth, b.label, b.line})
		}
	}
	return all
}

// Basis says what a verdict rests on, and who has the last word.
func (d *Document) Basis() string {
	v := d.Verdict
	if v.Skipped != "" {
		return caution
	}
	return "Judged by " + count(v.Rules, "rule") + ", edition " + edition(v.Policy.Edition) + ". " + caution
}
