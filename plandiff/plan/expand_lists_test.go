package plan_test

import (
	"fmt"
	"strings"
	"testing"

	"passband.example/plandiff/plan"
)

func memberNames(members []plan.Member) string {
	var all []string
	for _, m := range members {
		all = append(all, m.Channel.Name)
	}
	return strings.Join(all, " ")
}

const valley = `
repeaters:
  mill: {label: Mill, fm: {}, dmr: {slot1: [wide], slot2: [wide, town]}}
  hill: {fm: {}, dmr: {slot1: [wide, town], slot2: [town]}}
  lake: {fm: {}}
groups: {wide: {id: 1}, town: {id: 2}}
channels:
  call: {simplex: 146.52, fm: {}}
  low: {path: hill/fm, power: low}
  high: {path: hill/fm, power: high}
  net: {path: mill/1/wide}
`

func TestZoneMembers(t *testing.T) {
	for _, test := range []struct{ name, why, entries, want string }{
		{"keys and paths", "in the order of the list", "[call, lake/fm, net]", "call lake/fm net"},
		{"a path with several channels", "all of them, by key", "[hill/fm]", "high low"},
		{"a path with an override", "the channel that stands in its place", "[mill/1/wide]", "net"},
		{"all of a repeater", "fm, slot 1, slot 2", "[hill/*]", "high low hill/1/wide hill/1/town hill/2/town"},
		{"a slot", "in the order of its groups", "[hill/1/*]", "hill/1/wide hill/1/town"},
		{"a group on either slot", "slot 1 first", "[mill/*/wide]", "net mill/2/wide"},
		{"a group everywhere", "by repeater", `["*/*/wide"]`, "hill/1/wide net mill/2/wide"},
		{"a group on one slot everywhere", "by repeater", `["*/2/town"]`, "hill/2/town mill/2/town"},
		{"every FM side", "by repeater", `["*/fm"]`, "high low lake/fm mill/fm"},
		{"all of DMR", "no FM side has three parts", `["*/*/*"]`, "hill/1/wide hill/1/town hill/2/town net mill/2/wide mill/2/town"},
		{"all of everything", "fm too", `["*/*"]`, "high low hill/1/wide hill/1/town hill/2/town lake/fm mill/fm net mill/2/wide mill/2/town"},
		{"all of a slot of FM alone", "nothing, and that is told as unresolved", "[lake/1/*]", ""},
		{"first place counts", "a pattern puts in what is not yet there", "[hill/2/town, hill/*, call]", "hill/2/town high low hill/1/wide hill/1/town call"},
		{"a zone in place", "its channels stand where it is named", "[call, zone:inner, lake/fm]", "call net mill/fm lake/fm"},
		{"a zone and again its channel", "once, at its first place", "[zone:inner, call, net]", "net mill/fm call"},
		{"diamond", "two zones hold the same one", "[zone:left, zone:right]", "net mill/fm call lake/fm"},
		{"zone twice", "the second says nothing new", "[zone:inner, call, zone:inner]", "net mill/fm call"},
		{"unknown entries between", "the rest stands", "[call, nothing, nowhere/fm, zone:none, lake/fm]", "call lake/fm"},
	} {
		t.Run(test.name, func(t *testing.T) {
			x := expand(t, valley+`
zones:
  test: {channels: `+test.entries+`}
  inner: {channels: [net, mill/fm]}
  left: {channels: [zone:inner, call]}
  right: {channels: [zone:inner, lake/fm]}
scan_lists: {same: {channels: `+test.entries+`}}
`)
			for _, z := range x.Zones {
				if z.Zone.Key.V == "test" && memberNames(z.Members) != test.want {
					t.Errorf("%s:\ngot  %s\nwant %s", test.why, memberNames(z.Members), test.want)
				}
			}
			if got := memberNames(x.ScanLists[0].Members); got != test.want {
				t.Errorf("as a scan list, %s:\ngot  %s\nwant %s", test.why, got, test.want)
			}
		})
	}
}

