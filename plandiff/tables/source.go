package tables

import (
	"slices"
	"strings"
	"sync"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/signal"
)

// A source is what the rows of a table may be.
type source struct {
	name   string // what a layout calls it
	doc    string
	kind   plan.Kind // of the records that it reads and changes
	values []*value
	items  func(v *view) []item
}

// A value is something that a column may show.
type value struct {
	name   string
	doc    string
	kind   kind
	many   bool
	field  string // the field of the record that it carries; "" where it is shown alone
	get    func(v *view, it item) []string
	normal func(text string) (string, error) // reads the text and gives its one form
}

// An item is what one row is about: one of the three.
type item struct {
	record  plan.Record
	channel *plan.Channel
	heard   *heard
}

// find gives the value with this name, or nil.
func (s *source) find(name string) *value {
	i := slices.IndexFunc(s.values, func(v *value) bool { return v.name == name })
	if i < 0 {
		return nil
	}
	return s.values[i]
}

func (s *source) valueNames() []string {
	names := make([]string, len(s.values))
	for i, v := range s.values {
		names[i] = v.name
	}
	return names
}

// listOf gives the list that a value is of: members.label is of members.
func listOf(name string) string {
	list, _, _ := strings.Cut(name, ".")
	return list
}

// sources gives all that the rows of a table may be, in the order in which a table is
// read: what others refer to first.
var sources = sync.OnceValue(func() []*source {
	return []*source{
		recordSource("groups", plan.KindGroup, groupExtras),
		recordSource("receive_lists", plan.KindReceiveList, receiveListExtras),
		recordSource("repeaters", plan.KindRepeater, calledOnly),
		recordSource("written_channels", plan.KindChannel, nil),
		{name: "channels", kind: plan.KindChannel, values: channelValues(), items: (*view).channelItems,
			doc: "what a radio holds: every talk path and every channel, in the order of its zones"},
		{name: "listening_lists", kind: plan.KindReceiveList, values: heardValues(), items: (*view).heardItems,
			doc: "the receive lists that a radio needs: those of the plan, and those that follow from a slot or a repeater"},
		recordSource("scan_lists", plan.KindScanList, scanListExtras),
		recordSource("zones", plan.KindZone, zoneExtras),
		recordSource("messages", plan.KindMessage, nil),
		recordSource("operators", plan.KindOperator, nil),
		recordSource("shortcuts", plan.KindShortcut, shortcutExtras),
		recordSource("radios", plan.KindRadio, calledOnly),
	}
})

func sourceNames() []string {
	var names []string
	for _, s := range sources() {
		names = append(names, s.name)
	}
	return names
}

// recordSource makes the source of the records of a kind: the fields that they have in
// a plan, their key, and more.
func recordSource(name string, kind plan.Kind, extras func(*plan.Section) []*value) *source {
	section := plan.SectionOf(kind)
	s := &source{name: name, kind: kind, doc: section.Doc}
	s.items = func(v *view) []item { return v.records(section) }
	if section.HasOwnKeys() {
		s.values = append(s.values, keyValue())
	}
	for i := range section.Fields {
		s.values = append(s.values, fieldValue(section, &section.Fields[i]))
	}
	if extras != nil {
		s.values = append(s.values, extras(section)...)
	}
	return s
}

func keyValue() *value {
	return &value{
		name: "key", doc: "the name that the plan has for it", field: "key",
		get:    func(_ *view, it item) []string { return []string{it.record.Thing().Key} },
		normal: normalOf(plan.KindChannel, "dmr.group"), // a text in the form of a key
	}
}

// fieldValue shows a field of a record, a label cut to what the radio shows.
func fieldValue(s *plan.Section, f *plan.Field) *value {
	v := &value{
		name: f.Name, doc: f.Doc, kind: kindOf(s.Kind, f), field: f.Name,
		many:   f.Form == plan.List || f.Form == plan.Set,
		normal: normalOf(s.Kind, f.Name),
	}
	label := f.Name == "label"
	v.get = func(w *view, it item) []string {
		texts := f.Texts(it.record, nil)
		if label && len(texts) > 0 {
			texts[0] = w.cut(texts[0])
		}
		return texts
	}
	if f.Name == "split" {
		v.get = func(_ *view, it item) []string { return splitOf(it.record.(*plan.Repeater)) }
	}
	return v
}

// splitOf gives the split of a repeater, also where the plan says its input; none where
// that is no split.
func splitOf(r *plan.Repeater) []string {
	if said := plan.SectionOf(plan.KindRepeater).Field("split").Texts(r, nil); len(said) > 0 {
		return said // one that contradicts the input
	}
	on := r.TransmitOn()
	if on == 0 || !r.Output.IsSet() {
		return nil
	}
	split := signal.Split(on - r.Output.V).String()
	if _, err := signal.ParseSplit(split); err != nil {
		return nil
	}
	return []string{split}
}

// kindOf tells how the text of a field becomes a cell.
func kindOf(k plan.Kind, f *plan.Field) kind {
	switch name := f.Name; {
	case name == "output" || name == "input" || name == "simplex" || name == "receive":
		return frequency
	case name == "split":
		return distance
	case strings.HasPrefix(name, "fm.tone."):
		return tone
	case name == "id" || name == "power" || strings.HasPrefix(name, "site.") && name != "site.grid" || strings.HasPrefix(name, "limits."),
		name == "timeout_s" || name == "label_length" || name == "dmr.color_code" || name == "dmr.slot":
		return number
	}
	return words
}

// normalOf gives the reader of a field: the parser that the plan itself has for it.
func normalOf(k plan.Kind, field string) func(string) (string, error) {
	f := plan.SectionOf(k).Field(field)
	return func(text string) (string, error) {
		r, err := plan.NewRecord(plan.Thing{Kind: k, Key: "x"})
		if err != nil {
			return "", err
		}
		if err := f.Set(r, []string{text}); err != nil {
			return "", err
		}
		if items := f.Items(r); len(items) == 1 {
			return items[0].Text, nil
		}
		return text, nil
	}
}
