package plantest

import (
	"strings"

	"passband.example/plandiff/plan"
	"pgregory.net/rapid"
)

// known draws the key of a record of the kind, and now and then another one.
func (d *draft) known(kind plan.Kind) *rapid.Generator[string] {
	keys := d.keys[kind]
	if len(keys) == 0 {
		return keyOf(kind)
	}
	there := rapid.SampledFrom(keys)
	return rapid.OneOf(there, there, there, there, there, there, keyOf(kind))
}

// reference draws what a field may refer to.
func (d *draft) reference(ref plan.Ref) *rapid.Generator[string] {
	switch ref {
	case plan.RefGroup:
		return d.known(plan.KindGroup)
	case plan.RefReceiveList:
		return rapid.OneOf(d.known(plan.KindReceiveList), rapid.SampledFrom([]string{plan.ListenSlot, plan.ListenRepeater, plan.ListenNone}))
	case plan.RefScanList:
		return d.known(plan.KindScanList)
	case plan.RefZone:
		return d.known(plan.KindZone)
	case plan.RefEntry:
		return d.entry()
	case plan.RefCall:
		return rapid.OneOf(d.known(plan.KindGroup), rapid.StringMatching(`N0QR[A-Z]`), number(9990001, 9990040))
	case plan.RefRepeater:
		return d.known(plan.KindRepeater)
	case plan.RefParty:
		return rapid.OneOf(d.known(plan.KindRepeater), rapid.StringMatching(`N0QR[A-Z]`))
	case plan.RefAcceptance:
		return rapid.OneOf(d.talkPath(), d.known(plan.KindRepeater), rapid.Map(d.known(plan.KindZone), func(key string) string { return "zone " + key }))
	}
	return nil
}

// channel draws what stands for one channel.
func (d *draft) channel() *rapid.Generator[string] {
	return rapid.OneOf(d.known(plan.KindChannel), d.talkPath())
}

// entry draws an entry of a zone or a scan list.
func (d *draft) entry() *rapid.Generator[string] {
	zone := rapid.Map(d.known(plan.KindZone), func(key string) string { return "zone:" + key })
	return rapid.OneOf(d.channel(), d.channel(), d.pattern(), zone)
}

func (d *draft) talkPath() *rapid.Generator[string] {
	return rapid.Custom(func(t *rapid.T) string {
		repeater := d.known(plan.KindRepeater).Draw(t, "repeater")
		if rapid.Bool().Draw(t, "fm") {
			return repeater + "/fm"
		}
		slot := rapid.SampledFrom([]string{"1", "2"}).Draw(t, "slot")
		return repeater + "/" + slot + "/" + d.known(plan.KindGroup).Draw(t, "group")
	})
}

// pattern draws a talk path with * in one or more places.
func (d *draft) pattern() *rapid.Generator[string] {
	return rapid.Custom(func(t *rapid.T) string {
		parts := strings.Split(d.talkPath().Draw(t, "path"), "/")
		if rapid.IntRange(0, 3).Draw(t, "whole") == 0 {
			return parts[0] + "/*"
		}
		parts[rapid.IntRange(0, len(parts)-1).Draw(t, "star")] = "*"
		return strings.Join(parts, "/")
	})
}
