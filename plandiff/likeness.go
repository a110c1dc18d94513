package plandiff

import (
	"slices"
	"strings"

	"github.com/agnivade/levenshtein"
	"passband.example/plandiff/plan"
)

// mostPairs is how many records of one kind may be left on a side for each to be
// compared with each: the matching takes the cube of it.
const mostPairs = 250

// mostUnlike is how much two records may differ, in thousandths, and still be
// called one that was renamed: they must have more in common than not.
// (common practice, no source)
const mostUnlike = 500

// A trait is one field of a record as matching sees it.
type trait struct {
	values []string // in the keys of the new plan
	weight int
	form   plan.Form
	text   bool // free text, which may be partly the same
}

// A profile is a record as matching sees it.
type profile struct {
	record plan.Record
	traits []trait
	air    string // all that goes on the air, or "" where nothing does
	all    string
}

func (m *matcher) profile(s *plan.Section, r plan.Record, ren plan.Renames) profile {
	p := profile{record: r, traits: make([]trait, 0, len(s.Fields))}
	var ref plan.Ref
	var values []string
	add := func(text string, _ plan.Place) { values = append(values, ren.Translate(ref, text)) }
	var air, all strings.Builder
	for i := range s.Fields {
		f := &s.Fields[i]
		ref, values = f.Ref, nil
		f.Each(r, add)
		t := trait{values: values, weight: 2, form: f.Form, text: f.Form == plan.Scalar && f.Weight == plan.Label}
		if f.Form == plan.Set {
			slices.Sort(t.values)
		}
		switch {
		case f.Form == plan.Flag:
			t.weight = 1
		case f.Weight == plan.Air:
			t.weight = 4
		}
		p.traits = append(p.traits, t)
		t.write(&all)
		if f.Weight == plan.Air || identifies(s.Kind, f.Name) {
			t.write(&air)
		}
	}
	if strings.Trim(air.String(), "\x01") != "" {
		p.air = air.String()
	}
	p.all = all.String()
	return p
}

// write puts the values into a text that is the same for the same values alone.
func (t *trait) write(b *strings.Builder) {
	for i, v := range t.values {
		if i > 0 {
			b.WriteByte(0)
		}
		b.WriteString(v)
	}
	b.WriteByte(1)
}

// identifies names the fields that make a record what it is where nothing of
// it goes on the air.
func identifies(kind plan.Kind, field string) bool {
	switch kind {
	case plan.KindZone, plan.KindScanList:
		return field == "channels"
	case plan.KindMessage:
		return field == "text"
	case plan.KindOperator:
		return field == "id"
	case plan.KindNeighbor:
		return field == "callsign" || field == "output"
	}
	return false
}

// renamable reports whether records of the kind may be found again under
// another key. The keys of the others are what they are about.
func renamable(kind plan.Kind) bool {
	switch kind {
	case plan.KindPlan, plan.KindShortcut, plan.KindSeverity, plan.KindAcceptance, plan.KindLicenseRow, plan.KindSeparationRow:
		return false
	}
	return true
}

// leftover pairs records whose keys are gone with records whose keys are new:
// first those that are wholly the same, then those that are the same on the
// air, then the most alike.
func (m *matcher) leftover(s *plan.Section, old, new []plan.Record) []pair {
	if len(old) == 0 || len(new) == 0 || !renamable(s.Kind) {
		return nil
	}
	from, to := m.profiles(s, old, m.renames), m.profiles(s, new, nil)
	to = slices.DeleteFunc(to, func(p profile) bool { return s.HasOwnKeys() && m.dangling()[p.record.Thing().Key] })
	var pairs []pair
	take := func(how How, bucket func(profile) string) {
		found := m.pairUp(from, to, how, bucket)
		for _, p := range found {
			p.section = s
			pairs = append(pairs, p)
		}
		paired := pairedIn(found)
		from = slices.DeleteFunc(from, func(p profile) bool { return paired[p.record] })
		to = slices.DeleteFunc(to, func(p profile) bool { return paired[p.record] })
	}
	take(BySame, func(p profile) string { return p.all })
	take(ByAir, func(p profile) string { return p.air })
	if max(len(from), len(to)) > mostPairs {
		for i := range s.Fields {
			take(ByAlike, func(p profile) string { return strings.Join(p.traits[i].values, "\x00") })
		}
	}
	if max(len(from), len(to)) > mostPairs {
		m.capped = append(m.capped, s.Kind)
		return pairs
	}
	take(ByAlike, func(profile) string { return "all" })
	return pairs
}

