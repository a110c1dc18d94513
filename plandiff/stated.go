package plandiff

import "passband.example/plandiff/plan"

// stated pairs what the new plan says was there under another key. What it says of a key
// that is still there, or of one that never was, counts for nothing; of two records that say
// the same the first does. A key that the old plan refers to without having it can be no new
// one: references to it could not be told from those that follow the rename.
func (m *matcher) stated(s *plan.Section, old, new []plan.Record) []pair {
	f := s.Field(plan.FieldWas)
	if f == nil || len(old) == 0 {
		return nil
	}
	var pairs []pair
	var was map[string]plan.Record // of the old plan, not yet taken
	for _, n := range new {
		items := f.Items(n)
		if len(items) == 0 {
			continue
		}
		if was == nil {
			was = make(map[string]plan.Record, len(old))
			for _, o := range old {
				was[o.Thing().Key] = o
			}
		}
		if o := was[items[0].Text]; o != nil && !m.dangling()[n.Thing().Key] {
			delete(was, items[0].Text)
			alike := 100 - unlike(m.profile(s, o, m.renames), m.profile(s, n, nil))/10
			pairs = append(pairs, pair{section: s, old: o, new: n, match: Match{How: ByStated, Alike: alike}})
		}
	}
	return pairs
}
