package plan_test

import (
	"fmt"
	"strings"
	"testing"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/plan/plantest"
)

func fitOf(t *testing.T, text string) *plan.Fit {
	t.Helper()
	x := expand(t, text)
	if len(x.Fits) != 1 {
		t.Fatalf("want one radio, got %d", len(x.Fits))
	}
	return x.Fits[0]
}

func TestFit(t *testing.T) {
	const channels = `
channels:
  low: {simplex: 144, fm: {}}
  high: {simplex: 148, fm: {}}
  below: {simplex: 143.999999, fm: {}}
  above: {simplex: 148.000001, fm: {}}
  digital: {simplex: 145, dmr: {color_code: 1}}
repeaters:
  cross: {output: 147, input: 449.325, fm: {}}
  listen: {output: 147.3, fm: {}}
zones:
  a: {channels: [low, high, below, above, digital]}
  b: {channels: [cross/fm, listen/fm, low]}
  none: {channels: [above]}
scan_lists:
  s: {channels: [high, above]}
radios:
`
	for _, test := range []struct{ name, why, radio, zones, channels, left string }{
		{"nothing stated", "a radio of which nothing is known takes all", "r: {}", "a b none",
			"low high below above digital cross/fm listen/fm", ""},
		{"band", "both ends of a band belong to it, 1 Hz beside them does not", "r: {bands: [144-148]}", "a b",
			"low high digital listen/fm",
			"below: it does not tune 143.999999 MHz; above: it does not tune 148.000001 MHz; cross/fm: it does not tune 449.325 MHz"},
		{"two bands", "one for each way", "r: {bands: [144-148, 449.325-450], zones: [b]}", "b", "cross/fm listen/fm low", ""},
		{"mode", "no DMR", "r: {modes: [fm], zones: [a]}", "a", "low high below above", "digital: it has no DMR"},
		{"other mode", "no FM", "r: {modes: [dmr], zones: [a]}", "a", "digital",
			"low: it has no FM; high: it has no FM; below: it has no FM; above: it has no FM"},
		{"zones", "only what is in them", "r: {zones: [none]}", "none", "above", ""},
		{"zone without a channel that fits", "the radio need not hold it", "r: {zones: [none], bands: [144-148]}", "", "",
			"above: it does not tune 148.000001 MHz"},
		{"unknown zone", "told as unresolved; the rest stands", "r: {zones: [nowhere, b]}", "b", "cross/fm listen/fm low", ""},
	} {
		t.Run(test.name, func(t *testing.T) {
			f := fitOf(t, channels+"  "+test.radio)
			var zones, left []string
			for _, z := range f.Zones {
				zones = append(zones, z.Zone.Key.V)
			}
			for _, l := range f.LeftOut {
				left = append(left, l.Channel.Name+": "+l.Why)
			}
			if got := strings.Join(zones, " "); got != test.zones {
				t.Errorf("%s: zones\ngot  %s\nwant %s", test.why, got, test.zones)
			}
			if got := names(f.Channels); got != test.channels {
				t.Errorf("%s: channels\ngot  %s\nwant %s", test.why, got, test.channels)
			}
			if got := strings.Join(left, "; "); got != test.left {
				t.Errorf("%s: left out\ngot  %s\nwant %s", test.why, got, test.left)
			}
		})
	}
}

// A band or mode that cannot be read is told as a problem; to say as well that no
// channel fits would blame the channels.
func TestFitOfBadValues(t *testing.T) {
	p := plantest.Load(t, map[string][]byte{"plan.yaml": []byte(`
channels: {a: {simplex: 146.52, fm: {}}}
zones: {z: {channels: [a]}}
radios: {r: {bands: [70cm], modes: [fmm]}}
`)})
	f := plan.Expand(p).Fits[0]
	if len(p.Problems) != 2 || len(f.Channels) != 1 || len(f.LeftOut) != 0 {
		t.Errorf("problems %v, channels %s, left out %v", p.Problems, names(f.Channels), f.LeftOut)
	}
}

// Scan lists go with the channels that start them.
func TestFitScanLists(t *testing.T) {
	const text = `
channels:
  a: {simplex: 146.52, fm: {}, scan_list: s}
  b: {simplex: 146.55, fm: {}}
  c: {simplex: 146.58, fm: {}}
zones: {one: {channels: [a]}, two: {channels: [b]}}
scan_lists: {s: {channels: [a, c]}, t: {channels: [c]}}
radios:
`
	for _, test := range []struct{ name, why, radio, lists, channels string }{
		{"started from a channel", "the list brings its channels", "r: {zones: [one]}", "s", "a c"},
		{"started from none", "a list that no button starts is of no use", "r: {zones: [two]}", "", "b"},
		{"all zones", "a radio for everything has every list", "r: {}", "s t", "a b c"},
	} {
		f := fitOf(t, text+"  "+test.radio)
		var lists []string
		for _, l := range f.ScanLists {
			lists = append(lists, l.List.Key.V)
		}
		if strings.Join(lists, " ") != test.lists || names(f.Channels) != test.channels {
			t.Errorf("%s: %s: lists %v, channels %s", test.name, test.why, lists, names(f.Channels))
		}
	}
}

