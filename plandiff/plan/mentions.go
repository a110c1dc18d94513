package plan

import "strings"

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
		for _, item := range f.items(r) {
			for part := range strings.FieldsFuncSeq(strings.TrimPrefix(item.Text, zonePrefix), apart) {
				if m[part] += n; m[part] == 0 {
					delete(m, part)
				}
			}
		}
	}
}

// apart tells the characters that stand between keys in a reference.
func apart(c rune) bool { return c == '/' || c == ' ' }