func (m *matcher) profiles(s *plan.Section, rs []plan.Record, ren plan.Renames) []profile {
	ps := make([]profile, len(rs))
	for i, r := range rs {
		ps[i] = m.profile(s, r, ren)
	}
	return ps
}

// pairUp pairs records within buckets so that the sum of their differences is least.
func (m *matcher) pairUp(from, to []profile, how How, bucket func(profile) string) []pair {
	buckets := make(map[string][2][]profile)
	var order []string
	for side, ps := range [2][]profile{from, to} {
		for _, p := range ps {
			name := bucket(p)
			if name == "" {
				continue
			}
			b, known := buckets[name]
			if !known {
				order = append(order, name)
			}
			b[side] = append(b[side], p)
			buckets[name] = b
		}
	}
	var pairs []pair
	for _, name := range order {
		b := buckets[name]
		pairs = append(pairs, assignPairs(b[0], b[1], how)...)
	}
	return pairs
}

func assignPairs(from, to []profile, how How) []pair {
	if len(from) == 0 || len(to) == 0 || max(len(from), len(to)) > mostPairs && how == ByAlike {
		return nil
	}
	limit := mostUnlike
	if how != ByAlike {
		limit = 1001 // they are the same already where it counts
	}
	if max(len(from), len(to)) > mostPairs { // equal records by the hundred: any pairing is as good
		n := min(len(from), len(to))
		from, to = from[:n], to[:n]
		pairs := make([]pair, n)
		for i := range pairs {
			pairs[i] = pair{old: from[i].record, new: to[i].record, match: Match{How: how, Alike: 100 - unlike(from[i], to[i])/10}}
		}
		return pairs
	}
	cost := make([][]int, len(from))
	for i, a := range from {
		cost[i] = make([]int, len(to))
		for j, b := range to {
			cost[i][j] = unlike(a, b)
		}
	}
	var pairs []pair
	for i, j := range assign(cost, limit) {
		if j >= 0 {
			pairs = append(pairs, pair{old: from[i].record, new: to[j].record, match: Match{How: how, Alike: 100 - cost[i][j]/10}})
		}
	}
	return pairs
}

// unlike measures how much two records of a kind differ, from 0 to 1000. Fields
// that neither has do not count.
func unlike(a, b profile) int {
	differ, total := 0, 0
	for i := range a.traits {
		x, y := a.traits[i], b.traits[i]
		if len(x.values)+len(y.values) == 0 {
			continue
		}
		total += 1000 * x.weight
		differ += x.weight * x.unlike(y)
	}
	if total == 0 {
		return 1000
	}
	return 1000 * differ / total
}

func (t trait) unlike(u trait) int {
	switch {
	case slices.Equal(t.values, u.values):
		return 0
	case t.form == plan.List || t.form == plan.Set:
		return 1000 - 1000*common(t.values, u.values)/max(len(t.values), len(u.values))
	case t.text && len(t.values) == 1 && len(u.values) == 1:
		x, y := t.values[0], u.values[0]
		return min(1000, 1000*levenshtein.ComputeDistance(clip(x), clip(y))/max(len(clip(x)), len(clip(y))))
	}
	return 1000
}

// clip bounds the work on a long text; its beginning tells enough.
func clip(s string) string { return s[:min(len(s), 200)] }

// common counts the values that both lists have.
func common(x, y []string) int {
	have := make(map[string]int, len(x))
	for _, v := range x {
		have[v]++
	}
	n := 0
	for _, v := range y {
		if have[v] > 0 {
			have[v]--
			n++
		}
	}
	return n
}
