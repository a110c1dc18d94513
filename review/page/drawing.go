package page

import (
	"fmt"
	"math"
	"strconv"

	"passband.example/plandiff/signal"
	"passband.example/review/rf"
)

// A drawing is the picture of a map.
type drawing struct {
	Width, Height int
	Projection    string
	Says          string
	Lines         []line // meridians and parallels
	Ways          []way  // to the nearest neighbors, and from where a station moved
	Cells         []outline
	Dots          []dot
	Names         []name
	Scale         scale
	Links         []way // between stations that stand nearer than is asked
	Neighbors     []dot // that one of them leads to
	Many          bool  // a dot stands for all stations around it
}

// The measures of a map, in units of its picture.
const (
	mapWidth  = 960
	mapLeast  = 420 // height
	mapMost   = 760
	mapMargin = 56
)

// A projection is azimuthal equidistant: a point lies in its true direction from the center, as
// far from it as it is. J. P. Snyder, Map Projections: A Working Manual (USGS PP 1395, 1987),
// chapter 25; here by the geodesic on WGS 84.
type projection struct {
	center signal.Position
	scale  float64 // units per meter
	midX   float64 // of what is drawn, in meters from the center
	midY   float64
	height float64
}

// meters gives how far east and north of the center a position is drawn.
func (p *projection) meters(at signal.Position) (x, y float64) {
	way := rf.Geodesic(p.center, at)
	angle := way.Bearing * math.Pi / 180
	return way.Meters * math.Sin(angle), way.Meters * math.Cos(angle)
}

// point gives where a position lies in the picture.
func (p *projection) point(at signal.Position) point {
	x, y := p.meters(at)
	return point{mapWidth/2 + (x-p.midX)*p.scale, p.height/2 - (y-p.midY)*p.scale}
}

type point struct{ X, Y float64 }

// String writes a point as SVG takes it.
func (p point) String() string { return unit(p.X) + "," + unit(p.Y) }

func unit(f float64) string { return strconv.FormatFloat(f, 'f', 1, 64) }

// leastExtent is how many meters a map shows at least, so that one hill does not fill it.
const leastExtent = 12_000

// projectionOf fits a map around the stations.
func projectionOf(all []*station) *projection {
	p := &projection{center: middle(all)}
	west, east, south, north := math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
	take := func(at signal.Position) {
		x, y := p.meters(at)
		west, east, south, north = min(west, x), max(east, x), min(south, y), max(north, y)
	}
	for _, st := range all {
		for _, at := range corners(st.Place) {
			take(at)
		}
		if st.Was != nil {
			take(st.Was.At)
		}
	}
	p.midX, p.midY = (west+east)/2, (south+north)/2
	wide, high := max(east-west, leastExtent), max(north-south, leastExtent/2)
	p.height = min(max((mapWidth-2*mapMargin)*high/wide+2*mapMargin, mapLeast), mapMost)
	p.scale = min((mapWidth-2*mapMargin)/wide, (p.height-2*mapMargin)/high)
	return p
}

// middle gives the center of the projection: between the outermost latitudes, and between the
// outermost longitudes as they lie from the first station.
func middle(all []*station) signal.Position {
	first := all[0].Place.At
	south, north, west, east := first.Lat, first.Lat, signal.MicroDegrees(0), signal.MicroDegrees(0)
	for _, st := range all {
		at := st.Place.At
		south, north = min(south, at.Lat), max(north, at.Lat)
		off := turned(at.Lon - first.Lon)
		west, east = min(west, off), max(east, off)
	}
	return signal.Position{Lat: south + (north-south)/2, Lon: turned(first.Lon + west + (east-west)/2)}
}

// turned gives a longitude or a difference of them within half a turn.
func turned(d signal.MicroDegrees) signal.MicroDegrees {
	const turn = 360_000_000
	d %= turn
	switch {
	case d > turn/2:
		d -= turn
	case d < -turn/2:
		d += turn
	}
	return d
}

// corners gives the corners of the cell that a place is, or the one point.
func corners(p rf.Place) []signal.Position {
	if p.HalfLat == 0 && p.HalfLon == 0 {
		return []signal.Position{p.At}
	}
	corner := func(up, right signal.MicroDegrees) signal.Position {
		return signal.Position{Lat: p.At.Lat + up*p.HalfLat, Lon: turned(p.At.Lon + right*p.HalfLon)}
	}
	return []signal.Position{corner(-1, -1), corner(-1, 1), corner(1, 1), corner(1, -1)}
}

// draw draws the map, nil where there is nothing to draw.
func draw(all []*station, conflicts []conflict) *drawing {
	if len(all) == 0 {
		return nil
	}
	p := projectionOf(all)
	d := &drawing{Width: mapWidth, Height: int(p.height)}
	d.Projection = "azimuthal equidistant about " + coordinates(rounded(p.center)) + ", WGS 84: distances and directions from there are true"
	d.graticule(p)
	d.Scale = scaleOf(p)
	if len(all) > MostMapped {
		d.many(p, all)
		d.links(p, conflicts, newNames(p.height))
	} else {
		d.links(p, conflicts, d.each(p, all))
	}
	d.Says = fmt.Sprintf("A map of %s, with %s.", count(len(all), "repeater"), count(len(d.Links), "line")+" between stations that stand nearer than a separation table asks, or nearly so")
	return d
}

// rounded gives a position to a thousandth of a degree, for people.
func rounded(at signal.Position) signal.Position {
	return signal.Position{Lat: at.Lat / 1_000 * 1_000, Lon: at.Lon / 1_000 * 1_000}
}
