package page

// A name stands beside a station.
type name struct {
	Anchor string // of SVG: start, middle or end
	X, Y   string
	Text   string
}

// names puts texts where nothing stands yet, so that they can be read.
type names struct {
	height float64
	taken  []box
}

type box struct{ left, top, right, bottom float64 }

func newNames(height float64) *names { return &names{height: height} }

func (b box) meets(o box) bool {
	return b.left < o.right && o.left < b.right && b.top < o.bottom && o.top < b.bottom
}

// keep keeps the surroundings of a point free.
func (n *names) keep(at point, radius float64) {
	n.taken = append(n.taken, box{at.X - radius, at.Y - radius, at.X + radius, at.Y + radius})
}

// take takes a box if it is free and in the picture.
func (n *names) take(b box) bool {
	if b.left < 2 || b.right > mapWidth-2 || b.top < 2 || b.bottom > n.height-2 {
		return false
	}
	for _, o := range n.taken {
		if b.meets(o) {
			return false
		}
	}
	n.taken = append(n.taken, b)
	return true
}

// The size of a letter of a name, in units, broad rather than narrow.
const (
	nameLetter = 6.6
	nameHeight = 14
)

// put adds a name right of a point, left, above or below; none where there is no room: the
// table has it.
func (n *names) put(all []name, text string, at point, off float64) []name {
	if r := []rune(text); len(r) > 22 {
		text = string(r[:21]) + "…"
	}
	w := float64(len([]rune(text))) * nameLetter
	for _, try := range []struct {
		anchor string
		at     point // of the anchor
		left   float64
	}{
		{"start", point{at.X + off, at.Y - nameHeight/2}, at.X + off},
		{"end", point{at.X - off, at.Y - nameHeight/2}, at.X - off - w},
		{"middle", point{at.X, at.Y - off - nameHeight}, at.X - w/2},
		{"middle", point{at.X, at.Y + off}, at.X - w/2},
	} {
		if n.take(box{try.left, try.at.Y, try.left + w, try.at.Y + nameHeight}) {
			return append(all, name{try.anchor, unit(try.at.X), unit(try.at.Y + nameHeight - 3), text})
		}
	}
	return all
}

// between draws the way to the nearest neighbor, with its length where there is room.
func (n *names) between(st *station, a, b point) way {
	w := way{Class: "near", X1: unit(a.X), Y1: unit(a.Y), X2: unit(b.X), Y2: unit(b.Y), Title: st.Label + " to " + st.Near.Label + ": " + st.Distance}
	mid := point{(a.X + b.X) / 2, (a.Y + b.Y) / 2}
	half := float64(len(st.Distance)) * 5.6 / 2
	if n.take(box{mid.X - half, mid.Y - 6, mid.X + half, mid.Y + 6}) {
		w.X, w.Y, w.Text = unit(mid.X), unit(mid.Y+4), st.Distance
	}
	return w
}
