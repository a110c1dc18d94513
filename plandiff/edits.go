package plandiff

import (
	"slices"
	"strings"

	"passband.example/plandiff/plan"
)

// edits compares the fields of all pairs, now that every new key is known.
func (m *matcher) edits() []Change {
	var changes []Change
	for _, p := range m.pairs {
		alike := sameWording(p.old, p.new)
		if alike && len(m.renames) == 0 {
			continue
		}
		var edits []Edit
		for i := range p.section.Fields {
			f := &p.section.Fields[i]
			if alike && (f.Ref == plan.NoRef || !m.renames.Follow(f, p.old)) {
				continue
			}
			if !m.same(f, p.old, p.new) {
				edits = append(edits, m.edit(f, p.old, p.new))
			}
		}
		for _, group := range acts(p.section, edits) {
			changes = append(changes, Change{
				Op: Changed, Thing: p.new.Thing(), Was: p.old.Thing(), Edits: group,
				Weight: heaviest(p.section, group), At: placeOf(group, p.new), WasAt: p.old.Place(), Match: p.match,
			})
		}
	}
	return changes
}

// sameWording reports whether two records with one key were read from the same text.
func sameWording(old, new plan.Record) bool {
	return old == new || old.Wording() != "" && old.Wording() == new.Wording() && old.Thing() == new.Thing()
}

// same compares a field of two records, references by what they refer to.
func (m *matcher) same(f *plan.Field, old, new plan.Record) bool {
	if f.Ref == plan.NoRef || len(m.renames) == 0 {
		return f.Same(old, new)
	}
	return sameTexts(f.Form, f.Texts(old, m.renames), f.Texts(new, nil))
}

func (m *matcher) edit(f *plan.Field, old, new plan.Record) Edit {
	e := newEdit(f, old, new)
	was := f.Texts(old, m.renames)
	switch f.Form {
	case plan.List:
		e.Steps = leftBehind(listSteps(was, e.New), e.Old)
	case plan.Set:
		e.Steps = setSteps(was, e.New)
	}
	return e
}

// newEdit gives the two values of a field; either record may be nil.
func newEdit(f *plan.Field, old, new plan.Record) Edit {
	e := Edit{Field: f.Name, Form: f.Form}
	e.Old, e.OldAt = textsAt(f, old)
	e.New, e.NewAt = textsAt(f, new)
	return e
}

func textsAt(f *plan.Field, r plan.Record) ([]string, plan.Place) {
	if r == nil {
		return nil, plan.Place{}
	}
	items := f.Items(r)
	if len(items) == 0 {
		return nil, plan.Place{}
	}
	texts := make([]string, len(items))
	for i, item := range items {
		texts[i] = item.Text
	}
	return texts, items[0].At
}

// acts puts together the edits that are one act of a person: a repeater moved
// with its split kept, a block of keys that came or went.
func acts(s *plan.Section, edits []Edit) [][]Edit {
	var groups [][]Edit
	index := make(map[string]int)
	for _, e := range edits {
		act := actOf(s, edits, e)
		i, known := index[act]
		if !known {
			i = len(groups)
			index[act] = i
			groups = append(groups, nil)
		}
		groups[i] = append(groups[i], e)
	}
	return groups
}

func actOf(s *plan.Section, edits []Edit, e Edit) string {
	if s.Kind == plan.KindRepeater && (e.Field == "output" || e.Field == "input") && shifted(edits) {
		return "output"
	}
	block, _, _ := strings.Cut(e.Field, ".")
	for _, other := range edits {
		if other.Field == block && other.Form == plan.Flag {
			return block
		}
	}
	if strings.HasPrefix(e.Field, "site.") {
		return "site"
	}
	return e.Field
}

// shifted reports whether output and input moved by the same distance.
func shifted(edits []Edit) bool {
	var moved []int64
	for _, e := range edits {
		if e.Field != "output" && e.Field != "input" {
			continue
		}
		from, to := hertz(e.Old), hertz(e.New)
		if from == 0 || to == 0 {
			return false
		}
		moved = append(moved, to-from)
	}
	return len(moved) == 2 && moved[0] == moved[1]
}

func heaviest(s *plan.Section, edits []Edit) plan.Weight {
	weight := plan.Policy
	for _, e := range edits {
		f := s.Field(e.Field)
		w := f.Weight
		if f.Form == plan.List && w == plan.Air && onlyMoves(e.Steps) {
			w = plan.Layout // the same groups in another order
		}
		weight = min(weight, w)
	}
	return weight
}

func onlyMoves(steps []Step) bool {
	return !slices.ContainsFunc(steps, func(s Step) bool { return s.Op != Moved })
}

// placeOf is where the edit can be read in the new plan: at a value that is
// there, else at the record.
func placeOf(edits []Edit, now plan.Record) plan.Place {
	for _, e := range edits {
		if !e.NewAt.IsZero() {
			return e.NewAt
		}
	}
	return now.Place()
}
