package plan_test

import (
	"fmt"
	"strings"
	"testing"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/plan/plantest"
)

func expand(t *testing.T, text string) *plan.Expansion {
	t.Helper()
	return expandFiles(t, text, "")
}

// expandFiles expands a plan of two files and a table of two operators.
func expandFiles(t *testing.T, text, more string) *plan.Expansion {
	t.Helper()
	p := plantest.Load(t, map[string][]byte{
		"plan.yaml":     []byte(text),
		"more.yaml":     []byte(more),
		"operators.csv": []byte("id,callsign,name\n9990001,N0QRV,Ann\n9990002,N0QRW,Bo\n"),
	})
	if len(p.Problems) > 0 {
		t.Fatal(p.Problems)
	}
	x := plan.Expand(p)
	checkExpansion(t, x)
	return x
}

// hill is a repeater with both sides; lake has FM alone.
const hill = `
repeaters:
  hill:
    label: Hill
    output: 444.325
    split: +5
    fm: {tone: {send: 103.5, receive: D023N}, width: narrow, access: tone free}
    dmr: {color_code: 4, slot1: [wide, town], slot2: [town, chat], access: polite to all}
    power: low
    timeout_s: 180
    scan_list: sweep
  lake: {output: 146.94, input: 146.34, fm: {}}
groups:
  wide: {id: 99931, label: Wide Area}
  town: {id: 99932}
  chat: {id: 9990007, call: private}
scan_lists: {sweep: {channels: [lake/fm]}, other: {channels: [hill/fm]}}
receive_lists: {both: {label: B, groups: [wide, town]}}
`

func names(channels []*plan.Channel) string {
	var all []string
	for _, c := range channels {
		all = append(all, c.Name)
	}
	return strings.Join(all, " ")
}

// air tells what is sent and heard on a channel.
func air(c *plan.Channel) string {
	return fmt.Sprintf("%s rx %v tx %v wide %v tone %v/%v cc %v slot %d group %s access %q power %q timeout %d scan %q",
		c.Mode, c.Receive, c.Transmit, c.Wide, c.ToneSend, c.ToneReceive, c.ColorCode.V, c.Slot, c.GroupKey, c.Access, c.Power, c.Timeout, c.ScanList)
}

func TestExpandChannels(t *testing.T) {
	for _, test := range []struct {
		name, why string
		text      string // besides hill
		channel   string
		tell      func(*plan.Channel) string
		want      string
	}{
		{"fm path", "all that the FM side says, and what the repeater says for all its channels", "", "hill/fm", air,
			`fm rx 444.325 tx 449.325 wide false tone 103.5/D023N cc 0 slot 0 group  access "tone free" power "low" timeout 180 scan "sweep"`},
		{"dmr path", "color code, slot and group; no tone and no width", "", "hill/2/chat", air,
			`dmr rx 444.325 tx 449.325 wide false tone none/none cc 4 slot 2 group chat access "polite to all" power "low" timeout 180 scan "sweep"`},
		{"fm with nothing said", "wide is the default, the input may be written", "", "lake/fm", air,
			`fm rx 146.940 tx 146.340 wide true tone none/none cc 0 slot 0 group  access "" power "" timeout 0 scan ""`},
		{"label of fm", "the repeater's label", "", "hill/fm", label, "Hill FM"},
		{"label of dmr", "the labels of repeater and group", "", "hill/1/wide", label, "Hill Wide Area"},
		{"label without labels", "keys stand in", "", "lake/fm", label, "lake FM"},
		{"label of a group without one", "its key stands in", "", "hill/1/town", label, "Hill town"},
		{"listens to its slot", "the default; a private contact is no group call", "", "hill/2/town", listens, "slot: town"},
		{"listens to the repeater", "what the channel says goes before what the repeater says",
			"channels: {c: {path: hill/2/town, dmr: {receive_list: repeater}}}", "c", listens, "repeater: town wide"},
		{"listens to nothing", "its own group needs no list",
			"channels: {c: {path: hill/2/town, dmr: {receive_list: none}}}", "c", listens, "none: "},
		{"listens to a list", "sorted, since order means nothing there",
			"channels: {c: {path: hill/2/chat, dmr: {receive_list: both}}}", "c", listens, "both: town wide"},
		{"override", "power, time-out, scan list and access of its own; the signal stays",
			"channels: {c: {label: Mine, path: hill/fm, power: 0.5, timeout_s: 60, scan_list: other, fm: {access: always}}}", "c", air,
			`fm rx 444.325 tx 449.325 wide false tone 103.5/D023N cc 0 slot 0 group  access "always" power "0.5" timeout 60 scan "other"`},
		{"override keeps the rest", "what it does not say is as on the repeater",
			"channels: {c: {path: hill/1/wide, timeout_s: 0}}", "c", air,
			`dmr rx 444.325 tx 449.325 wide false tone none/none cc 4 slot 1 group wide access "polite to all" power "low" timeout 0 scan "sweep"`},
		{"override keeps the label", "that of the talk path", "channels: {c: {path: hill/1/wide}}", "c", label, "Hill Wide Area"},
		{"transmit no", "it listens only", "channels: {c: {path: hill/fm, transmit: no}}", "c",
			func(c *plan.Channel) string { return c.Transmit.String() }, "0.000"},
		{"simplex fm", "one frequency for both ways", "channels: {c: {simplex: 146.52, fm: {tone: 67}}}", "c", air,
			`fm rx 146.520 tx 146.520 wide true tone 67.0/none cc 0 slot 0 group  access "" power "" timeout 0 scan ""`},
		{"simplex dmr", "slot 1 if it does not say", "channels: {c: {simplex: 433.45, dmr: {color_code: 1, group: town}}}", "c", air,
			`dmr rx 433.450 tx 433.450 wide false tone none/none cc 1 slot 1 group town access "" power "" timeout 0 scan ""`},
		{"receive only", "it never transmits", "channels: {c: {receive: 162.55, fm: {}}}", "c", air,
			`fm rx 162.550 tx 0.000 wide true tone none/none cc 0 slot 0 group  access "" power "" timeout 0 scan ""`},
		{"no label of its own", "the key stands in", "channels: {c: {simplex: 146.52, fm: {}}}", "c", label, "c"},
		{"path of a channel", "another memory of a simplex channel",
			"channels: {a: {label: A, simplex: 146.52, fm: {}}, b: {path: a, power: high}}", "b",
			func(c *plan.Channel) string {
				return c.Path + " " + c.Label + " " + c.Power + " " + c.Transmit.String()
			}, "a A high 146.520"},
		{"path through a channel", "the talk path is that of the channel it names",
			"channels: {a: {path: hill/fm, power: high}, b: {path: a}}", "b",
			func(c *plan.Channel) string { return c.Path + " " + c.Power }, "hill/fm low"},
	} {
		t.Run(test.name, func(t *testing.T) {
			x := expand(t, hill+test.text)
			c, ok := x.Find(test.channel)
			if !ok {
				t.Fatalf("%s: there is no channel %s in %s", test.why, test.channel, names(x.Channels))
			}
			if got := test.tell(c); got != test.want {
				t.Errorf("%s:\ngot  %s\nwant %s", test.why, got, test.want)
			}
		})
	}
}

