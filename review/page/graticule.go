package page

import (
	"fmt"
	"math"
	"strings"

	"passband.example/plandiff/signal"
)

// A line is a meridian or a parallel, with its degrees where it meets the frame.
type line struct {
	Path string // of SVG
	X, Y string // of its name
	Text string
	Side bool // a parallel, named at the left
}

// steps are the distances between lines, in millionths of a degree.
var steps = [...]signal.MicroDegrees{10_000, 20_000, 50_000, 100_000, 200_000, 500_000, 1_000_000, 2_000_000, 5_000_000, 10_000_000, 20_000_000, 30_000_000}

// mostLines is how many meridians or parallels a map may have.
const mostLines = 8

// graticule draws the lines of full steps that cross the picture.
func (d *drawing) graticule(p *projection) {
	metersWide, metersHigh := mapWidth/p.scale, p.height/p.scale
	halfLat := metersHigh / 2 / metersPerDegree * 1_000_000
	narrow := max(math.Cos(p.center.Lat.Degrees()*math.Pi/180), 0.05)
	halfLon := metersWide / 2 / metersPerDegree * 1_000_000 / narrow
	mid := p.middle()
	south, north := max(mid.Lat-signal.MicroDegrees(halfLat), -89_000_000), min(mid.Lat+signal.MicroDegrees(halfLat), 89_000_000)
	half := signal.MicroDegrees(min(halfLon, 179_000_000))
	step := stepFor(max(north-south, 0), 2*half)
	// Lines bend: in the corners there are some that do not cross the middle.
	south, north, half = max(south-(north-south)/2, -89_000_000), min(north+(north-south)/2, 89_000_000), min(half+half/2, 179_000_000)
	for lat := ceil(south, step); lat <= north; lat += step {
		d.along(p, angle(lat, "N", "S"), true, func(part float64) signal.Position {
			return signal.Position{Lat: lat, Lon: turned(mid.Lon - half + signal.MicroDegrees(part*2*float64(half)))}
		})
	}
	for lon := ceil(mid.Lon-half, step); lon <= mid.Lon+half; lon += step {
		d.along(p, angle(turned(lon), "E", "W"), false, func(part float64) signal.Position {
			return signal.Position{Lat: south + signal.MicroDegrees(part*float64(north-south)), Lon: turned(lon)}
		})
	}
}

// middle gives about which position is in the middle of the picture.
func (p *projection) middle() signal.Position {
	lat := p.center.Lat + signal.MicroDegrees(p.midY/metersPerDegree*1_000_000)
	narrow := max(math.Cos(p.center.Lat.Degrees()*math.Pi/180), 0.05)
	return signal.Position{Lat: lat, Lon: turned(p.center.Lon + signal.MicroDegrees(p.midX/metersPerDegree*1_000_000/narrow))}
}

// stepFor gives the least step that makes few enough lines.
func stepFor(high, wide signal.MicroDegrees) signal.MicroDegrees {
	for _, step := range steps {
		if max(high, wide)/step <= mostLines {
			return step
		}
	}
	return steps[len(steps)-1] * 2
}

// ceil gives the first multiple of a step that is not below d.
func ceil(d, step signal.MicroDegrees) signal.MicroDegrees {
	low := d / step * step
	if low < d {
		low += step
	}
	return low
}

// pieces is of how many pieces a line is drawn.
const pieces = 24

// along draws a line from what at gives for 0 to what it gives for 1, and names it where it
// crosses the left edge of the picture, or the lower one.
func (d *drawing) along(p *projection, text string, side bool, at func(part float64) signal.Position) {
	var path strings.Builder
	named := line{Text: text, Side: side}
	var last point
	drawing := false
	for i := range pieces + 1 {
		to := p.point(at(float64(i) / pieces))
		if !p.near(to) {
			drawing = false
			continue
		}
		if !drawing {
			fmt.Fprintf(&path, "M%s", to)
		} else {
			fmt.Fprintf(&path, "L%s", to)
			named.place(p, last, to)
		}
		last, drawing = to, true
	}
	if named.Path = path.String(); named.Path != "" {
		d.Lines = append(d.Lines, named)
	}
}

// place names a line where it goes from a to b over the edge, but not at the top, where
// the projection is named, nor where the name would be cut.
func (l *line) place(p *projection, a, b point) {
	switch {
	case l.Side && (a.X < 0) != (b.X < 0):
		if y := a.Y + (b.Y-a.Y)*a.X/(a.X-b.X); y > 36 {
			l.X, l.Y = "6", unit(y-4)
		}
	case !l.Side && (a.Y > p.height) != (b.Y > p.height):
		if x := a.X + (b.X-a.X)*(a.Y-p.height)/(a.Y-b.Y); x >= 0 && x < mapWidth-mapMargin {
			l.X, l.Y = unit(x+4), unit(p.height-6)
		}
	}
}

// inside tells whether a point is in the picture.
func (p *projection) inside(at point) bool {
	return at.X >= 0 && at.X <= mapWidth && at.Y >= 0 && at.Y <= p.height
}

// near tells whether a point is in the picture or close enough to it to be drawn.
func (p *projection) near(at point) bool {
	return at.X > -mapWidth && at.X < 2*mapWidth && at.Y > -p.height && at.Y < 2*p.height
}
