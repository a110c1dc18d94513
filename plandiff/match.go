package plandiff

import (
	"slices"
	"strings"
	"sync"

	"passband.example/plandiff/plan"
)

// A pair is a record of the old plan and what became of it.
type pair struct {
	section  *plan.Section
	old, new plan.Record
	match    Match
}

type matcher struct {
	old, new *plan.Expansion
	renames  plan.Renames
	pairs    []pair
	capped   []plan.Kind
	dangling func() map[string]bool // keys that the old plan may refer to without having them
}

func newMatcher(old, new *plan.Expansion, renames plan.Renames) *matcher {
	return &matcher{old: old, new: new, renames: renames, dangling: sync.OnceValue(func() map[string]bool { return danglingIn(old, new.Plan) })}
}

// danglingIn gives the keys that a plan may refer to without having them, as far as they came
// with the new one. A plan that is not worked out yet is, where it refers to such a key at all.
func danglingIn(x *plan.Expansion, new *plan.Plan) map[string]bool {
	if x.Channels == nil {
		if !x.Plan.RefersTo(cameTo(x.Plan, new)) {
			return nil
		}
		x = plan.Expand(x.Plan)
	}
	dangling := make(map[string]bool)
	for _, u := range x.Unresolved {
		for part := range strings.SplitSeq(strings.TrimPrefix(u.Text, "zone:"), "/") {
			dangling[part] = true
		}
	}
	for _, a := range x.Plan.Acceptances.All() { // free text, which may name what there is not
		for _, word := range strings.FieldsFunc(a.At.V, func(r rune) bool { return r == ' ' || r == '/' }) {
			dangling[word] = true
		}
	}
	return dangling
}

// cameTo gives the keys of records that the old plan does not have.
func cameTo(old, new *plan.Plan) map[string]bool {
	came := make(map[string]bool)
	for _, s := range plan.Sections() {
		if !s.HasOwnKeys() {
			continue
		}
		for _, r := range s.All(new) {
			if _, was := s.Find(old, r.Thing().Key); !was {
				came[r.Thing().Key] = true
			}
		}
	}
	return came
}

// match pairs the records of one kind, notes new keys, and gives the changes
// that are whole records: added, removed, renamed.
func (m *matcher) match(s *plan.Section) []Change {
	old, new := m.byKey(s)
	found := m.stated(s, old, new)
	paired := pairedIn(found)
	gone := func(r plan.Record) bool { return paired[r] }
	old, new = slices.DeleteFunc(old, gone), slices.DeleteFunc(new, gone)
	found = append(found, m.leftover(s, old, new)...)
	for _, p := range found {
		if s.HasOwnKeys() {
			m.renames[p.old.Thing()] = p.new.Thing().Key
		}
	}
	m.pairs = append(m.pairs, found...)
	paired = pairedIn(found)
	return m.whole(s, slices.DeleteFunc(old, gone), slices.DeleteFunc(new, gone))
}

// pairedIn gives the records of both sides that stand in pairs.
func pairedIn(pairs []pair) map[plan.Record]bool {
	in := make(map[plan.Record]bool, 2*len(pairs))
	for _, p := range pairs {
		in[p.old], in[p.new] = true, true
	}
	return in
}

// byKey pairs what has the same key and gives what is left on both sides.
func (m *matcher) byKey(s *plan.Section) (old, new []plan.Record) {
	before, now := s.All(m.old.Plan), s.All(m.new.Plan)
	paired := func(n plan.Record) bool { _, ok := s.Find(m.old.Plan, n.Thing().Key); return ok }
	taken := func(plan.Record) bool { return false } // no two records have one key
	if s.Kind == plan.KindAcceptance {               // but their keys follow others, which may meet
		met := make(map[plan.Record]bool)
		paired = func(n plan.Record) bool { return met[n] }
		taken = func(n plan.Record) bool { twice := met[n]; met[n] = true; return twice }
	}
	m.pairs = slices.Grow(m.pairs, min(len(before), len(now)))
	for _, o := range before {
		n, ok := s.Find(m.new.Plan, m.keyNow(s, o))
		if !ok || taken(n) {
			old = append(old, o)
			continue
		}
		m.pairs = append(m.pairs, pair{section: s, old: o, new: n})
	}
	if len(now) == len(before)-len(old) {
		return byKeyOrder(old), nil
	}
	for _, n := range now {
		if !paired(n) {
			new = append(new, n)
		}
	}
	return byKeyOrder(old), byKeyOrder(new)
}

