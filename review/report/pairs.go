package report

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"passband.example/plandiff/signal"
	"passband.example/review/rf"
	"passband.example/review/survey"
)

// A PairsQuestion asks for pairs that are worth asking the coordinator about.
type PairsQuestion struct {
	survey.Search
	Where string // how the place was named
	Most  int    // how many are shown; a run of alike ones counts as one
}

// Pairs reports the pairs that fit, the best first, with what speaks for each and what the list does
// not know.
func Pairs(q PairsQuestion, found survey.Pairs) *Page {
	p := new(Page)
	p.heading(1, text("Pairs to ask the coordinator about: %s on %s at %s", strings.ToUpper(string(q.Mode)), q.Band, q.Where))
	if found.Offered == 0 {
		p.paragraph(text("No split is known to be usual on %s in %s, so there is nothing to choose from. Ask the coordinator.", q.Band, q.Law.Name))
	}
	if len(found.Candidates) == 0 && found.Offered > 0 {
		p.paragraph(text("None of the %s fits. Look below at what stands against them; then try another site, another band or the other mode, give the place by latitude and longitude if it is a locator, or ask the coordinator, who knows more than the tables.", count(found.Offered, "pair")))
	}
	left := found.Candidates
	for range q.Most {
		if len(left) == 0 {
			break
		}
		n := alike(left)
		p.item(0, pairLine(left[:n])...)
		for _, reason := range left[0].Reasons {
			p.item(1, text("%s", reason))
		}
		left = left[n:]
	}
	if more := len(left); more > 0 {
		p.paragraph(text("%d more fit; --most shows them.", more))
	}
	p.heading(2, text("Left out, of %d pairs of the band", found.Offered))
	none := true
	for fault, n := range found.LeftOut {
		if n > 0 {
			p.item(0, text("%d: %s", n, rf.Fault(fault)))
			none = false
		}
	}
	if none {
		p.item(0, text("none"))
	}
	p.heading(2, text("Take care"))
	for _, c := range found.Cautions {
		p.item(0, text("%s", c))
	}
	p.paragraph(faint("%s", caution))
	return p
}

// alike counts how many of the first candidates lie in even steps and have the same said of them, so that
// they are told once.
func alike(all []rf.Candidate) int {
	n := 1
	for n < len(all) {
		first, was, now := &all[0], &all[n-1], &all[n]
		same := now.Input-now.Output == first.Input-first.Output && room(*now) == room(*first) && slices.Equal(now.Reasons, first.Reasons)
		if !same || now.Output <= was.Output || now.Output-was.Output != all[1].Output-first.Output {
			break
		}
		n++
	}
	return n
}

// pairLine names a pair, or a run of pairs that are alike.
func pairLine(run []rf.Candidate) Line {
	first, last := run[0], run[len(run)-1]
	split := signal.Split(first.Input - first.Output)
	if len(run) == 1 {
		return Line{strong(first.Output.String() + " MHz"), text(", input %s (%s): %s", first.Input, split, room(first))}
	}
	return Line{strong(fmt.Sprintf("%s to %s MHz", first.Output, last.Output)),
		text(", %d pairs %s kHz from each other, input %s to %s (%s): %s", len(run), (run[1].Output - first.Output).KHz(), first.Input, last.Input, split, room(first))}
}

// room says how much farther away the nearest station is than the table asks.
func room(c rf.Candidate) string {
	if math.IsInf(c.Margin, 1) {
		return "no station in reach"
	}
	return fmt.Sprintf("the nearest station at %.1f times what is asked", math.Floor(c.Margin*10)/10)
}

// PairsForm is the JSON form of Pairs. Margin is how far the nearest station is, as a share of what the
// table asks; it is left out where none is in reach.
type PairsForm struct {
	Passband string         `json:"passband"`
	Version  int            `json:"version"`
	Band     string         `json:"band"`
	Mode     string         `json:"mode"`
	Where    string         `json:"where"`
	Region   string         `json:"region"`
	Offered  int            `json:"offered"`
	Pairs    []PairForm     `json:"pairs"`
	LeftOut  map[string]int `json:"left_out"`
	Cautions []string       `json:"cautions"`
	Caution  string         `json:"caution"`
}

// PairForm is one pair, in MHz, with what speaks for it and against it.
type PairForm struct {
	Output  string   `json:"output"`
	Input   string   `json:"input"`
	Split   string   `json:"split"`
	Margin  float64  `json:"margin,omitempty"`
	Reasons []string `json:"reasons"`
}

// PairsJSON writes all pairs that fit, for programs.
func PairsJSON(w io.Writer, q PairsQuestion, found survey.Pairs) error {
	out := PairsForm{
		Passband: "pairs", Version: version, Band: q.Band, Mode: string(q.Mode), Where: q.Where, Region: q.Law.Code, Offered: found.Offered,
		Pairs: make([]PairForm, len(found.Candidates)), LeftOut: map[string]int{}, Cautions: found.Cautions, Caution: caution,
	}
	for i, c := range found.Candidates {
		f := PairForm{Output: c.Output.String(), Input: c.Input.String(), Split: signal.Split(c.Input - c.Output).String(), Reasons: append([]string{}, c.Reasons...)}
		if !math.IsInf(c.Margin, 1) {
			f.Margin = math.Round(c.Margin*1000) / 1000
		}
		out.Pairs[i] = f
	}
	for fault, n := range found.LeftOut {
		if n > 0 {
			out.LeftOut[rf.Fault(fault).String()] = n
		}
	}
	return WriteJSON(w, out)
}
