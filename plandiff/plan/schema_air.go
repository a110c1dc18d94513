package plan

import "passband.example/plandiff/signal"

func repeaterFields() []Field {
	fields := []Field{
		scalar("label", Label, texts, func(r *Repeater) *Value[string] { return &r.Label }, "the first word of its channels' labels"),
		scalar("callsign", Label, callsigns, func(r *Repeater) *Value[signal.Callsign] { return &r.Callsign }, "the callsign it identifies with"),
		scalar("output", Air, frequencies, func(r *Repeater) *Value[signal.Hertz] { return &r.Output }, "what members hear, in MHz"),
		inputField(),
		splitField(),
	}
	fields = append(fields, fmFields(func(r *Repeater) **FM { return &r.FM })...)
	fields = append(fields, blockOf(func(r *Repeater) **RepeaterDMR { return &r.DMR }, absentRepeaterDMR,
		flag("dmr", Air, func(r *Repeater) *Value[bool] { return &r.DMR.Present }, "there is a DMR side"),
		scalar("dmr.color_code", Air, colorCodes, func(r *Repeater) *Value[signal.ColorCode] { return &r.DMR.ColorCode }, "0 to 15; a radio hears only its own"),
		list("dmr.slot1", List, names, func(r *Repeater) *[]Value[string] { return &r.DMR.Slots[0] }, "the groups on time slot 1").naming(RefGroup).weighing(Air),
		list("dmr.slot2", List, names, func(r *Repeater) *[]Value[string] { return &r.DMR.Slots[1] }, "the groups on time slot 2").naming(RefGroup).weighing(Air),
		scalar("dmr.receive_list", Air, names, func(r *Repeater) *Value[string] { return &r.DMR.ReceiveList }, "what its channels listen for").naming(RefReceiveList),
		scalar("dmr.access", Air, dmrAccess, func(r *Repeater) *Value[string] { return &r.DMR.Access }, "when a radio may start to send"),
		scalar("dmr.privacy", Air, yesNos, func(r *Repeater) *Value[bool] { return &r.DMR.Privacy }, "yes: its channels encode speech so that others can't hear it"),
	)...)
	fields = append(fields, blockOf(func(r *Repeater) **Site { return &r.Site }, absentSite,
		flag("site", Label, func(r *Repeater) *Value[bool] { return &r.Site.Present }, "where it stands is known"),
		scalar("site.grid", Label, grids, func(r *Repeater) *Value[signal.Grid] { return &r.Site.Grid }, "its Maidenhead locator"),
		scalar("site.lat", Label, latitudes, func(r *Repeater) *Value[signal.MicroDegrees] { return &r.Site.Lat }, "degrees north, WGS 84"),
		scalar("site.lon", Label, longitudes, func(r *Repeater) *Value[signal.MicroDegrees] { return &r.Site.Lon }, "degrees east, WGS 84"),
		scalar("site.height_m", Label, heights, func(r *Repeater) *Value[signal.Meters] { return &r.Site.Height }, "the antenna above ground, in m"),
		scalar("site.erp_w", Label, watts, func(r *Repeater) *Value[signal.Power] { return &r.Site.ERP }, "effective radiated power, in W"),
		scalar("site.power_w", Label, watts, func(r *Repeater) *Value[signal.Power] { return &r.Site.Output }, "output of the transmitter, in W"),
		scalar("site.gain_dbd", Label, ratios, func(r *Repeater) *Value[signal.Decibels] { return &r.Site.Gain }, "gain of the antenna over a half-wave dipole, in dB"),
		scalar("site.loss_db", Label, losses, func(r *Repeater) *Value[signal.Decibels] { return &r.Site.Loss }, "loss of lines, duplexer and filters together, in dB"),
		scalar("site.duty_percent", Label, percents, func(r *Repeater) *Value[int] { return &r.Site.Duty }, "share of the time that it sends, measured; all of it if left out"),
		scalar("site.people_m", Label, distances, func(r *Repeater) *Value[signal.Meters] { return &r.Site.People }, "the nearest that anybody can come to the antenna, in m"),
	)...)
	fields = append(fields, extraFields(func(r *Repeater) **Extra { return &r.Extra })...)
	return append(fields,
		scalar("when", Label, texts, func(r *Repeater) *Value[string] { return &r.When }, "when to use it, on the cards of newcomers; its groups may say otherwise"),
		scalar("note", Label, notes, func(r *Repeater) *Value[string] { return &r.Note }, "for people; no radio holds it"),
		wasField(func(r *Repeater) *Value[string] { return &r.Was }),
	)
}

