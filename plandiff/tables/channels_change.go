package tables

import (
	"fmt"
	"slices"
	"strings"

	"passband.example/plandiff/plan"
)

// differs reports whether a row says another thing in a column than the plan does.
func (b *builder) differs(r *channelRow, i int) bool {
	if r.old == nil {
		return true
	}
	c := r.sheet.table.Columns[i]
	was := c.value.get(b.old, item{channel: r.old})
	if slices.Equal(was, r.texts[i]) {
		return false
	}
	cell, err := c.write(was, r.sheet.comma)
	return err != nil || cell != r.cells[i]
}

// changeAir claims what a row says of the channel that it is about, for the record that
// it stands in: the repeater, or the channel that is on no repeater.
func (b *builder) changeAir(r *channelRow) {
	c := r.old
	r.path = c.Path
	if c.Spec != nil {
		r.own = c.Spec.Thing()
	}
	at := plan.Thing{Kind: plan.KindChannel, Key: c.Path}
	if c.Repeater != nil {
		r.repeater, at = c.Repeater.Thing(), c.Repeater.Thing()
	}
	if i := r.column("output"); i >= 0 && r.output == "" && b.differs(r, i) {
		b.problem(r.row, i, "the channel has nothing to receive", "write its output, or take the row out: a row that is not there changes nothing")
		return
	}
	if c.Repeater != nil {
		b.changePair(r, at)
	} else {
		b.changeSimplex(r, at)
	}
	b.changeSide(r, at)
}

// changePair claims the output and the input of a repeater. A row that sends on nothing
// makes its channel listen only, and not the repeater.
func (b *builder) changePair(r *channelRow, at plan.Thing) {
	if i := r.column("output"); i >= 0 {
		b.claim(at, "output", r.output, r.row, i, b.differs(r, i))
	}
	if !r.sends {
		return
	}
	i := r.column("input", "split", "split.direction", "transmit")
	input := first(mhz(r.old.Repeater.TransmitOn()))
	switch {
	case r.input == "" && r.old.Transmit != 0:
		b.set(b.ownOf(r), "transmit", []string{"no"}, r.row, i)
		b.checks = append(b.checks, check{r.row, i, plan.Thing{}, r})
	case r.input == "":
	case r.old.Transmit == 0 && input != "":
		b.set(b.ownOf(r), "transmit", nil, r.row, i)
		fallthrough
	default:
		b.claim(at, "input", r.input, r.row, i, r.input != input)
	}
}

// changeSimplex claims the frequency of a channel that is on no repeater.
func (b *builder) changeSimplex(r *channelRow, at plan.Thing) {
	i := r.column("output")
	if i < 0 {
		i = r.column("input", "split", "split.direction", "transmit")
	}
	output, input := first(mhz(r.old.Receive)), first(mhz(r.old.Transmit))
	now, sends := output, input
	if r.output != "" {
		now = r.output
	}
	switch {
	case r.sends:
		sends = r.input
	case sends != "":
		sends = now
	}
	switch {
	case i < 0 || now == output && sends == input:
	case sends == "" && input != "" && r.own.Kind != 0 && r.own != at:
		b.set(r.own, "transmit", []string{"no"}, r.row, i)
	case sends == "":
		b.claim(at, "simplex", "", r.row, i, true)
		b.claim(at, "receive", now, r.row, i, true)
	case sends == now:
		b.claim(at, "simplex", now, r.row, i, true)
		b.claim(at, "receive", "", r.row, i, true)
		b.claim(at, "transmit", "", r.row, i, true)
	default:
		b.problem(r.row, r.column("input", "split", "split.direction"), fmt.Sprintf("the channel %s is simplex in the plan, and a row cannot give it an input of its own", at.Key), "give the row another key, so that it becomes a repeater, and take the channel out of the plan by hand")
	}
}

