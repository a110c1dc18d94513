package rules

import (
	"fmt"

	"passband.example/plandiff/plan"
	"passband.example/review"
	"passband.example/review/license"
)

// onPrivacy reports what would transmit with privacy, once a record that says so, where the
// rule against it is one that wanted wants.
func onPrivacy(p *review.Pass, wanted func(license.Confidence) bool, unread string) {
	l := lawOf(p)
	if l == nil {
		return
	}
	row := l.tables.Content(license.ObscuredMeaning)
	if row == nil || row.Allowed || !wanted(row.Confidence) {
		return
	}
	found := make(map[plan.Thing]int)
	var order []privacy
	for _, c := range p.Expansion.Channels {
		if by, ok := privacyOf(c); ok {
			if found[by.by]++; found[by.by] == 1 {
				order = append(order, by)
			}
		}
	}
	for _, by := range order {
		p.Report(by.finding(found[by.by], l, row, unread))
	}
}

// A privacy is a record that lets channels transmit with privacy.
type privacy struct {
	by plan.Thing
	at plan.Place
}

// privacyOf gives what makes a channel transmit with privacy, if it does.
func privacyOf(c *plan.Channel) (privacy, bool) {
	switch {
	case !c.Privacy || c.Transmit == 0 || c.Mode != plan.ModeDMR:
		return privacy{}, false
	case c.Spec != nil && c.Spec.DMR.Privacy.IsSet():
		return privacy{c.Spec.Thing(), c.Spec.DMR.Privacy.At}, true
	case c.Repeater != nil:
		return privacy{c.Repeater.Thing(), c.Repeater.DMR.Privacy.At}, true
	}
	return privacy{}, false
}

func (y privacy) finding(channels int, l *law, row *license.ContentRow, unread string) review.Finding {
	does := "makes 1 channel transmit"
	if channels > 1 {
		does = fmt.Sprintf("makes %d channels transmit", channels)
	}
	f := review.Finding{
		At: y.at, About: []plan.Thing{y.by},
		What:   fmt.Sprintf("%s %s with privacy: speech that others can't hear is not allowed in %s%s", y.by, does, l.region(), unread),
		Why:    "amateur radio is open to everybody who listens; a color code or a tone is no privacy and is fine; " + answers,
		Fix:    "write privacy: no, or take it out",
		Source: fmt.Sprintf("%s, %s line %d (%s)", row.Cite(), row.File, row.Line, row.Confidence),
	}
	if row.Exception != "" {
		f.Source += "; exception: " + row.Exception
	}
	return f
}
