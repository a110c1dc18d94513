package tables

import (
	"fmt"

	"passband.example/plandiff/plan"
)

// ownFields are what a channel may say otherwise than its repeater does, by the values
// that show it, with what holds where nothing is said.
var ownFields = []struct {
	values     []string
	fm, dmr    string // the field in each mode
	unsaid     string // through a repeater
	unrepeated string // without one
}{
	{values: []string{"power"}, fm: "power", dmr: "power"},
	{values: []string{"timeout_s"}, fm: "timeout_s", dmr: "timeout_s"},
	{values: []string{"scan_list", "scan_list.label"}, fm: "scan_list", dmr: "scan_list"},
	{values: []string{"access"}, fm: "fm.access", dmr: "dmr.access"},
	{values: []string{"privacy"}, dmr: "dmr.privacy", unsaid: "no", unrepeated: "no"},
	{values: []string{"receive_list", "listens"}, dmr: "dmr.receive_list", unsaid: plan.ListenSlot, unrepeated: plan.ListenNone},
}

// settleOwn puts the settings of channels where they belong: with the repeater where all
// its channels say the same, else with the channel.
func (b *builder) settleOwn(rows []*channelRow) {
	for n := range ownFields {
		o := &ownSetting{builder: b, n: n, shared: map[string]*common{}}
		for _, r := range rows {
			if !r.bad {
				o.gather(r)
			}
		}
		for _, r := range rows {
			if !r.bad {
				o.settle(r)
			}
		}
	}
}

type ownSetting struct {
	*builder
	n      int
	shared map[string]*common // by repeater and field
}

// common is what the channels of a repeater say of one setting.
type common struct {
	count   map[string]int // how many say what
	differs bool           // from what the plan says
	known   bool           // the plan has some of them
	rows    int
	set     bool
}

// text gives what the repeater is to say, if it is to say anything: what all of its
// channels say; for one that the rows bring, what most of them do, unless some say
// nothing, which a channel cannot say against its repeater.
func (c *common) text() (string, bool) {
	best := ""
	for text, n := range c.count {
		if n > c.count[best] || n == c.count[best] && text < best {
			best = text
		}
	}
	return best, c.differs && (len(c.count) == 1 || !c.known && c.count[""] == 0)
}

// field gives the field that holds the setting for a row, "" where it has none, and the
// column that shows it.
func (o *ownSetting) field(r *channelRow) (string, int) {
	f := &ownFields[o.n]
	i := r.column(f.values...)
	if r.mode == string(plan.ModeDMR) {
		return f.dmr, i
	}
	return f.fm, i
}

// said gives the text that a row has for the setting, as a plan has it.
func (o *ownSetting) said(r *channelRow, i int) (string, bool) {
	text := first(r.texts[i])
	same := r.old != nil && !o.differs(r, i)
	switch value := r.sheet.table.Columns[i].value.name; {
	case value == "listens" && same:
		return r.old.ReceiveList, true
	case value == "listens":
		return o.receiveList(r, i, text)
	case value != "scan_list.label" || text == "":
		return text, true
	case same:
		return r.old.ScanList, true
	}
	key, ok := o.scanList(text)
	if !ok {
		o.problem(r.row, i, fmt.Sprintf("there is no scan list %s, or more than one", saying(text)), "give the scan lists in a table of their own, or write the key of one")
	}
	return key, ok
}

func (b *builder) scanList(text string) (string, bool) {
	if b.scans == nil {
		b.scans = make(map[string][]string)
		for _, s := range b.draft.all(plan.KindScanList) {
			s := s.(*plan.ScanList)
			b.scans[s.Key.V] = []string{s.Key.V}
		}
		for _, s := range b.draft.all(plan.KindScanList) {
			s := s.(*plan.ScanList)
			if label := b.old.cut(s.Label.Or(s.Key.V)); label != s.Key.V {
				b.scans[label] = append(b.scans[label], s.Key.V)
			}
		}
	}
	if keys := b.scans[text]; len(keys) == 1 {
		return keys[0], true
	}
	return "", false
}

// gather notes what a row says for its repeater, unless the channel has a setting of its
// own.
func (o *ownSetting) gather(r *channelRow) {
	field, i := o.field(r)
	if field == "" || i < 0 || r.repeater.Kind == 0 || o.hasOwn(r, field) {
		return
	}
	text, ok := o.said(r, i)
	if !ok {
		return
	}
	k := r.repeater.Key + " " + field
	c := o.shared[k]
	if c == nil {
		c = &common{count: map[string]int{}}
		o.shared[k] = c
	}
	c.rows++
	c.count[text]++
	c.known = c.known || r.old != nil
	c.differs = c.differs || text != o.inherited(r, field) && (r.old == nil || o.builder.differs(r, i))
}