// A channel that an entry without * names again is told, and nothing else is.
func TestTwice(t *testing.T) {
	for _, test := range []struct{ name, why, entries, want string }{
		{"once", "nothing to tell", "[call, lake/fm]", ""},
		{"the same entry", "one of the two can go", "[call, lake/fm, call]", "call 12:33"},
		{"by key and by path", "two names of one channel", "[net, mill/1/wide]", "net 12:23"},
		{"first one, then all", "the usual way to put one first", "[lake/fm, lake/*]", ""},
		{"all, then one", "a pattern is not meant to name each", "[lake/*, lake/fm]", ""},
		{"pattern twice", "a pattern is not meant to name each", "[lake/*, lake/*]", ""},
		{"one of two, then the path", "the path names the other too", "[low, hill/fm]", ""},
		{"path of two twice", "both are named again", "[hill/fm, hill/fm]", "high 12:27 low 12:27"},
		{"by another zone", "which has it for reasons of its own", "[net, zone:inner, zone:inner]", ""},
	} {
		t.Run(test.name, func(t *testing.T) {
			x := expand(t, valley[1:]+"zones:\n  t: {channels: "+test.entries+"}\n  inner: {channels: [net]}\n")
			var got []string
			for _, m := range x.Zones[1].Twice {
				got = append(got, fmt.Sprintf("%s %d:%d", m.Channel.Name, m.At.Line, m.At.Col))
			}
			if strings.Join(got, " ") != test.want {
				t.Errorf("%s: got %q, want %q", test.why, got, test.want)
			}
		})
	}
}

// A member knows the entry of its own zone that put it there, however deep the
// zone that names it.
func TestMemberPlace(t *testing.T) {
	x := expand(t, `channels: {a: {simplex: 146.52}, b: {simplex: 146.55}}
zones:
  z1: {channels: [a, zone:z2]}
  z2: {channels: [zone:z3]}
  z3: {channels: [a, b]}
`)
	got := fmt.Sprint(x.Zones[0].Members[1].Channel.Name, " ", x.Zones[0].Members[1].Entry, " ", x.Zones[0].Members[1].At)
	if want := "b b plan.yaml:3:22"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
}

// What leads in a circle is told of each record in it, at the record's own entry;
// whoever only leads into the circle is not to blame.
func TestCycles(t *testing.T) {
	for _, test := range []struct{ name, why, text, want string }{
		{"itself", "the shortest circle", "zones:\n  a: {channels: [zone:a]}\n", "zone a > zone a 2:18"},
		{"two", "each holds the other", "zones:\n  a: {channels: [zone:b]}\n  b: {channels: [zone:a]}\n",
			"zone a > zone b > zone a 2:18; zone b > zone a > zone b 3:18"},
		{"led into", "c is in no circle", "zones:\n  a: {channels: [zone:a]}\n  c: {channels: [zone:a]}\n", "zone a > zone a 2:18"},
		{"scan list", "the zone tells it, once", "zones:\n  a: {channels: [zone:a]}\nscan_lists:\n  s: {channels: [zone:a]}\n", "zone a > zone a 2:18"},
		{"channel of itself", "it names its own key", "channels:\n  a: {path: a}\n", "channel a > channel a 2:13"},
		{"channels", "each names the other", "channels:\n  a: {path: b}\n  b: {path: a}\n",
			"channel a > channel b > channel a 2:13; channel b > channel a > channel b 3:13"},
		{"diamond", "no circle", "channels: {x: {simplex: 146.52}}\nzones: {a: {channels: [zone:b, zone:c]}, b: {channels: [zone:d]}, c: {channels: [zone:d]}, d: {channels: [x]}}", ""},
	} {
		t.Run(test.name, func(t *testing.T) {
			x := expand(t, test.text)
			var got []string
			for _, c := range x.Cycles {
				var through []string
				for _, thing := range c.Through {
					through = append(through, thing.String())
				}
				got = append(got, fmt.Sprintf("%s %d:%d", strings.Join(through, " > "), c.At.Line, c.At.Col))
			}
			if strings.Join(got, "; ") != test.want {
				t.Errorf("%s:\ngot  %s\nwant %s", test.why, strings.Join(got, "; "), test.want)
			}
		})
	}
}

