package plandiff

import (
	"slices"
	"strconv"
	"strings"
	"sync"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/signal"
)

// channels finds which channels behave differently, and files each under the
// records whose changes made it so.
func (r *reacher) channels() {
	r.touched = make(map[*plan.Channel][]int)
	r.before = sync.OnceValue(func() map[string][]*plan.Channel {
		before := make(map[string][]*plan.Channel, len(r.Old.Channels))
		for _, o := range r.Old.Channels {
			path := r.Renames.Translate(plan.RefEntry, o.Path)
			before[path] = append(before[path], o)
		}
		return before
	})
	matched := make([]bool, len(r.New.Channels))
	for _, o := range r.Old.Channels {
		n := r.nowOf(o)
		if n == nil || matched[n.Index()] {
			r.file(o, nil, Effect{Op: Removed, Channel: r.Renames.Translate(plan.RefEntry, o.Name)}, nil)
			continue
		}
		matched[n.Index()] = true
		if r.feels(o, n) {
			r.compare(o, n)
		}
	}
	for i, n := range r.New.Channels {
		if !matched[i] {
			r.file(nil, n, Effect{Op: Added, Channel: n.Name}, nil)
		}
	}
	for i := range r.causes {
		slices.SortFunc(r.causes[i].Reach.Channels, func(a, b Effect) int { return strings.Compare(a.Channel, b.Channel) })
	}
}

// nowOf gives what became of a channel: the one with its name, else the only
// one on its talk path.
func (r *reacher) nowOf(o *plan.Channel) *plan.Channel {
	if n, ok := r.New.Find(r.Renames.Translate(plan.RefEntry, o.Name)); ok {
		return n
	}
	if on := r.New.OnPath(r.Renames.Translate(plan.RefEntry, o.Path)); len(on) == 1 && len(r.Old.OnPath(o.Path)) == 1 {
		return on[0]
	}
	return nil
}

// feels reports whether a record that one of two channels is made of has changed. Where none
// has, no cause would be found for what differs.
func (r *reacher) feels(o, n *plan.Channel) bool {
	return slices.ContainsFunc(n.Because, func(b plan.Cause) bool { return r.changed(b.Thing) }) ||
		slices.ContainsFunc(o.Because, func(b plan.Cause) bool {
			b.Thing.Key = r.Renames.Key(b.Thing.Kind, b.Thing.Key)
			return r.changed(b.Thing)
		})
}

func (r *reacher) changed(t plan.Thing) bool {
	if !r.kinds[t.Kind] {
		return false
	}
	_, ok := r.index[t]
	return ok
}

func (r *reacher) compare(o, n *plan.Channel) {
	e := Effect{Op: Changed, Channel: n.Name}
	var from []source
	for _, a := range aspects {
		was, is := a.say(r.Renames, o, true), a.say(r.Renames, n, false)
		if was != is {
			e.Aspects = append(e.Aspects, Aspect{Name: a.name, Old: was, New: is, Weight: a.weight})
			from = append(from, a.from...)
		}
	}
	if o.Name != n.Name {
		e.Was = o.Name
		if r.Renames.Translate(plan.RefEntry, o.Name) != n.Name {
			e.Op = Renamed
			from = append(from, source{plan.KindChannel, ""})
		}
	}
	if len(e.Aspects) > 0 || e.Op == Renamed {
		r.file(o, n, e, from)
	}
}

// file puts an effect under the changed records that it follows from. Those
// whose changed fields can cause it come first; where none does, as for a channel
// that came or went, any changed record that the channel is made of.
func (r *reacher) file(o, n *plan.Channel, e Effect, from []source) {
	made := r.madeOf(o, n)
	guilty := slices.DeleteFunc(slices.Clone(made), func(i int) bool { return !r.canCause(i, from) })
	if len(guilty) == 0 {
		guilty = made
	}
	for _, c := range []*plan.Channel{o, n} {
		if c != nil {
			r.touched[c] = guilty
		}
	}
	for _, i := range guilty {
		r.causes[i].Reach.Channels = append(r.causes[i].Reach.Channels, e)
	}
}

// madeOf gives the causes among the records that a channel is made of, before
// and now. One that came or went may also have made room for, or taken the place
// of, another channel on its talk path.
func (r *reacher) madeOf(o, n *plan.Channel) []int {
	made := r.madeOfOne(o, n)
	if n == nil {
		for _, other := range few(r.New.OnPath(r.Renames.Translate(plan.RefEntry, o.Path))) {
			made = append(made, r.madeOfOne(nil, other)...)
		}
	}
	if o == nil {
		for _, other := range few(r.before()[n.Path]) {
			made = append(made, r.madeOfOne(other, nil)...)
		}
	}
	slices.Sort(made)
	return slices.Compact(made)
}

// few bounds the work where a hostile plan puts thousands of channels on one path.
func few(cs []*plan.Channel) []*plan.Channel { return cs[:min(len(cs), 16)] }

func (r *reacher) madeOfOne(o, n *plan.Channel) []int {
	var made []int
	note := func(t plan.Thing) {
		if i, ok := r.index[t]; ok && !slices.Contains(made, i) {
			made = append(made, i)
		}
	}
	if o != nil {
		for _, b := range o.Because {
			note(plan.Thing{Kind: b.Thing.Kind, Key: r.Renames.Key(b.Thing.Kind, b.Thing.Key)})
		}
	}
	if n != nil {
		for _, b := range n.Because {
			note(b.Thing)
		}
	}
	return made
}