// changeSide claims what the FM or the DMR side says.
func (b *builder) changeSide(r *channelRow, at plan.Thing) {
	if r.mode == string(plan.ModeFM) {
		b.claimTone(r, at, "tone.send", r.toneSend, first(toneText(r.old.ToneSend)))
		b.claimTone(r, at, "tone.receive", r.toneRecv, first(toneText(r.old.ToneReceive)))
		b.claimField(r, at, "width", "fm.width")
		b.claimField(r, at, "callsign", "callsign")
		b.claimField(r, at, "repeater.label", "label")
		return
	}
	b.claimField(r, at, "color_code", "dmr.color_code")
	b.claimField(r, at, "callsign", "callsign")
	b.claimField(r, at, "repeater.label", "label")
	group, ok := b.groupOf(r)
	if !ok {
		return
	}
	r.group = group
	slot := r.old.Slot.String()
	if i := r.column("slot"); i >= 0 && r.says("slot") != "" {
		slot = r.says("slot")
	}
	if group == r.old.GroupKey && slot == r.old.Slot.String() {
		return
	}
	if r.old.Repeater == nil {
		i := r.column("slot", "group", "group.id", "group.label")
		b.claim(at, "dmr.slot", slot, r.row, i, true)
		b.claim(at, "dmr.group", group, r.row, i, true)
		return
	}
	b.movePath(r, slot)
}

// claimField claims a field that a column shows as it stands; a blank cell says nothing of
// the repeater's own name.
func (b *builder) claimField(r *channelRow, at plan.Thing, value, field string) {
	i := r.column(value)
	if i < 0 || r.says(value) == "" && !b.differs(r, i) {
		return
	}
	if (value == "callsign" || value == "repeater.label") && at.Kind != plan.KindRepeater {
		return
	}
	b.claim(at, field, r.says(value), r.row, i, b.differs(r, i))
}

func (b *builder) claimTone(r *channelRow, at plan.Thing, value, text, was string) {
	if !r.tells(value) {
		return
	}
	i := r.column(value, value+".type", value+".ctcss", value+".dcs")
	b.claim(at, "fm."+value, text, r.row, i, text != was)
}

// movePath gives a channel of a repeater another slot or group.
func (b *builder) movePath(r *channelRow, slot string) {
	path := r.repeater.Key + "/" + slot + "/" + r.group
	i := r.column("slot", "group", "group.id", "group.label")
	if r.group == "" {
		b.problem(r.row, r.column("group", "group.id", "group.label"), "a DMR channel through a repeater needs the group that it calls", "write the number of the group")
		return
	}
	if r.own.Kind != 0 {
		b.claim(r.own, "path", path, r.row, i, true)
	} else {
		b.takeOff(r)
		b.moved[r.path] = path
	}
	b.putOn(r, slot)
	r.path = path
}

// takeOff takes a group off the slot of a repeater.
func (b *builder) takeOff(r *channelRow) {
	edited, _ := b.draft.edit(r.repeater)
	slots := &edited.(*plan.Repeater).DMR.Slots
	n := int(r.old.Slot) - 1
	slots[n] = slices.DeleteFunc(slots[n], func(v plan.Value[string]) bool { return v.V == r.old.GroupKey })
}

// putOn puts the group of a row on a slot of its repeater, unless it is there.
func (b *builder) putOn(r *channelRow, slot string) {
	field := "dmr.slot" + slot
	edited, _ := b.draft.edit(r.repeater)
	groups := plan.SectionOf(plan.KindRepeater).Field(field).Texts(edited, nil)
	if !slices.Contains(groups, r.group) {
		b.set(r.repeater, field, append(groups, r.group), r.row, r.column("slot", "group", "group.id", "group.label"))
	}
}

// ownOf gives the record of a row in the section channels, which is made where the row
// says what its repeater does not.
func (b *builder) ownOf(r *channelRow) plan.Thing {
	if r.own.Kind == 0 {
		name := r.says("label")
		if name == "" {
			name = strings.ReplaceAll(r.path, "/", "-")
		}
		r.own = b.draft.add(plan.KindChannel, b.draft.newKey(plan.KindChannel, name))
		b.set(r.own, "path", []string{r.path}, r.row, -1)
	}
	return r.own
}