func label(c *plan.Channel) string { return c.Label }

func listens(c *plan.Channel) string { return c.ReceiveList + ": " + strings.Join(c.Listens, " ") }

func TestExpandNames(t *testing.T) {
	for _, test := range []struct{ name, why, text, want string }{
		{"repeaters alone", "by repeater: fm, slot 1, slot 2, each slot in the order of its groups", hill,
			"hill/fm hill/1/wide hill/1/town hill/2/town hill/2/chat lake/fm"},
		{"one override", "it stands in the place of the one that would have been made", hill + "channels: {c: {path: hill/1/wide}}",
			"hill/fm c hill/1/town hill/2/town hill/2/chat lake/fm"},
		{"two on one path", "both stand there, by their keys", hill + "channels: {z: {path: lake/fm}, c: {path: lake/fm}}",
			"hill/fm hill/1/wide hill/1/town hill/2/town hill/2/chat c z"},
		{"others at the end", "by their keys, with the channels that share their path",
			hill + "channels: {z: {simplex: 146.52}, y: {path: z}, a: {receive: 162.55}}",
			"hill/fm hill/1/wide hill/1/town hill/2/town hill/2/chat lake/fm a z y"},
		{"a path that is not there", "the channel cannot be made", "repeaters: {a: {fm: {}}}\nchannels: {c: {path: a/1/x}}", "a/fm"},
		{"a group twice in a slot", "one talk path", "repeaters: {a: {dmr: {slot1: [x, y, x]}}}", "a/1/x a/1/y"},
		{"the same group on both slots", "two talk paths", "repeaters: {a: {dmr: {slot2: [x], slot1: [x]}}}", "a/1/x a/2/x"},
		{"nothing on the air", "a repeater with neither side has no talk path", "repeaters: {a: {output: 146.94}}", ""},
		{"an empty plan", "nothing comes of nothing", "", ""},
	} {
		t.Run(test.name, func(t *testing.T) {
			if got := names(expand(t, test.text).Channels); got != test.want {
				t.Errorf("%s:\ngot  %s\nwant %s", test.why, got, test.want)
			}
		})
	}
}

// Every channel names all records that it is made of, and the line of each.
func TestBecause(t *testing.T) {
	x := expand(t, `repeaters:
  hill:
    dmr:
      slot1: [wide, town]
      receive_list: both
  lake: {fm: {}}
groups:
  wide: {id: 1}
receive_lists:
  both: {groups: [wide]}
  less: {groups: []}
channels:
  mine: {path: hill/1/wide}
  ours: {path: mine}
  less: {path: hill/1/town, dmr: {receive_list: less}}
  spot: {simplex: 433.45, dmr: {group: wide, receive_list: both}}
  call: {simplex: 146.52, fm: {}}
`)
	for name, want := range map[string]string{
		"mine":    "repeater hill 4:15, group wide 8:3, receive list both 10:3, channel mine 13:3",
		"ours":    "repeater hill 4:15, group wide 8:3, receive list both 10:3, channel mine 13:3, channel ours 14:3",
		"less":    "repeater hill 4:21, channel less 15:3, receive list less 11:3",
		"spot":    "group wide 8:3, channel spot 16:3, receive list both 10:3",
		"call":    "channel call 17:3",
		"lake/fm": "repeater lake 6:3",
	} {
		c, ok := x.Find(name)
		if !ok {
			t.Fatalf("there is no channel %s", name)
		}
		var got []string
		for _, b := range c.Because {
			got = append(got, fmt.Sprintf("%s %d:%d", b.Thing, b.At.Line, b.At.Col))
		}
		if strings.Join(got, ", ") != want {
			t.Errorf("%s:\ngot  %s\nwant %s", name, strings.Join(got, ", "), want)
		}
	}
}
