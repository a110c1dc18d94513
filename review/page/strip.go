package page

import (
	"fmt"
	"strconv"

	"passband.example/plandiff/signal"
)

// The measures of a strip, in units of its picture.
const (
	stripWidth  = 1_200
	stripGutter = 96 // for the names of the lanes
	stripPlot   = stripWidth - stripGutter - 36
	laneHeight  = 22
	laneGap     = 5
	segment     = 15 // height of a segment of license or band plan
	letter      = 62 // width of a letter of the smallest text, in tenths; broad, so that no text is cut
)

// tenths is a length in tenths of a unit. No float touches a frequency.
type tenths int

// String writes it as SVG takes it.
func (t tenths) String() string {
	sign := ""
	if t < 0 {
		sign, t = "-", -t
	}
	return sign + strconv.Itoa(int(t/10)) + "." + strconv.Itoa(int(t%10))
}

// A strip is one picture: a stretch of spectrum with what the tables say of it and what the
// channels occupy.
type strip struct {
	ID        string // in the page
	Band      string
	Low, High signal.Hertz
	Says      string // what it shows, for readers who do not see it
	Width     int
	Height    int
	Ticks     []tick
	Blocks    []block // of the license, of the band plan
	Names     []laneName
	Marks     []mark
	Arrows    []arrow
	Tags      []tag
	Bottom    int // of the lines of the raster

	signals []*tuned
}

type tick struct {
	X    tenths
	Text string // "" for a small one
}

// A block is a segment of the license or the band plan.
type block struct {
	Class string
	X, W  tenths
	Y     int
	Text  string // "" where there is no room for it
	TextX tenths
	TextY int
	Title string
}

// A laneName stands left of a lane.
type laneName struct {
	Y    int
	Text string
}

// A mark is a signal, or a bar that stands for many.
type mark struct {
	Class string
	X, W  tenths
	Y, H  int
	Title string
}

// A tag names a mark.
type tag struct {
	X    tenths
	Y    int
	Text string
}

// x gives where a frequency lies. What is beyond the edge lies on it.
func (st *strip) x(f signal.Hertz) tenths {
	f = min(max(f, st.Low), st.High)
	return tenths(stripGutter*10 + int64(f-st.Low)*stripPlot*10/int64(st.High-st.Low))
}

// changes counts the signals that came or went, or have other users.
func (st *strip) changes() (n int) {
	for _, t := range st.signals {
		if t.State() != "" {
			n++
		}
	}
	return n
}

func (st *strip) draw(l law, products []product, compared bool) {
	st.axis()
	y := 24
	y = st.license(l, y)
	y = st.plan(l, y)
	y = st.mixing(products, y)
	st.lanes(compared, y)
	st.say(compared)
}

// axis marks every 100 kHz, and writes every second of them.
func (st *strip) axis() {
	for f := st.Low; f <= st.High; f += 100_000 {
		t := tick{X: st.x(f)}
		if (f-st.Low)%200_000 == 0 {
			t.Text = f.String()
		}
		st.Ticks = append(st.Ticks, t)
	}
}

// say tells in words what the strip shows.
func (st *strip) say(compared bool) {
	heard, sent := 0, 0
	came, went, others := 0, 0, 0
	for _, t := range st.signals {
		if t.Now > 0 && t.Sends {
			sent++
		} else if t.Now > 0 {
			heard++
		}
		switch t.State() {
		case "came":
			came++
		case "went":
			went++
		case "changed":
			others++
		}
	}
	st.Says = fmt.Sprintf("From %s to %s MHz members hear %s and send %s.", st.Low, st.High, count(heard, "signal"), count(sent, "signal"))
	if compared && came+went+others > 0 {
		st.Says += fmt.Sprintf(" %d came with the change, %d went.", came, went)
		if others > 0 {
			st.Says += fmt.Sprintf(" On %d that stayed others are than before.", others)
		}
	} else if compared {
		st.Says += " The change leaves them as they were."
	}
}