// A label is cut by the characters that a person counts, not by bytes.
func TestFitLabel(t *testing.T) {
	for _, test := range []struct{ name, why, radio, label, want string }{
		{"fits", "exactly as long", "r: {label_length: 4}", "Hill", "Hill"},
		{"cut", "one too many", "r: {label_length: 4}", "Hills", "Hill"},
		{"two bytes each", "four characters", "r: {label_length: 4}", "éééé", "éééé"},
		{"cut between two bytes each", "three of them are left", "r: {label_length: 3}", "éééé", "ééé"},
		{"blank at the cut", "nobody sees it", "r: {label_length: 5}", "Hill FM", "Hill"},
		{"no length", "not cut", "r: {}", "A long label of a channel", "A long label of a channel"},
	} {
		f := fitOf(t, "channels: {a: {label: "+test.label+", simplex: 146.52}}\nzones: {z: {channels: [a]}}\nradios: {"+test.radio+"}")
		if got := f.Label(f.Channels[0]); got != test.want {
			t.Errorf("%s: %s: got %q, want %q", test.name, test.why, got, test.want)
		}
	}
}

// What is counted against each limit, counted by hand:
//
// channels: hill/fm, wide and town on slot 1, town on slot 2, call = 5.
// Zones: long (4) and short (1). Groups: wide, town, and far by a shortcut = 3.
// Receive lists: slot 1 listens to town and wide, slot 2 to town = 2 lists, the longest 2.
// Messages: 2, the longest 6 characters. Operators: 2 rows. Scan lists: 2, the longest 3.
func TestUses(t *testing.T) {
	f := fitOf(t, `
repeaters:
  hill: {output: 444.325, split: +5, fm: {}, dmr: {slot1: [wide, town], slot2: [town]}}
groups: {wide: {id: 1}, town: {id: 2}, far: {id: 3}, unused: {id: 4}}
channels: {call: {simplex: 146.52, fm: {}}}
zones: {long: {channels: [hill/*]}, short: {channels: [call]}}
scan_lists: {few: {channels: [call]}, many: {channels: [hill/1/*, call]}}
messages: {a: hello, b: "héllo!"}
shortcuts: {1: far, 2: N0QRV}
radios:
  r:
    limits: {channels: 10, channels_per_zone: 4}
`)
	want := []string{
		"channels 5 of 10 12:24", "zones 2 of 0 11:3", "channels_per_zone 4 of 4 12:47 zone long", "groups 3 of 0 11:3",
		"messages 2 of 0 11:3", "message_length 6 of 0 11:3 message b", "operators 2 of 0 11:3", "receive_lists 2 of 0 11:3",
		"groups_per_receive_list 2 of 0 11:3 channel hill/1/wide", "scan_lists 2 of 0 11:3", "channels_per_scan_list 3 of 0 11:3 scan list many",
	}
	if len(f.Uses) != len(want) {
		t.Fatalf("%d limits, want %d", len(f.Uses), len(want))
	}
	for i, u := range f.Uses {
		got := fmt.Sprintf("%s %d of %d %d:%d", u.Limit, u.Used, u.Most, u.At.Line, u.At.Col)
		if u.Who != (plan.Thing{}) {
			got += " " + u.Who.String()
		}
		if got != want[i] {
			t.Errorf("got %s, want %s", got, want[i])
		}
	}
}

// What the manual page of the package says of its own example, worked out by hand
// from doc.go: ridge has an FM side, two groups on slot 1 and one on slot 2, and
// the channel net stands in the place of ridge/1/statewide.
func ExampleExpand() {
	p := plantest.Load(panicker{}, map[string][]byte{"plan.yaml": []byte(`
repeaters:
  ridge:
    label: Ridge
    output: 444.325
    split: +5
    fm: {tone: 103.5}
    dmr:
      color_code: 4
      slot1: [statewide, tri-county]
      slot2: [local]
groups:
  statewide: {id: 99931, label: State}
  tri-county: {id: 99932}
  local: {id: 99933, label: Local}
channels:
  calling-2m: {label: Call 2m, simplex: 146.52, fm: {}}
  weather-1: {label: WX 1, receive: 162.55, fm: {}}
  net: {label: Net, path: ridge/1/statewide, power: high, timeout_s: 120}
zones:
  valley: {label: Valley, channels: [ridge/fm, ridge/1/*, ridge/2/local, calling-2m]}
  travel: {label: Travel, channels: [zone:valley, "*/*/statewide"]}
`)})
	x := plan.Expand(p)
	for _, c := range x.Channels {
		fmt.Printf("%-18s %-16s %v / %v\n", c.Name, c.Label, c.Receive, c.Transmit)
	}
	for _, z := range x.Zones {
		fmt.Println(z.Zone.Called()+":", memberNames(z.Members))
	}
	// Output:
	// ridge/fm           Ridge FM         444.325 / 449.325
	// net                Net              444.325 / 449.325
	// ridge/1/tri-county Ridge tri-county 444.325 / 449.325
	// ridge/2/local      Ridge Local      444.325 / 449.325
	// calling-2m         Call 2m          146.520 / 146.520
	// weather-1          WX 1             162.550 / 0.000
	// Travel: ridge/fm net ridge/1/tri-county ridge/2/local calling-2m
	// Valley: ridge/fm net ridge/1/tri-county ridge/2/local calling-2m
}

type panicker struct{}

func (panicker) Helper()           {}
func (panicker) Fatal(args ...any) { panic(fmt.Sprint(args...)) }
