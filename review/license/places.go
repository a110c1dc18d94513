package license

import (
	"strconv"

	"passband.example/plandiff/signal"
)

const (
	placeColumns = "place,label,shape,south,north,west,east,radius_km,tolerance_km,source,edition,confidence,note"
	lineColumns  = "place,latitude,longitude,to_next,note"
)

// readPlaces reads places.csv, and the course of its lines from lines.csv.
func readPlaces(file string, data []byte, lines map[string]line) ([]*Place, error) {
	return readSheet(file, data, placeColumns, func(c *cells) *Place {
		p := &Place{Key: c.need("place"), Label: c.need("label"), Provenance: c.provenance()}
		p.slack = optional(c, "tolerance_km", c.kilometers)
		switch shape := c.text("shape"); shape {
		case "box":
			p.area = box{
				south: c.degrees("south", signal.ParseLatitude), north: c.degrees("north", signal.ParseLatitude),
				west: c.degrees("west", signal.ParseLongitude), east: c.degrees("east", signal.ParseLongitude),
				belt: c.kilometers("radius_km"),
			}
		case "line":
			if len(lines[p.Key]) == 0 {
				c.problem("lines.csv has no points of %q", p.Key)
				break
			}
			p.area = lines[p.Key]
		case "unknown":
		default:
			c.problem("shape %.40q is none of box, line, unknown", shape)
		}
		return p
	})
}

// readLines reads lines.csv: the points of each line, from west to east.
func readLines(file string, data []byte) (map[string]line, error) {
	lines := map[string]line{}
	_, err := readSheet(file, data, lineColumns, func(c *cells) vertex {
		key := c.need("place")
		v := vertex{
			lat: c.degrees("latitude", signal.ParseLatitude), lon: c.degrees("longitude", signal.ParseLongitude),
			next: word(c, "to_next", legNames),
		}
		if n := len(lines[key]); n > 0 && lines[key][n-1].lon > v.lon {
			c.problem("the points must run from west to east")
		}
		lines[key] = append(lines[key], v)
		return v
	})
	return lines, err
}

func (c *cells) degrees(column string, parse func(string) (signal.MicroDegrees, error)) float64 {
	d, err := parse(c.text(column))
	if err != nil {
		c.problem("%s: %v", column, err)
	}
	return d.Degrees()
}

func (c *cells) kilometers(column string) float64 {
	km, err := strconv.ParseFloat(c.text(column), 64)
	if err != nil || !(km >= 0 && km < 20_000) {
		c.problem("%s %.40q is no distance in km", column, c.text(column))
		return 0
	}
	return km
}
