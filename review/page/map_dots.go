package page

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// A dot is a station, or all of those around it.
type dot struct {
	X, Y, R string
	State   string
	Locator bool
	Title   string
	Text    string // how many it stands for
	TextY   string
}

// A way leads from one point to another, with a distance at its middle.
type way struct {
	Class          string
	X1, Y1, X2, Y2 string
	X, Y           string
	Text           string
	Title          string
}

// An outline is the cell of a locator.
type outline struct{ Points, Title string }

// mostNamed is how many stations may have their distances written.
const mostNamed = 60

// each draws the stations one by one, and gives where names stand.
func (d *drawing) each(p *projection, all []*station) *names {
	seen := make(map[[2]*station]bool)
	names := newNames(float64(d.Height))
	at := make(map[*station]point, len(all))
	for _, st := range all {
		at[st] = p.point(st.Place.At)
		names.keep(at[st], 7)
	}
	for _, st := range all {
		d.one(p, st, at[st])
	}
	for _, changed := range []bool{true, false} {
		for _, st := range all {
			if (st.State != "") == changed {
				text, off := st.named()
				d.Names = names.put(d.Names, text, at[st], off)
			}
		}
	}
	for _, st := range all {
		if st.Near == nil || len(all) > mostNamed || seen[[2]*station{st.Near, st}] {
			continue
		}
		seen[[2]*station{st, st.Near}] = true
		d.Ways = append(d.Ways, names.between(st, at[st], at[st.Near]))
	}
	return names
}

// named gives the name of a station with what became of it, and how far off it stands.
func (st *station) named() (text string, off float64) {
	switch st.State {
	case "":
		return st.Label, 9
	case "came":
		text = "+ "
	case "went":
		text = "− "
	}
	return text + st.Label, 14 // a ring is around it
}

// one draws a station, its cell, and from where it moved.
func (d *drawing) one(p *projection, st *station, at point) {
	title := st.Label + " (" + st.Key + "), " + st.Where
	if st.Output != "" {
		title += ", " + st.Output + " MHz"
	}
	if st.State != "" {
		title += ", " + stateWords(st.State)
	}
	if st.Locator {
		var points []string
		for _, c := range corners(st.Place) {
			points = append(points, p.point(c).String())
		}
		d.Cells = append(d.Cells, outline{strings.Join(points, " "), title})
	}
	if st.Was != nil {
		from := p.point(st.Was.At)
		d.Ways = append(d.Ways, way{Class: "moved", X1: unit(from.X), Y1: unit(from.Y), X2: unit(at.X), Y2: unit(at.Y), Title: st.Label + " moved"})
	}
	d.Dots = append(d.Dots, dot{X: unit(at.X), Y: unit(at.Y), R: "5", State: st.State, Locator: st.Locator, Title: title})
}

func stateWords(state string) string {
	switch state {
	case "came":
		return "new"
	case "went":
		return "gone"
	}
	return state
}

// cellUnits is the size of the squares in which many stations are counted.
const cellUnits = 24

// many draws how many stations stand in each square of the picture.
func (d *drawing) many(p *projection, all []*station) {
	d.Many = true
	type square struct{ x, y int }
	counts := make(map[square]int)
	var order []square
	most := 0
	for _, st := range all {
		at := p.point(st.Place.At)
		s := square{int(at.X) / cellUnits, int(at.Y) / cellUnits}
		if counts[s] == 0 {
			order = append(order, s)
		}
		counts[s]++
		most = max(most, counts[s])
	}
	for _, s := range order {
		n := counts[s]
		radius := 3 + 9*math.Sqrt(float64(n)/float64(most))
		one := dot{X: strconv.Itoa(s.x*cellUnits + cellUnits/2), Y: strconv.Itoa(s.y*cellUnits + cellUnits/2), R: unit(radius), Title: count(n, "repeater")}
		if n > 1 && radius > 7 {
			one.Text, one.TextY = fmt.Sprint(n), strconv.Itoa(s.y*cellUnits+cellUnits/2+4)
		}
		d.Dots = append(d.Dots, one)
	}
}
