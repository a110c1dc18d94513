package page

import (
	"fmt"
	"strings"

	"passband.example/plandiff/plan"
	"passband.example/review/report"
)

// changes are the records that somebody edited.
type changes struct {
	Summary string
	Capped  []plan.Kind
	Causes  []cause
	More    int // records that are left out
}

// A cause is one of them, with what it reaches.
type cause struct {
	Line    report.Line
	Edits   []report.Line
	Reaches report.Line // how many channels; nothing where there are none
	Effects []report.Line
	More    int // channels that are left out
	Notes   []report.Detail
}

func (s *sides) changes() *changes {
	if !s.compared() {
		return nil
	}
	c := &changes{Summary: s.summary(), Capped: s.Comparison.Capped}
	points := report.Causes(s.Document)
	if len(points) > MostCauses {
		c.More = len(points) - MostCauses
		points = points[:MostCauses]
	}
	for _, p := range points {
		c.Causes = append(c.Causes, causeOf(p))
	}
	return c
}

// causeOf sorts the lines of a point into what was done, what that reaches, and the rest.
func causeOf(p report.Point) cause {
	c := cause{Line: p.Line}
	for _, d := range p.Details {
		switch {
		case d.Depth >= 2:
			if len(c.Effects) == MostEffects {
				c.More++
				continue
			}
			c.Effects = append(c.Effects, d.Line)
		case d.Depth == 1 && d.Label == "reaches":
			c.Reaches = d.Line
		case d.Depth == 1:
			c.Notes = append(c.Notes, d)
		default:
			c.Edits = append(c.Edits, d.Line)
		}
	}
	return c
}

// summary counts what changed, by weight.
func (s *sides) summary() string {
	n := make(map[plan.Weight]int)
	for i := range s.Comparison.Causes {
		n[s.Comparison.Causes[i].Weight]++
	}
	var parts []string
	for _, w := range []plan.Weight{plan.Air, plan.Layout, plan.Label, plan.Policy} {
		if n[w] > 0 {
			parts = append(parts, fmt.Sprintf("%d %s", n[w], w))
		}
	}
	return fmt.Sprintf("%s to %s: %s.", count(len(s.Comparison.Changes), "change"), count(len(s.Comparison.Causes), "record"), strings.Join(parts, ", "))
}
