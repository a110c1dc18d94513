package plantest

import (
	"slices"
	"strings"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/signal"
	"pgregory.net/rapid"
)

// Plan draws a plan with up to five records of every kind.
func Plan(t *rapid.T) *plan.Plan {
	d := &draft{keys: make(map[plan.Kind][]string)}
	for _, s := range plan.Sections() {
		if s.HasOwnKeys() {
			d.keys[s.Kind] = drawKeys(t, s.Kind)
		}
	}
	for _, s := range plan.Sections() {
		switch {
		case s.Kind == plan.KindPlan:
			d.put(d.record(t, s, ""))
		case s.HasOwnKeys():
			for _, key := range d.keys[s.Kind] {
				d.put(d.record(t, s, key))
			}
		default:
			for range rapid.IntRange(0, 4).Draw(t, s.Kind.String()) {
				d.put(d.record(t, s, ""))
			}
		}
	}
	return d.plan(t)
}

// A draft is the records of a plan in the making, in the order of its file.
type draft struct {
	keys    map[plan.Kind][]string // of the kinds whose records are written with keys
	records []plan.Record
}

func (d *draft) put(r plan.Record) { d.records = append(d.records, r) }

// record draws a record with this key and values for some of its fields.
func (d *draft) record(t *rapid.T, s *plan.Section, key string) plan.Record {
	r := empty(t, s.Kind, key)
	for i := range s.Fields {
		d.fill(t, s, &s.Fields[i], r)
	}
	return r
}

// fill draws a value for the field, or none. A field of a block that the record
// does not have stays empty, since a file could not say it without the block.
func (d *draft) fill(t *rapid.T, s *plan.Section, f *plan.Field, r plan.Record) {
	if !inBlock(s, f, r) {
		return
	}
	name := s.Kind.String() + "." + f.Name
	if !required(s.Kind, f.Name) && rapid.IntRange(0, 9).Draw(t, "has "+name) < 4 {
		return
	}
	texts := d.values(t, s.Kind, f, name)
	if err := f.Set(r, texts); err != nil {
		t.Fatalf("%s: plantest drew %q: %v", name, texts, err)
	}
}

// required names the fields without which a file cannot hold the record.
func required(kind plan.Kind, field string) bool {
	switch kind {
	case plan.KindPlan:
		return field == "plan"
	case plan.KindMessage, plan.KindShortcut, plan.KindSeverity, plan.KindLicenseRow, plan.KindSeparationRow:
		return true
	case plan.KindNeighbor:
		return field == "output"
	case plan.KindOperator:
		return field == "id" || field == "callsign"
	case plan.KindAcceptance:
		return field == "rule" || field == "at"
	}
	return false
}

// inBlock reports whether the record has the blocks that the field stands in.
func inBlock(s *plan.Section, f *plan.Field, r plan.Record) bool {
	for i := range s.Fields {
		flag := &s.Fields[i]
		if flag.Form == plan.Flag && strings.HasPrefix(f.Name, flag.Name+".") && len(flag.Items(r)) == 0 {
			return false
		}
	}
	return true
}

// empty makes a record without values.
func empty(t *rapid.T, kind plan.Kind, key string) plan.Record {
	r, err := plan.NewRecord(plan.Thing{Kind: kind, Key: key})
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// plan puts the records into a plan, but for an acceptance or a row of a club's own
// table that repeats another.
func (d *draft) plan(t *rapid.T) *plan.Plan {
	p := new(plan.Plan)
	for _, r := range d.records {
		dropLostSplit(r)
		if err := p.Add(r); err != nil && !repeats(r.Thing().Kind) {
			t.Fatal(err)
		}
	}
	return p
}

// repeats reports whether a drawn record of the kind may say the same as another.
func repeats(kind plan.Kind) bool {
	return kind == plan.KindAcceptance || kind == plan.KindLicenseRow || kind == plan.KindSeparationRow
}

// dropLostSplit takes away a split that leads to no frequency, which Load refuses.
func dropLostSplit(r plan.Record) {
	rep, ok := r.(*plan.Repeater)
	if ok && rep.Output.IsSet() && rep.Split.IsSet() && rep.TransmitOn() == 0 {
		rep.Split = plan.Value[signal.Split]{}
	}
}

// rekey copies a record under another key.
func rekey(t *rapid.T, r plan.Record, key string) plan.Record {
	s := plan.SectionOf(r.Thing().Kind)
	c := empty(t, s.Kind, key)
	for i := range s.Fields {
		f := &s.Fields[i]
		if texts := f.Texts(r, nil); len(texts) > 0 {
			if err := f.Set(c, texts); err != nil {
				t.Fatalf("%s: %s cannot be set to its own value: %v", r.Thing(), f.Name, err)
			}
		}
	}
	return c
}

// drawKeys draws the keys of up to five records of a kind.
func drawKeys(t *rapid.T, kind plan.Kind) []string {
	return rapid.SliceOfNDistinct(keyOf(kind), 0, 5, rapid.ID[string]).Draw(t, kind.String()+" keys")
}

// words are keys that are short, alike, and hard for a YAML reader.
var words = []string{
	"ridge", "ridge-2", "ridgf", "knob", "mill", "local", "statewide", "state", "valley", "net",
	"null", "true", "yes", "no", "y", "1", "023", "0x10", "1e3", "0o17", "2026-01-02", "fm", "a",
}

func keyOf(kind plan.Kind) *rapid.Generator[string] {
	switch kind {
	case plan.KindShortcut:
		return rapid.StringMatching(`[0-9]`)
	case plan.KindReceiveList:
		reserved := []string{plan.ListenSlot, plan.ListenRepeater, plan.ListenNone}
		return anyKey().Filter(func(key string) bool { return !slices.Contains(reserved, key) })
	}
	return anyKey()
}

func anyKey() *rapid.Generator[string] {
	return rapid.OneOf(rapid.SampledFrom(words), rapid.StringMatching(`[a-z0-9]([a-z0-9-]{0,5}[a-z0-9])?`))
}
