package plan

import "passband.example/plandiff/signal"

func headerFields() []Field {
	return []Field{
		scalar("plan", Label, texts, func(h *Header) *Value[string] { return &h.Title }, "the name of the plan"),
		scalar("edition", Policy, editions, func(h *Header) *Value[int] { return &h.Edition }, "the year whose rules may block; a newer rule says at most warn"),
		scalar("region", Policy, texts, func(h *Header) *Value[string] { return &h.Region }, "the country whose license tables apply"),
		scalar("license", Policy, texts, func(h *Header) *Value[string] { return &h.License }, "the lowest class of license that the plan must be legal for"),
		scalar("area", Policy, areas, func(h *Header) *Value[string] { return &h.Area }, "the part of the region whose frequency coordinator's distances apply, as in US-AL"),
		scalar("neighbors", Policy, lists, func(h *Header) *Value[string] { return &h.List }, "the file with the neighbor list: neighbors.csv, or with folders before it"),
		scalar("note", Label, notes, func(h *Header) *Value[string] { return &h.Note }, "for people; no radio holds it"),
	}
}

// FieldWas is the name of the field that states a rename: the key that the record had before.
const FieldWas = "was"

func wasField[R Record](at func(R) *Value[string]) Field {
	return scalar(FieldWas, Label, names, at, "the key that it had before, for as long as a change of the key is under review")
}

func groupFields() []Field {
	return []Field{
		scalar("id", Air, groupIDs, func(g *Group) *Value[signal.GroupID] { return &g.ID }, "the 24-bit address that is sent"),
		scalar("label", Label, texts, func(g *Group) *Value[string] { return &g.Label }, "what the radio shows"),
		scalar("call", Air, calls, func(g *Group) *Value[string] { return &g.Call }, "group, private or all"),
		scalar("when", Label, texts, func(g *Group) *Value[string] { return &g.When }, "when to use it, on the cards of newcomers"),
		scalar("busy_hour.calls", Label, counts, func(g *Group) *Value[int] { return &g.Busy.Calls }, "how many calls it has in the busy hour"),
		scalar("busy_hour.seconds", Label, seconds, func(g *Group) *Value[int] { return &g.Busy.Seconds }, "how long one holds the slot on average, hang time included, in s"),
		scalar("note", Label, notes, func(g *Group) *Value[string] { return &g.Note }, "for people; no radio holds it"),
		wasField(func(g *Group) *Value[string] { return &g.Was }),
	}
}

func receiveListFields() []Field {
	return []Field{
		scalar("label", Label, texts, func(l *ReceiveList) *Value[string] { return &l.Label }, "what the radio shows"),
		list("groups", Set, names, func(l *ReceiveList) *[]Value[string] { return &l.Groups }, "the groups to listen for").naming(RefGroup).weighing(Air),
		scalar("note", Label, notes, func(l *ReceiveList) *Value[string] { return &l.Note }, "for people; no radio holds it"),
		wasField(func(l *ReceiveList) *Value[string] { return &l.Was }),
	}
}

func zoneFields() []Field {
	return []Field{
		scalar("label", Label, texts, func(z *Zone) *Value[string] { return &z.Label }, "what the radio shows"),
		list("channels", List, entries, func(z *Zone) *[]Value[string] { return &z.Channels }, "the channels, in the order of the knob").naming(RefEntry),
		scalar("note", Label, notes, func(z *Zone) *Value[string] { return &z.Note }, "for people; no radio holds it"),
		wasField(func(z *Zone) *Value[string] { return &z.Was }),
	}
}

func scanListFields() []Field {
	return []Field{
		scalar("label", Label, texts, func(s *ScanList) *Value[string] { return &s.Label }, "what the radio shows"),
		list("channels", List, entries, func(s *ScanList) *[]Value[string] { return &s.Channels }, "the channels to sweep, in order").naming(RefEntry),
		scalar("priority", Layout, paths, func(s *ScanList) *Value[string] { return &s.Priority }, "the channel that is looked at more often").naming(RefEntry),
		scalar("note", Label, notes, func(s *ScanList) *Value[string] { return &s.Note }, "for people; no radio holds it"),
		wasField(func(s *ScanList) *Value[string] { return &s.Was }),
	}
}

