package report

import (
	"fmt"
	"strings"

	"passband.example/plandiff/card"
)

// A folder lays one zone out on as many cards as it needs. What stands on a front and on
// the back behind it are the same channels.
type folder struct {
	s             *Cards
	c             *card.Card
	fronts, backs []*face
	front, back   float64 // mm that are left
	later         []faceEntry
}

// fold fills the cards of a zone.
func (s *Cards) fold(c *card.Card) *folder {
	f := &folder{s: s, c: c}
	f.begin()
	for _, r := range c.Rows {
		f.row(faceRow{Row: r, No: s.number(c, r), Label: Visible(r.Label), Opens: Visible(r.Opens())}, Visible(r.When()))
	}
	for _, e := range f.later {
		f.entry(e)
	}
	for _, note := range s.notes(c) {
		for _, part := range parts(Visible(note), longestEntry) {
			f.entry(faceEntry{Text: part})
		}
	}
	f.number()
	return f
}

// begin takes a new card.
func (f *folder) begin() {
	title, from, warning := Visible(f.c.Zone.Called()), f.s.from(), f.s.warning(f.c, "the backs")
	f.fronts = append(f.fronts, &face{Title: title, Warning: warning, Foot: listenFirst + " The license holder answers for every transmission.", From: from})
	f.backs = append(f.backs, &face{Title: title, Warning: warning, Foot: listenFirst + " " + caution, From: from})
	f.front, f.back = faceRoom, faceRoom
	if warning != "" {
		f.front, f.back = f.front-warningRoom, f.back-warningRoom
	}
}

// row puts a channel on both sides. A label of many lines is cut on the front, and stands
// whole on the back; if that leaves no room beside it, its use stands behind all channels.
func (f *folder) row(r faceRow, when string) {
	e, apart := faceEntry{Head: fmt.Sprintf("%d %s", r.Number, r.Label), Text: when}, faceEntry{}
	if entryHeight(e) > faceRoom/2 {
		e.Text, apart = "", faceEntry{Head: fmt.Sprint(r.Number), Text: when}
	}
	r.Label = fitted(r.Label, labelWidth, mostLines)
	if last := f.fronts[len(f.fronts)-1]; len(last.Rows) > 0 && (rowHeight(r) > f.front || entryHeight(e) > f.back) {
		f.begin()
	}
	last := len(f.fronts) - 1
	f.fronts[last].Rows = append(f.fronts[last].Rows, r)
	f.backs[last].Entries = append(f.backs[last].Entries, e)
	f.front, f.back = f.front-rowHeight(r), f.back-entryHeight(e)
	if apart.Text != "" {
		f.later = append(f.later, apart)
	}
}

// entry puts a note on the back of the last card, or of one more.
func (f *folder) entry(e faceEntry) {
	if entryHeight(e) > f.back {
		f.begin()
		f.fronts[len(f.fronts)-1].Entries = []faceEntry{{Text: "No channels here: see the back."}}
	}
	last := f.backs[len(f.backs)-1]
	last.Entries = append(last.Entries, e)
	f.back -= entryHeight(e)
}

// number says on each card for which radio and the how many-th it is.
func (f *folder) number() {
	radio := ""
	if f.c.Radio != nil {
		radio = "for " + Visible(f.c.Radio.Called())
	}
	for i := range f.fronts {
		words := []string{}
		if radio != "" {
			words = append(words, radio)
		}
		if len(f.fronts) > 1 {
			words = append(words, fmt.Sprintf("card %d of %d", i+1, len(f.fronts)))
		}
		f.fronts[i].Of = strings.Join(words, ", ")
		f.backs[i].Of = strings.Join(append(words, "back: when to use it"), ", ")
	}
}