// hasOwn reports whether the record of a row says something of a field.
func (b *builder) hasOwn(r *channelRow, field string) bool {
	if r.own.Kind == 0 {
		return false
	}
	own, ok := b.draft.find(r.own)
	return ok && len(plan.SectionOf(plan.KindChannel).Field(field).Texts(own, nil)) > 0
}

// inherited gives what holds for a row where its own record says nothing.
func (o *ownSetting) inherited(r *channelRow, field string) string {
	f := &ownFields[o.n]
	if r.repeater.Kind == 0 {
		return f.unrepeated
	}
	rep, _ := o.draft.find(r.repeater)
	if said := plan.SectionOf(plan.KindRepeater).Field(field).Texts(rep, nil); len(said) > 0 {
		return said[0]
	}
	return f.unsaid
}

// settle sets what a row says.
func (o *ownSetting) settle(r *channelRow) {
	field, i := o.field(r)
	if field == "" || i < 0 || r.bad {
		return
	}
	text, ok := o.said(r, i)
	if !ok || r.old != nil && !o.builder.differs(r, i) {
		return
	}
	o.checks = append(o.checks, check{r.row, i, plan.Thing{}, r})
	o.settleRepeater(r, field, i)
	switch {
	case text == o.inherited(r, field):
		if r.own.Kind != 0 && o.hasOwn(r, field) {
			o.set(r.own, field, nil, r.row, i)
		}
	case text == "" && r.own.Kind == 0 && r.old == nil:
	default:
		o.set(o.ownOf(r), field, texts(text), r.row, i)
	}
}

// settleRepeater sets what the repeater of a row is to say, once.
func (o *ownSetting) settleRepeater(r *channelRow, field string, i int) {
	c := o.shared[r.repeater.Key+" "+field]
	if c == nil || c.set || c.rows < o.heirs(r.repeater.Key, field) {
		return
	}
	if text, ok := c.text(); ok {
		if text == ownFields[o.n].unsaid {
			text = ""
		}
		o.set(r.repeater, field, texts(text), r.row, i)
	}
	c.set = true
}

// heirs counts the channels of the plan that have a setting of their repeater.
func (b *builder) heirs(repeater, field string) int {
	if b.heir == nil {
		b.heir = make(map[string]int)
	}
	name := repeater + " " + field
	n, ok := b.heir[name]
	if !ok {
		for _, c := range b.repeaterChannels()[repeater] {
			if c.Spec == nil || len(plan.SectionOf(plan.KindChannel).Field(field).Texts(c.Spec, nil)) == 0 {
				if mode := listOf(field); (mode != "fm" && mode != "dmr") || mode == string(c.Mode) {
					n++
				}
			}
		}
		b.heir[name] = n
	}
	return n
}

func (b *builder) repeaterChannels() map[string][]*plan.Channel {
	if b.byRepeater == nil {
		b.byRepeater = make(map[string][]*plan.Channel)
		for _, c := range b.old.x.Channels {
			if c.Repeater != nil {
				b.byRepeater[c.Repeater.Key.V] = append(b.byRepeater[c.Repeater.Key.V], c)
			}
		}
	}
	return b.byRepeater
}

// settleLabels gives channels the labels that the rows have, where those do not follow
// from the repeater and the group.
func (b *builder) settleLabels(rows []*channelRow) {
	for _, r := range rows {
		i := r.column("label")
		label := r.says("label")
		if r.bad || i < 0 || label == "" || r.old != nil && (!b.differs(r, i) || label == r.old.Label) {
			continue
		}
		b.checks = append(b.checks, check{r.row, i, plan.Thing{}, r})
		follows := b.follows(r)
		switch {
		case label != follows && label != b.old.cut(follows):
			b.set(b.ownOf(r), "label", []string{label}, r.row, i)
		case r.own.Kind != 0:
			b.set(r.own, "label", nil, r.row, i)
		}
	}
}

// follows gives the label that a channel has where nobody wrote one.
func (b *builder) follows(r *channelRow) string {
	if r.repeater.Kind == 0 {
		return r.path
	}
	rep, _ := b.draft.find(r.repeater)
	if r.old != nil && r.group == "" {
		r.group = r.old.GroupKey
	}
	return rep.(*plan.Repeater).Called() + " " + b.tail(r)
}
