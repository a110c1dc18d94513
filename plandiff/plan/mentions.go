package plan

import (
	"slices"
	"strings"
)

// Mentions counts how often records refer to each key: by itself, as a part of a talk path,
// or as a word of what an acceptance is about. What the key is meant to be the key of is not
// told.
type Mentions map[string]int

// Add counts what a record refers to.
func (m Mentions) Add(r Record) { m.count(r, 1) }

func (m Mentions) count(r Record, n int) {
	s := SectionOf(r.Thing().Kind)
	for i := range s.Fields {
		f := &s.Fields[i]
		if f.Ref == NoRef {
			continue
		}
		f.each(r, func(text string, _ Place) {
			for part := range strings.FieldsFuncSeq(strings.TrimPrefix(text, zonePrefix), apart) {
				if m[part] += n; m[part] == 0 {
					delete(m, part)
				}
			}
		})
	}
}

// RefersTo reports whether a record of the plan refers to one of these keys, as Mentions counts.
func (p *Plan) RefersTo(keys map[string]bool) bool {
	found := false
	look := func(text string, _ Place) {
		for part := range strings.FieldsFuncSeq(strings.TrimPrefix(text, zonePrefix), apart) {
			found = found || keys[part]
		}
	}
	for _, s := range sections() {
		refs := slices.DeleteFunc(fieldsOf(s), func(f *Field) bool { return f.Ref == NoRef })
		if len(refs) == 0 {
			continue
		}
		for _, r := range s.all(p) {
			for _, f := range refs {
				f.each(r, look)
			}
			if found {
				return true
			}
		}
	}
	return false
}

func fieldsOf(s *Section) []*Field {
	fields := make([]*Field, len(s.Fields))
	for i := range s.Fields {
		fields[i] = &s.Fields[i]
	}
	return fields
}

// apart tells the characters that stand between keys in a reference.
func apart(c rune) bool { return c == '/' || c == ' ' }