func byKeyOrder(rs []plan.Record) []plan.Record {
	slices.SortFunc(rs, func(a, b plan.Record) int { return strings.Compare(a.Thing().Key, b.Thing().Key) })
	return rs
}

// keyNow gives the key under which a record of the old plan is looked for in the
// new one. A key that follows from references follows their new keys.
func (m *matcher) keyNow(s *plan.Section, o plan.Record) string {
	if s.Kind != plan.KindAcceptance || len(m.renames) == 0 {
		return o.Thing().Key
	}
	a := *o.(*plan.Acceptance)
	a.At.V = m.renames.Translate(plan.RefAcceptance, a.At.V)
	return s.DerivedKey(&a)
}

// whole gives the changes of records that came, went or have a new key.
func (m *matcher) whole(s *plan.Section, old, new []plan.Record) []Change {
	var changes []Change
	anchors := m.anchors(s, old)
	for _, o := range old {
		changes = append(changes, Change{
			Op: Removed, Thing: o.Thing(), Was: o.Thing(), Edits: everything(s, o, nil),
			Weight: weightOf(s), At: anchors[o], WasAt: o.Place(),
		})
	}
	for _, n := range new {
		changes = append(changes, Change{
			Op: Added, Thing: n.Thing(), Edits: everything(s, nil, n), Weight: weightOf(s), At: n.Place(),
		})
	}
	for _, p := range m.pairs {
		if p.section == s && p.match.How != ByKey && s.HasOwnKeys() {
			changes = append(changes, Change{
				Op: Renamed, Thing: p.new.Thing(), Was: p.old.Thing(), Weight: plan.Label,
				At: p.new.Place(), WasAt: p.old.Place(), Match: p.match,
			})
		}
	}
	return changes
}

// anchors gives for each record that is gone where a reader finds what is left
// of its surroundings: the record that stood before it in its file, else the one
// after it, else the beginning of the file, else that of the plan. It is never nowhere.
func (m *matcher) anchors(s *plan.Section, gone []plan.Record) map[plan.Record]plan.Place {
	if len(gone) == 0 {
		return nil
	}
	away := make(map[plan.Record]bool, len(gone))
	for _, o := range gone {
		away[o] = true
	}
	renamed := make(map[plan.Record]plan.Record)
	for _, p := range m.pairs {
		if p.section == s && p.match.How != ByKey {
			renamed[p.old] = p.new
		}
	}
	now := func(o plan.Record) plan.Place {
		n, ok := renamed[o]
		if !ok {
			n, _ = s.Find(m.new.Plan, m.keyNow(s, o))
		}
		return n.Place()
	}
	anchors := make(map[plan.Record]plan.Place, len(gone))
	var last plan.Record      // that stays
	var waiting []plan.Record // gone, with nothing before them in their file
	file := ""
	for _, o := range s.All(m.old.Plan) { // in the order of files and lines
		if at := o.Place().File; at != file {
			file, last, waiting = at, nil, nil
		}
		switch {
		case !away[o]:
			last = o
			for _, w := range waiting {
				anchors[w] = now(o)
			}
			waiting = nil
		case last == nil:
			anchors[o] = m.fileAnchor(file)
			waiting = append(waiting, o)
		default:
			anchors[o] = now(last)
		}
	}
	return anchors
}

func (m *matcher) fileAnchor(file string) plan.Place {
	if !slices.Contains(m.new.Plan.Files, file) {
		file = plan.RootFile
	}
	return plan.Place{File: file, Line: 1, Col: 1}
}

// everything gives all fields of a record that came or went as edits.
func everything(s *plan.Section, old, new plan.Record) []Edit {
	var edits []Edit
	for i := range s.Fields {
		f := &s.Fields[i]
		if e := newEdit(f, old, new); len(e.Old)+len(e.New) > 0 {
			edits = append(edits, e)
		}
	}
	return edits
}

// weightOf is what it weighs when a whole record of the kind comes or goes.
func weightOf(s *plan.Section) plan.Weight {
	switch s.Kind {
	case plan.KindPlan, plan.KindSeverity, plan.KindAcceptance, plan.KindLicenseRow, plan.KindSeparationRow:
		return plan.Policy
	case plan.KindOperator, plan.KindMessage, plan.KindNeighbor, plan.KindCoordination:
		return plan.Label
	case plan.KindZone, plan.KindScanList, plan.KindShortcut, plan.KindRadio:
		return plan.Layout
	}
	return plan.Air
}
