package page

import (
	"cmp"

	"passband.example/review/rf"
	"passband.example/review/survey"
)

// A conflict is two stations that stand nearer to each other than a separation table asks, or
// nearly so: a line on the map, and a row beside it.
type conflict struct {
	survey.Conflict
	Class string // of the line: co, adjacent or crossed, and accepted where a coordinator remarked on it
	Other string
	Short string // whether they stand nearer than is asked
}

// conflicts gives what the survey found, the gravest first, and how many are left out.
func (s *sides) conflicts() (all []conflict, more int) {
	found := s.survey.Conflicts
	n := min(len(found), MostListed)
	for _, c := range found[:n] {
		class := [...]string{"co", "adjacent", "crossed"}[c.Kind]
		if len(c.Remarks) > 0 {
			class += " accepted"
		}
		all = append(all, conflict{
			Conflict: c, Class: class, Other: c.Other.Name,
			Short: map[rf.Answer]string{rf.Yes: "nearer than asked", rf.No: "hardly farther than asked", rf.CannotTell: "cannot tell from a locator"}[c.Conflict.Short],
		})
	}
	return all, len(found) - n + s.survey.HeldBack
}

// links draws the conflicts, and the neighbors that are part of one. A line that leaves the
// picture leads to a neighbor beyond it.
func (d *drawing) links(p *projection, all []conflict, names *names) {
	known := make(map[string]bool)
	for i := range all {
		c := &all[i]
		if c.Ours.Place == nil || c.Conflict.Other.Place == nil {
			continue
		}
		from, to := p.point(c.Ours.Place.At), p.point(c.Conflict.Other.Place.At)
		d.Links = append(d.Links, way{Class: c.Class, X1: unit(from.X), Y1: unit(from.Y), X2: unit(to.X), Y2: unit(to.Y), Title: c.Text()})
		if n := c.Conflict.Other.Neighbor; n != nil && !known[c.Other] && p.inside(to) {
			known[c.Other] = true
			d.Neighbors = append(d.Neighbors, dot{X: unit(to.X - 4), Y: unit(to.Y - 4), Title: c.Other})
			d.Names = names.put(d.Names, cmp.Or(n.Label.V, c.Other), to, 9)
		}
	}
}
