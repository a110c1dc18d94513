package plan

import (
	"fmt"
	"strings"
)

// Clone copies a record field by field, in the canonical form of its values.
func Clone(r Record) Record {
	s := SectionOf(r.Thing().Kind)
	c := s.create()
	c.setKey(Value[string]{V: r.Thing().Key, Text: r.Thing().Key, At: r.Place()})
	for i := range s.Fields {
		f := &s.Fields[i]
		if items := f.items(r); len(items) > 0 {
			_ = f.set(c, itemTexts(items)) // canonical text is always read back
		}
	}
	return c
}

func itemTexts(items []Item) []string {
	texts := make([]string, len(items))
	for i, item := range items {
		texts[i] = item.Text
	}
	return texts
}

// Texts gives the values of a field in canonical text, references written in
// the keys that ren gives them.
func (f *Field) Texts(r Record, ren Renames) []string {
	texts := itemTexts(f.items(r))
	if f.Ref != NoRef && len(ren) > 0 {
		for i, text := range texts {
			texts[i] = ren.Translate(f.Ref, text)
		}
	}
	return texts
}

// NewRecord makes an empty record of the kind with this key.
func NewRecord(t Thing) (Record, error) {
	s := SectionOf(t.Kind)
	if s == nil {
		return nil, fmt.Errorf("there is no kind of record %q", t.Kind)
	}
	r := s.create()
	r.setKey(Value[string]{V: t.Key, Text: t.Key, At: applied})
	return r, nil
}

// Add puts a record into the plan. A record of a kind that gets its keys from its
// fields gets it here. Add fails where the key is taken.
func (p *Plan) Add(r Record) error {
	t := r.Thing()
	if t.Kind == KindPlan {
		p.Header = *r.(*Header)
		return nil
	}
	s := SectionOf(t.Kind)
	if !s.HasOwnKeys() {
		r.setKey(Value[string]{V: s.keyOf(r), At: r.Place()})
	}
	if s.numbers() {
		p.number(s, r)
	}
	if _, ok := s.add(p, r); !ok {
		return fmt.Errorf("there is a %s already", r.Thing())
	}
	return nil
}

// numbers reports whether several rows of the section's table may say the same.
func (s *Section) numbers() bool { return s.file != "" && !s.whole }

// number tells apart the rows of a table that say the same. The number stands behind the
// first cell, a radio ID or a callsign, where no text of a row can look like it.
func (p *Plan) number(s *Section, r Record) {
	t := r.Thing()
	if _, taken := s.find(p, t.Key); !taken {
		return
	}
	if p.rows == nil {
		p.rows = make(map[Thing]int)
	}
	p.rows[t]++
	first, rest, _ := strings.Cut(t.Key, "/")
	r.setKey(Value[string]{V: fmt.Sprintf("%s#%d/%s", first, 1+p.rows[t], rest), At: r.Place()})
}

// HasOwnKeys reports whether records of the kind are written with a key, and do
// not get one from their fields.
func (s *Section) HasOwnKeys() bool { return s.keyOf == nil && s.Kind != KindPlan }

// DerivedKey gives the key that a record gets from its fields.
func (s *Section) DerivedKey(r Record) string {
	if s.keyOf != nil {
		return s.keyOf(r)
	}
	return r.Thing().Key
}