func messageFields() []Field {
	return []Field{
		scalar("text", Label, texts, func(m *Message) *Value[string] { return &m.Text }, "the text that is sent"),
	}
}

func shortcutFields() []Field {
	return []Field{
		scalar("calls", Layout, texts, func(s *Shortcut) *Value[string] { return &s.Calls }, "the group or operator that the key calls").naming(RefCall),
	}
}

func operatorFields() []Field {
	return []Field{
		scalar("id", Label, radioIDs, func(o *Operator) *Value[signal.RadioID] { return &o.ID }, "the radio ID that the person sends"),
		scalar("callsign", Label, callsigns, func(o *Operator) *Value[signal.Callsign] { return &o.Callsign }, "the person's callsign"),
		scalar("name", Label, cellTexts, func(o *Operator) *Value[string] { return &o.Person }, "what members call the person"),
	}
}

func severityFields() []Field {
	return []Field{
		scalar("level", Policy, levels, func(s *Severity) *Value[string] { return &s.Level }, "block, warn, note or off"),
	}
}

func acceptanceFields() []Field {
	return []Field{
		scalar("rule", Policy, names, func(a *Acceptance) *Value[string] { return &a.Rule }, "the rule whose finding is accepted"),
		scalar("at", Policy, texts, func(a *Acceptance) *Value[string] { return &a.At }, "what the finding is about").naming(RefAcceptance),
		scalar("until", Policy, dates, func(a *Acceptance) *Value[Date] { return &a.Until }, "the last day on which it is accepted"),
		scalar("reason", Policy, texts, func(a *Acceptance) *Value[string] { return &a.Reason }, "why, for whoever asks later"),
	}
}

func licenseRowFields() []Field {
	return []Field{
		scalar("row", Policy, rows, func(r *LicenseRow) *Value[string] { return &r.Row }, "what is allowed or barred, in the columns of license.csv"),
	}
}

func separationRowFields() []Field {
	return []Field{
		scalar("row", Policy, rows, func(r *SeparationRow) *Value[string] { return &r.Row }, "which distance is asked, in the columns of separation.csv"),
	}
}

func coordinationFields() []Field {
	return []Field{
		scalar("repeater", Label, names, func(c *Coordination) *Value[string] { return &c.Repeater }, "the repeater that it is about").naming(RefRepeater),
		scalar("with", Label, texts, func(c *Coordination) *Value[string] { return &c.With }, "the other party, by key or callsign; left out: whoever it is").naming(RefParty),
		scalar("by", Label, texts, func(c *Coordination) *Value[string] { return &c.By }, "who decided"),
		scalar("date", Label, dates, func(c *Coordination) *Value[Date] { return &c.Date }, "when"),
		scalar("text", Label, notes, func(c *Coordination) *Value[string] { return &c.Text }, "what was decided, in their words"),
	}
}

func radioFields() []Field {
	fields := []Field{
		scalar("label", Label, texts, func(r *Radio) *Value[string] { return &r.Label }, "what members call it"),
		list("bands", Set, bands, func(r *Radio) *[]Value[Band] { return &r.Bands }, "the ranges it tunes, in MHz"),
		list("modes", Set, modes, func(r *Radio) *[]Value[Mode] { return &r.Modes }, "fm, dmr or both"),
		scalar("label_length", Layout, counts, func(r *Radio) *Value[int] { return &r.LabelLength }, "the characters of a label that it shows"),
		scalar("characters", Layout, charsets, func(r *Radio) *Value[Charset] { return &r.Characters }, "ascii, latin-1, unicode, or the characters it shows"),
		list("zones", Set, names, func(r *Radio) *[]Value[string] { return &r.Zones }, "the zones it carries; all if left out").naming(RefZone),
		scalar("note", Label, notes, func(r *Radio) *Value[string] { return &r.Note }, "for people; no radio holds it"),
		wasField(func(r *Radio) *Value[string] { return &r.Was }),
	}
	for limit := range LimitCount {
		fields = append(fields, scalar("limits."+limit.String(), Layout, counts,
			func(r *Radio) *Value[int] { return &r.Limits[limit] }, "the most it holds"))
	}
	return fields
}