func channelFields() []Field {
	fields := []Field{
		scalar("label", Label, texts, func(c *ChannelSpec) *Value[string] { return &c.Label }, "what the radio shows"),
		scalar("simplex", Air, frequencies, func(c *ChannelSpec) *Value[signal.Hertz] { return &c.Simplex }, "one frequency for both ways, in MHz"),
		scalar("receive", Air, frequencies, func(c *ChannelSpec) *Value[signal.Hertz] { return &c.Receive }, "listen only, in MHz"),
		scalar("path", Air, paths, func(c *ChannelSpec) *Value[string] { return &c.Path }, "the talk path it is the channel of").naming(RefEntry),
		scalar("transmit", Air, yesNos, func(c *ChannelSpec) *Value[bool] { return &c.Transmit }, "no: listen only"),
	}
	fields = append(fields, fmFields(func(c *ChannelSpec) **FM { return &c.FM })...)
	fields = append(fields, blockOf(func(c *ChannelSpec) **ChannelDMR { return &c.DMR }, absentChannelDMR,
		flag("dmr", Air, func(c *ChannelSpec) *Value[bool] { return &c.DMR.Present }, "it is a DMR channel"),
		scalar("dmr.color_code", Air, colorCodes, func(c *ChannelSpec) *Value[signal.ColorCode] { return &c.DMR.ColorCode }, "0 to 15"),
		scalar("dmr.slot", Air, slots, func(c *ChannelSpec) *Value[signal.Slot] { return &c.DMR.Slot }, "time slot 1 or 2"),
		scalar("dmr.group", Air, names, func(c *ChannelSpec) *Value[string] { return &c.DMR.Group }, "the group it calls").naming(RefGroup),
		scalar("dmr.receive_list", Air, names, func(c *ChannelSpec) *Value[string] { return &c.DMR.ReceiveList }, "what it listens for").naming(RefReceiveList),
		scalar("dmr.access", Air, dmrAccess, func(c *ChannelSpec) *Value[string] { return &c.DMR.Access }, "when a radio may start to send"),
		scalar("dmr.privacy", Air, yesNos, func(c *ChannelSpec) *Value[bool] { return &c.DMR.Privacy }, "yes: it encodes speech so that others can't hear it"),
	)...)
	fields = append(fields, extraFields(func(c *ChannelSpec) **Extra { return &c.Extra })...)
	return append(fields,
		scalar("when", Label, texts, func(c *ChannelSpec) *Value[string] { return &c.When }, "when to use it, on the cards of newcomers"),
		scalar("note", Label, notes, func(c *ChannelSpec) *Value[string] { return &c.Note }, "for people; no radio holds it"),
		wasField(func(c *ChannelSpec) *Value[string] { return &c.Was }),
	)
}

func fmFields[R Record](at func(R) **FM) []Field {
	fm := func(r R) *FM { return *at(r) }
	return blockOf(at, absentFM,
		flag("fm", Air, func(r R) *Value[bool] { return &fm(r).Present }, "it is FM"),
		scalar("fm.tone.send", Air, tones, func(r R) *Value[signal.Tone] { return &fm(r).ToneSend }, "the tone that a member sends"),
		scalar("fm.tone.receive", Air, tones, func(r R) *Value[signal.Tone] { return &fm(r).ToneReceive }, "the tone that opens the member's squelch"),
		scalar("fm.width", Air, widths, func(r R) *Value[string] { return &fm(r).Width }, "wide or narrow"),
		scalar("fm.access", Air, fmAccess, func(r R) *Value[string] { return &fm(r).Access }, "when a radio may start to send"),
	)
}

func extraFields[R Record](at func(R) **Extra) []Field {
	extra := func(r R) *Extra { return *at(r) }
	return blockOf(at, absentExtra,
		scalar("power", Air, powers, func(r R) *Value[string] { return &extra(r).Power }, "low, medium, high or watts"),
		scalar("timeout_s", Air, seconds, func(r R) *Value[int] { return &extra(r).Timeout }, "the longest transmission, in s"),
		scalar("scan_list", Layout, names, func(r R) *Value[string] { return &extra(r).ScanList }, "the scan list that starts from it").naming(RefScanList),
	)
}

// inputField is the input as it follows from what is written: a split and an
// input that say the same are no change.
func inputField() Field {
	f := scalar("input", Air, frequencies, func(r *Repeater) *Value[signal.Hertz] { return &r.Input }, "what members send on, in MHz; or say split")
	f.written = f.items
	f.items = func(r Record) []Item {
		rep := r.(*Repeater)
		if hz := rep.TransmitOn(); hz != 0 {
			return []Item{{hz.String(), rep.InputPlace()}}
		}
		return nil
	}
	f.each = eachOf(f.items)
	f.same = func(a, b Record) bool { return a.(*Repeater).TransmitOn() == b.(*Repeater).TransmitOn() }
	return f
}

// splitField is a split that input does not already tell: one that contradicts
// it, or one without an output. Both are faults, and a change of one is a change.
func splitField() Field {
	f := scalar("split", Air, splits, func(r *Repeater) *Value[signal.Split] { return &r.Split }, "input less output, in MHz, with its sign")
	all := f.items
	f.written = all
	f.items = func(r Record) []Item {
		rep := r.(*Repeater)
		if !rep.Split.IsSet() || !rep.Output.IsSet() {
			return all(r)
		}
		if on := rep.TransmitOn(); on != 0 && on == rep.Output.V+signal.Hertz(rep.Split.V) {
			return nil
		}
		return all(r)
	}
	f.each = eachOf(f.items)
	f.same = func(a, b Record) bool {
		x, y := f.items(a), f.items(b)
		return len(x) == len(y) && (len(x) == 0 || x[0].Text == y[0].Text)
	}
	return f
}
