package plandiff

import (
	"passband.example/plandiff/plan"
)

// An Op is what happened to a record.
type Op uint8

// What may happen to a record.
const (
	Added Op = iota + 1
	Removed
	Renamed
	Changed
)

var opNames = [...]string{Added: "added", Removed: "removed", Renamed: "renamed", Changed: "changed"}

// String gives the word for the operation.
func (o Op) String() string {
	if int(o) < len(opNames) && opNames[o] != "" {
		return opNames[o]
	}
	return "unchanged"
}

// MarshalText gives the word for the operation, so that JSON shows it.
func (o Op) MarshalText() ([]byte, error) { return []byte(o.String()), nil }

// A Change is one thing that differs between two plans, as a person would say
// it: a record that came or went, a new key, or an edit.
type Change struct {
	Op     Op
	Thing  plan.Thing // as the new plan names it; for a removed record, as the old one did
	Was    plan.Thing // as the old plan named it; zero for an added record
	Weight plan.Weight

	// Edits holds what differs. One act of a person may touch several fields: a
	// retuned repeater moves its output and its input, and a DMR side that is
	// taken away takes its color code and its groups along. For an added or
	// removed record it holds all of its fields.
	Edits []Edit

	At    plan.Place // where it stands now; for what is gone, the nearest thing that is still there
	WasAt plan.Place // where it stood; zero for an added record

	Match Match // how a renamed record was recognised
}

// An Edit is a field with another value. Old speaks in the keys of the old plan
// and New in those of the new one; none means that the field was not set.
type Edit struct {
	Field string
	Form  plan.Form
	Old   []string
	New   []string
	OldAt plan.Place
	NewAt plan.Place
	Steps []Step // for a list: what came, went and moved, in as few steps as can be
}

// Match says how a renamed record was recognised.
type Match struct {
	How   How
	Alike int // how alike the two are, in percent
}

// How is a way to recognise a record that has another key now.
type How uint8

// The ways, surest first.
const (
	ByKey    How = iota // it has the same key
	ByStated            // the plan says so
	BySame              // nothing but the key differs
	ByAir               // it is the same on the air
	ByAlike             // it is more like this record than like any other
)

var howNames = [...]string{ByKey: "same key", ByStated: "stated", BySame: "nothing else differs", ByAir: "same on the air", ByAlike: "alike"}

// String tells the way to a person.
func (h How) String() string {
	if int(h) < len(howNames) {
		return howNames[h]
	}
	return "unknown"
}

// MarshalText gives the words for the way, so that JSON shows them.
func (h How) MarshalText() ([]byte, error) { return []byte(h.String()), nil }

// Field gives the edit of this field, or nil.
func (c *Change) Field(name string) *Edit {
	for i := range c.Edits {
		if c.Edits[i].Field == name {
			return &c.Edits[i]
		}
	}
	return nil
}

// Retuned reports whether the change moves a repeater to another frequency with
// the distance of its input kept.
func (c *Change) Retuned() bool {
	return c.Op == Changed && c.Thing.Kind == plan.KindRepeater && len(c.Edits) == 2 &&
		c.Field("output") != nil && c.Field("input") != nil
}
