package rules

import (
	"slices"
	"strings"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/signal"
	"passband.example/review"
)

// mend says that a field with these values would mend a finding. It is for rules
// that know what was meant, and for nothing that a person has to look up. A record
// that was read in part has none: what could not be read would be lost.
func mend(r plan.Record, field string, values ...string) review.Mend {
	if r.Partly() {
		return nil
	}
	return review.Mend{review.Setting(r, field, values...)}
}

// mendItem says that what instead gives in the place of one item of a list, or of a
// single value, would mend a finding; no text takes the item out. Where no field of
// the record has an item at the place there is no mend.
func mendItem(r plan.Record, at plan.Place, instead func(text string) []string) review.Mend {
	s := plan.SectionOf(r.Thing().Kind)
	for i := range s.Fields {
		f := &s.Fields[i]
		items := f.Items(r)
		n := slices.IndexFunc(items, func(item plan.Item) bool { return item.At == at })
		if n >= 0 && f.Form != plan.Flag {
			return mend(r, f.Name, slices.Replace(f.Texts(r, nil), n, n+1, instead(items[n].Text)...)...)
		}
	}
	return nil
}

// retune says that another frequency in the place of one that a record states would
// mend a finding. A repeater that says its split takes its input along. An input that
// follows from a split is not stated, so there is no mend.
func retune(p *plan.Plan, w tuned, to signal.Hertz) review.Mend {
	r, ok := p.Find(w.by)
	if !ok || w.key == "split" {
		return nil
	}
	m := mend(r, w.key, to.String())
	if rep, ok := r.(*plan.Repeater); ok && w.key == "output" && !rep.Input.Written() && rep.Split.IsSet() && len(m) > 0 {
		m = append(m, review.Setting(r, "input", (to+signal.Hertz(rep.Split.V)).String()))
	}
	return m
}

// sameDigits reports whether two names have the same digits. A machine may take one
// for a misspelling of the other only then: tac-1 is no misspelling of tac-2.
func sameDigits(a, b string) bool {
	digits := func(r rune) rune {
		if '0' <= r && r <= '9' {
			return r
		}
		return -1
	}
	return strings.Map(digits, a) == strings.Map(digits, b)
}
