package tables

import (
	"passband.example/plandiff/plan"
)

// calledOnly adds what a record is called: its label, or its key where it has none.
func calledOnly(*plan.Section) []*value {
	return []*value{{
		name: "called", doc: "its label, or its key where it has none", field: "label",
		get:    func(v *view, it item) []string { return []string{v.called(it.record)} },
		normal: normalOf(plan.KindGroup, "label"),
	}}
}

func groupExtras(s *plan.Section) []*value { return calledOnly(s) }

// listed makes the values that show a list of references in other words: each item by
// its label or number.
func listed(name, what string, field string, k kind, show func(v *view, key string) string) *value {
	return &value{
		name: name, doc: what, kind: k, many: true, field: field, normal: asIs,
		get: func(v *view, it item) []string {
			keys := plan.SectionOf(it.record.Thing().Kind).Field(field).Texts(it.record, nil)
			texts := make([]string, len(keys))
			for i, key := range keys {
				texts[i] = show(v, key)
			}
			return texts
		},
	}
}

// asIs takes a text that is looked up when the rows are put together.
func asIs(text string) (string, error) { return text, nil }

func receiveListExtras(s *plan.Section) []*value {
	return append(calledOnly(s),
		listed("groups.label", "its groups by what they are called", "groups", words, (*view).groupLabel),
		listed("groups.id", "its groups by number", "groups", number, (*view).groupID),
	)
}

func zoneExtras(s *plan.Section) []*value {
	return append(calledOnly(s), memberValues()...)
}

func scanListExtras(s *plan.Section) []*value {
	return append(append(calledOnly(s), memberValues()...), &value{
		name: "priority.label", doc: "the label of the channel that is looked at more often", field: "priority", normal: asIs,
		get: func(v *view, it item) []string {
			name := it.record.(*plan.ScanList).Priority.Or("")
			c, ok := v.named(name)
			if !ok {
				return texts(name)
			}
			return texts(v.cut(c.Label))
		},
	})
}

// memberValues shows the channels that a zone or scan list comes to: its talk paths
// with * and its zones inside it worked out, and only what fits the radio.
func memberValues() []*value {
	return []*value{
		{
			name: "members", doc: "the channels that it comes to, by key or talk path", field: "channels", many: true, normal: asIs,
			get: func(v *view, it item) []string {
				return eachChannel(v, it, func(c *plan.Channel) string { return c.Name })
			},
		},
		{
			name: "members.label", doc: "the channels that it comes to, by label", field: "channels", many: true, normal: asIs,
			get: func(v *view, it item) []string {
				return eachChannel(v, it, func(c *plan.Channel) string { return v.cut(c.Label) })
			},
		},
	}
}

func eachChannel(v *view, it item, show func(*plan.Channel) string) []string {
	members := v.members(it.record.Thing())
	texts := make([]string, len(members))
	for i, c := range members {
		texts[i] = show(c)
	}
	return texts
}

func shortcutExtras(*plan.Section) []*value {
	return []*value{
		{
			name: "calls.label", doc: "what it calls, by label or callsign", field: "calls", normal: asIs,
			get: func(v *view, it item) []string {
				return texts(v.groupLabel(it.record.(*plan.Shortcut).Calls.Or("")))
			},
		},
		{
			name: "calls.id", doc: "what it calls, by number", kind: number, field: "calls", normal: asIs,
			get: func(v *view, it item) []string { return texts(v.callID(it.record.(*plan.Shortcut).Calls.Or(""))) },
		},
	}
}

// texts gives a text as a list of one, or none where it is empty.
func texts(text string) []string {
	if text == "" {
		return nil
	}
	return []string{text}
}