// canCause reports whether a change of the cause can make a channel differ in
// one of the ways that come from these sources.
func (r *reacher) canCause(cause int, from []source) bool {
	c := &r.causes[cause]
	for i := range c.Changes {
		change := &c.Changes[i]
		for _, s := range from {
			if s.kind == c.Thing.Kind && (change.Op == Added || change.Op == Removed || touches(change, s.field)) {
				return true
			}
		}
	}
	return len(from) == 0 && slices.ContainsFunc(c.Changes, func(c Change) bool { return makesPaths(&c) })
}

func touches(c *Change, field string) bool {
	return slices.ContainsFunc(c.Edits, func(e Edit) bool { return strings.HasPrefix(e.Field, field) })
}

// makesPaths reports whether a change can make channels come or go.
func makesPaths(c *Change) bool {
	switch c.Op {
	case Added, Removed:
		return c.Thing.Kind == plan.KindRepeater || c.Thing.Kind == plan.KindChannel
	}
	return touches(c, "dmr.slot") || touches(c, "fm") || touches(c, "path")
}

// A source is a kind of record, and the beginning of the names of the fields of
// it, that an aspect of a channel follows from.
type source struct {
	kind  plan.Kind
	field string
}

// An aspect says how a channel behaves in one respect, in words that compare.
type aspect struct {
	name   string
	weight plan.Weight
	say    func(ren plan.Renames, c *plan.Channel, old bool) string
	from   []source
}

func plain(say func(c *plan.Channel) string) func(plan.Renames, *plan.Channel, bool) string {
	return func(_ plan.Renames, c *plan.Channel, _ bool) string { return say(c) }
}

func sources(repeater, channel string) []source {
	return []source{{plan.KindRepeater, repeater}, {plan.KindChannel, channel}}
}

var aspects = []aspect{
	{"label", plan.Label, plain(func(c *plan.Channel) string { return c.Label }),
		append(sources("label", "label"), source{plan.KindGroup, "label"}, source{plan.KindChannel, "path"})},
	{"receive", plan.Air, plain(func(c *plan.Channel) string { return megahertz(c.Receive) }),
		append(sources("output", "simplex"), source{plan.KindChannel, "receive"}, source{plan.KindChannel, "path"})},
	{"transmit", plan.Air, plain(func(c *plan.Channel) string { return megahertz(c.Transmit) }),
		append(sources("input", "simplex"), source{plan.KindChannel, "transmit"}, source{plan.KindChannel, "path"})},
	{"mode", plan.Air, plain(func(c *plan.Channel) string { return strings.ToUpper(string(c.Mode)) }), append(sources("fm", "fm"), source{plan.KindChannel, "dmr"})},
	{"width", plan.Air, plain(width), sources("fm", "fm")},
	{"tone sent", plan.Air, plain(func(c *plan.Channel) string { return tone(c.ToneSend) }), sources("fm", "fm")},
	{"tone received", plan.Air, plain(func(c *plan.Channel) string { return tone(c.ToneReceive) }), sources("fm", "fm")},
	{"color code", plan.Air, plain(colorCode), sources("dmr", "dmr")},
	{"slot", plan.Air, plain(slot), sources("dmr", "dmr")},
	{"group", plan.Air, plain(groupID), append(sources("dmr", "dmr"), source{plan.KindGroup, "id"}, source{plan.KindGroup, "call"})},
	{"listens for", plan.Air, listens, append(sources("dmr", "dmr"), source{plan.KindReceiveList, "groups"})},
	{"scan list", plan.Layout, scanList, sources("scan_list", "scan_list")},
	{"power", plan.Air, plain(func(c *plan.Channel) string { return c.Power }), sources("power", "power")},
	{"time-out", plan.Air, plain(timeout), sources("timeout_s", "timeout_s")},
	{"privacy", plan.Air, plain(privacy), sources("dmr", "dmr")},
	{"access", plan.Air, plain(func(c *plan.Channel) string { return c.Access }), append(sources("fm", "fm"), sources("dmr", "dmr")...)},
}

func megahertz(f signal.Hertz) string {
	if f == 0 {
		return ""
	}
	return f.String()
}

func width(c *plan.Channel) string {
	switch {
	case c.Mode != plan.ModeFM:
		return ""
	case c.Wide:
		return "wide"
	}
	return "narrow"
}

// tone says a tone in one of its spellings, the same for all that are one signal.
func tone(t signal.Tone) string {
	if t.IsZero() {
		return ""
	}
	if dcs, ok := t.DCS(); ok {
		return dcs.Canonical().String()
	}
	return t.String()
}

func colorCode(c *plan.Channel) string {
	if !c.ColorCode.IsSet() {
		return ""
	}
	return c.ColorCode.V.String()
}

func slot(c *plan.Channel) string {
	if c.Mode != plan.ModeDMR {
		return ""
	}
	return c.Slot.String()
}

func groupID(c *plan.Channel) string {
	if c.Group == nil {
		return ""
	}
	text := c.Group.ID.V.String()
	if call := c.Group.Call.Or("group"); call != "group" {
		text += " (" + call + ")"
	}
	return text
}

func listens(ren plan.Renames, c *plan.Channel, old bool) string {
	keys := slices.Clone(c.Listens)
	if old {
		for i, key := range keys {
			keys[i] = ren.Key(plan.KindGroup, key)
		}
		slices.Sort(keys)
	}
	return strings.Join(keys, ", ")
}

func scanList(ren plan.Renames, c *plan.Channel, old bool) string {
	if old {
		return ren.Key(plan.KindScanList, c.ScanList)
	}
	return c.ScanList
}

func timeout(c *plan.Channel) string {
	if c.Timeout == 0 {
		return ""
	}
	return strconv.Itoa(c.Timeout) + " s"
}

func privacy(c *plan.Channel) string {
	if c.Privacy {
		return "yes"
	}
	return ""
}
