package rf

import (
	"cmp"
	"slices"

	"passband.example/plandiff/signal"
)

// A plot holds stations by frequency, and those of one frequency by how far north they stand, so
// that what is near in both can be found without looking at all.
type plot struct {
	search   *search
	channels []channel
}

// A channel is the stations on one frequency, by their height over the plane of the equator.
type channel struct {
	at    signal.Hertz
	list  []entry
	slack float64 // the largest of any of its stations, m
}

// An entry repeats the spot of a station, side by side with its neighbors, for speed.
type entry struct {
	at    [3]float64
	slack float64
	i     int
}

// plot sorts the stations by one of their frequencies.
func (s *search) plot(frequency func(*Station) signal.Hertz) *plot {
	var order []int
	for i := range s.stations {
		if s.spots[i].known && Band(frequency(&s.stations[i])) != "" {
			order = append(order, i)
		}
	}
	slices.SortFunc(order, func(i, j int) int {
		return cmp.Or(
			cmp.Compare(frequency(&s.stations[i]), frequency(&s.stations[j])),
			cmp.Compare(s.spots[i].at[2], s.spots[j].at[2]),
			cmp.Compare(i, j))
	})
	p := &plot{search: s}
	for _, i := range order {
		f := frequency(&s.stations[i])
		if n := len(p.channels); n == 0 || p.channels[n-1].at != f {
			p.channels = append(p.channels, channel{at: f})
		}
		last := &p.channels[len(p.channels)-1]
		last.list = append(last.list, entry{at: s.spots[i].at, slack: s.spots[i].slack, i: i})
		last.slack = max(last.slack, s.spots[i].slack)
	}
	return p
}

// near calls visit with every other station whose frequency is within the window of f, and whose place
// is within what the table asks there of any two stations, times the factor of the search.
func (p *plot) near(i int, f signal.Hertz, visit func(i, j int)) {
	ladders := p.search.table.band(f)
	window := ladders.window()
	from, _ := slices.BinarySearchFunc(p.channels, f-window, func(c channel, f signal.Hertz) int { return cmp.Compare(c.at, f) })
	for _, c := range p.channels[from:] {
		if c.at >= f+window {
			return
		}
		if asked := ladders.widest(distant(c.at, f)); asked > 0 {
			c.near(i, &p.search.spots[i], p.search.factor*asked, func(j int) { visit(i, j) })
		}
	}
}

// near calls visit with every station but i within reach of a spot, in meters, as far as the slack
// of both allows.
func (c *channel) near(i int, s *spot, reach float64, visit func(j int)) {
	reach += s.slack
	south := s.at[2] - reach - c.slack
	from, _ := slices.BinarySearchFunc(c.list, south, func(e entry, z float64) int { return cmp.Compare(e.at[2], z) })
	for k := range c.list[from:] {
		e := &c.list[from+k]
		if e.at[2] > s.at[2]+reach+c.slack {
			return
		}
		x, y, z := e.at[0]-s.at[0], e.at[1]-s.at[1], e.at[2]-s.at[2]
		within := reach + e.slack
		if x*x+y*y+z*z < within*within && e.i != i {
			visit(e.i)
		}
	}
}