// Every kind of reference that leads nowhere is told once, at its place, with
// what was most likely meant.
func TestUnresolved(t *testing.T) {
	base := `repeaters: {ridge: {label: R, fm: {}, dmr: {slot1: [statewide], slot2: [statewide]}}}
groups: {statewide: {id: 1}}
receive_lists: {emergency: {groups: [statewide]}}
channels: {calling-2m: {simplex: 146.52, fm: {}}}
zones: {valley: {channels: [calling-2m]}}
scan_lists: {hills: {channels: [calling-2m]}}
`
	for _, test := range []struct{ name, why, section, text, want string }{
		{"group of a slot", "a talk path without a contact", "repeaters", "x: {dmr: {slot2: [statwide]}}", `repeater x: group statwide ~ statewide 1:31`},
		{"group of a channel", "the same on simplex", "channels", "x: {simplex: 433.45, dmr: {group: statewid}}", `channel x: group statewid ~ statewide 1:46`},
		{"group of a receive list", "it would never be heard", "receive_lists", "x: {groups: [state]}", `receive list x: group state ~  1:30`},
		{"receive list of a repeater", "its channels would hear nothing", "repeaters", "x: {dmr: {receive_list: emergancy}}", `repeater x: receive list emergancy ~ emergency 1:37`},
		{"receive list that is nearly a word", "slot, repeater and none are suggested too", "repeaters", "x: {dmr: {receive_list: slots}}", `repeater x: receive list slots ~ slot 1:37`},
		{"receive list of a channel", "the same", "channels", "x: {path: ridge/fm, dmr: {receive_list: emergenci}}", `channel x: receive list emergenci ~ emergency 1:52`},
		{"scan list", "the button would do nothing", "channels", "x: {simplex: 146.55, scan_list: hill}", `channel x: scan list hill ~ hills 1:44`},
		{"zone of a radio", "the radio would lack it", "radios", "x: {zones: [vally]}", `radio x: zone vally ~ valley 1:22`},
		{"zone in a zone", "its channels are missing", "zones", "x: {channels: [zone:vally]}", `zone x: zone vally ~ valley 1:24`},
		{"zone in a scan list", "its channels are missing", "scan_lists", "x: {channels: [zone:vally]}", `scan list x: zone vally ~ valley 1:29`},
		{"channel", "it is missing", "zones", "x: {channels: [caling-2m]}", `zone x: channel caling-2m ~ calling-2m 1:24`},
		{"repeater of a path", "it is missing", "zones", "x: {channels: [rigde/fm, ridg/1/statewide]}", `zone x: talk path rigde/fm ~ ridge/fm 1:24; zone x: talk path ridg/1/statewide ~ ridge/1/statewide 1:34`},
		{"group of a path", "it is missing", "zones", "x: {channels: [ridge/2/statwide]}", `zone x: talk path ridge/2/statwide ~ ridge/2/statewide 1:24`},
		{"slot of a path", "there are two", "scan_lists", "x: {channels: [ridge/3/statewide]}", `scan list x: talk path ridge/3/statewide ~ ridge/1/statewide 1:29`},
		{"pattern", "it stands for nothing, and nothing is near a pattern", "zones", `x: {channels: ["*/*/state", ridge/x]}`, `zone x: talk path */*/state ~  1:24; zone x: talk path ridge/x ~ ridge/fm 1:37`},
		{"priority", "nothing is looked at more often", "scan_lists", "x: {priority: calling-2n}", `scan list x: channel calling-2n ~ calling-2m 1:28`},
		{"path of a channel", "the channel cannot be made", "channels", "x: {path: ridge/1/statewidee}", `channel x: talk path ridge/1/statewidee ~ ridge/1/statewide 1:22`},
		{"channel of a channel", "the channel cannot be made", "channels", "x: {path: calling-2}", `channel x: channel calling-2 ~ calling-2m 1:22`},
		{"channel of a channel of nothing", "told of the one that says so", "channels", "x: {path: y}, y: {path: calling-2}", `channel y: channel calling-2 ~ calling-2m 1:36`},
		{"shortcut to a group", "the key would do nothing", "shortcuts", "1: statewid", `shortcut 1: group or operator statewid ~ statewide 1:16`},
		{"shortcut to a person", "the key would do nothing", "shortcuts", "1: N0QRZ", `shortcut 1: group or operator N0QRZ ~ N0QRV 1:16`},
		{"shortcuts that lead somewhere", "a group, a callsign in any case, a radio ID", "shortcuts", "1: statewide, 2: n0qrv, 3: 9990001", ``},
		{"words for receive lists", "they need no list", "channels", "a: {path: ridge/1/statewide, dmr: {receive_list: slot}}, b: {path: ridge/fm, dmr: {receive_list: none}}, c: {path: ridge/fm, dmr: {receive_list: repeater}}", ``},
		{"in another zone", "told there alone", "zones", "x: {channels: [zone:y]}, y: {channels: [zone:valey, nobody]}", `zone y: zone valey ~ valley 1:49; zone y: channel nobody ~  1:61`},
	} {
		t.Run(test.name, func(t *testing.T) {
			x := expandFiles(t, base, test.section+": {"+test.text+"}\n")
			var got []string
			for _, u := range x.Unresolved {
				got = append(got, fmt.Sprintf("%s: %s %s ~ %s %d:%d", u.From, u.Kind, u.Text, u.Near, u.At.Line, u.At.Col))
			}
			if strings.Join(got, "; ") != test.want {
				t.Errorf("%s:\ngot  %s\nwant %s", test.why, strings.Join(got, "; "), test.want)
			}
		})
	}
}
