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
	SectionOf(r.Thing().Kind).mentioned(r, func(key string) {
		if m[key] += n; m[key] == 0 {
			delete(m, key)
		}
	})
}

// RefersTo reports whether a record of the plan refers to one of these keys, as Mentions counts.
func (p *Plan) RefersTo(keys map[string]bool) bool {
	found := false
	look := func(key string) { found = found || keys[key] }
	for _, s := range sections() {
		if !slices.ContainsFunc(s.Fields, func(f Field) bool { return f.Ref != NoRef }) {
			continue
		}
		for _, r := range s.all(p) {
			if s.mentioned(r, look); found {
				return true
			}
		}
	}
	return false
}

// mentioned hands over each key that a record refers to.
func (s *Section) mentioned(r Record, take func(key string)) {
	for i := range s.Fields {
		f := &s.Fields[i]
		if f.Ref == NoRef {
			continue
		}
		f.each(r, func(text string, _ Place) {
			for key := range strings.FieldsFuncSeq(strings.TrimPrefix(text, zonePrefix), apart) {
				take(key)
			}
		})
	}
}

// apart tells the characters that stand between keys in a reference.
func apart(c rune) bool { return c == '/' || c == ' ' }
