package page

import (
	"slices"

	"passband.example/plandiff/signal"
	"passband.example/review/license"
)

// A lawRow is a row of a license table or a segment of a band plan, for the table beside a
// picture.
type lawRow struct {
	Low, High signal.Hertz
	What      string
	Source    string
}

// applies tells whether a license row says something about what members of the class may do
// on any place.
func (l law) applies(r *license.Row) bool {
	return r.Place == "" && (r.Station == license.Member || r.Station == license.Repeater) &&
		(l.class == "" || len(r.Classes) == 0 || slices.Contains(r.Classes, l.class))
}

// within gives the license rows that say something from low to high.
func (l law) within(low, high signal.Hertz) (rows []*license.Row) {
	if l.tables == nil {
		return nil
	}
	for _, r := range l.tables.Rows() {
		if r.Low < high && r.High > low && l.applies(r) {
			rows = append(rows, r)
		}
	}
	return rows
}

// segments gives the segments of band plans from low to high that are in force.
func (l law) segments(low, high signal.Hertz) []*license.Segment {
	if l.tables == nil {
		return nil
	}
	all := slices.Clone(l.tables.SegmentsWithin(low+(high-low)/2, high-low))
	return slices.DeleteFunc(all, func(s *license.Segment) bool { return s.Superseded })
}

// rows gives what is drawn from low to high, for the table.
func (l law) rows(low, high signal.Hertz) (rows []lawRow) {
	for _, r := range l.within(low, high) {
		rows = append(rows, lawRow{r.Low, r.High, rightWords(r), r.Cite()})
	}
	for _, s := range l.segments(low, high) {
		what := s.Plan + " band plan: " + s.Use
		if k := s.Kept.String(); k != "" {
			what += ", kept for " + k
		}
		rows = append(rows, lawRow{s.Low, s.High, what, s.Cite()})
	}
	return rows
}

// rightWords say what a license row gives or takes.
func rightWords(r *license.Row) string {
	kind := rightOf(r)
	said := map[right]string{
		voice: "license: may send voice", otherwise: "license: may send, no voice", permit: "license: only with a permission of one's own",
		noRepeater: "no repeater may send or receive", barred: "no transmission",
	}[kind]
	if r.Emissions != license.Every {
		said += " (" + r.Emissions.String() + ")"
	}
	return said
}

// A right is what a segment of the license lane shows.
type right uint8

const (
	otherwise right = iota // may send, and no voice
	voice
	permit
	noRepeater
	barred
)

func rightOf(r *license.Row) right {
	switch {
	case r.Right == license.No && r.Station == license.Repeater:
		return noRepeater
	case r.Right == license.No:
		return barred
	case r.Right == license.Permit:
		return permit
	case r.Emissions&(license.PhoneAnalog|license.PhoneDigital) != 0:
		return voice
	}
	return otherwise
}

// words name a right in the picture.
func (r right) words() string {
	return [...]string{"no voice", "voice", "by permission", "no repeater", "barred"}[r]
}

// class is the class of the form that shows it.
func (r right) class() string {
	return [...]string{"other", "voice", "permit", "no-repeater", "barred"}[r]
}
