package review

import (
	"encoding/json"

	"passband.example/plandiff"
	"passband.example/plandiff/plan"
)

// A Mend says how to mend a finding, as the changes of fields that do it. A rule
// gives one only where a machine can tell what was meant; where a person must
// decide there is none. A program that applies one checks the plan again: it must
// remove the finding and bring no other that is as severe.
//
// Its JSON form is a list of edits, each with the thing, the field, and the values
// before and after in the text of a plan:
//
//	[{"thing": {"kind": "repeater", "key": "ridge"}, "field": "fm.tone.send", "old": ["177.8"], "new": ["177.3"]}]
type Mend []plandiff.Change

// Setting gives the change that gives a field of a record these values, in the text
// that a plan has for them; none takes the field away. The field must be one of the
// record's kind.
func Setting(r plan.Record, field string, values ...string) plandiff.Change {
	f := plan.SectionOf(r.Thing().Kind).Field(field)
	return plandiff.Change{
		Op: plandiff.Changed, Thing: r.Thing(), Was: r.Thing(), Weight: f.Weight, At: r.Place(), WasAt: r.Place(),
		Edits: []plandiff.Edit{{Field: field, Form: f.Form, Old: f.Texts(r, nil), New: values}},
	}
}

type editJSON struct {
	Thing plan.Thing `json:"thing"`
	Field string     `json:"field"`
	Old   []string   `json:"old"`
	New   []string   `json:"new"`
}

// MarshalJSON gives the edits.
func (m Mend) MarshalJSON() ([]byte, error) {
	edits := []editJSON{}
	for _, c := range m {
		for _, e := range c.Edits {
			edits = append(edits, editJSON{c.Thing, e.Field, append([]string{}, e.Old...), append([]string{}, e.New...)})
		}
	}
	return json.Marshal(edits)
}
