package notes_test

import (
	"fmt"
	"strings"
	"testing"

	"passband.example/plandiff"
	"passband.example/plandiff/notes"
	"passband.example/plandiff/plan"
	"passband.example/plandiff/plan/plantest"
)

const club = `plan: Fern Hollow
edition: 2026
region: US
license: technician
repeaters:
  ridge: {label: Ridge, output: 444.325, split: +5, fm: {tone: 103.5}, dmr: {color_code: 4, slot1: [wide], slot2: [local]}}
  knob: {label: Knob, output: 146.940, split: -0.6, fm: {tone: 100.0}}
groups:
  wide: {id: 99931, label: State}
  local: {id: 99932, label: Local}
channels:
  call: {label: Call 2m, simplex: 146.52, fm: {}, scan_list: hills}
  spare: {label: Spare, simplex: 146.55, fm: {}}
zones:
  home: {label: Home, channels: [ridge/*, knob/fm, call]}
  rest: {label: Rest, channels: [spare]}
scan_lists:
  hills: {label: Hills, channels: [knob/fm, call], priority: call}
messages: {late: Running late}
shortcuts: {1: wide, 2: N0QRV}
radios:
  pocket: {label: Pocket, bands: [136-174, 400-480], modes: [fm, dmr], zones: [home]}
  base: {label: Base, bands: [136-174], modes: [fm], zones: [home]}
`

func expand(t *testing.T, text string) *plan.Expansion {
	t.Helper()
	p := plantest.Load(t, map[string][]byte{plan.RootFile: []byte(text), plan.OperatorsFile: []byte("id,callsign,name\n9990001,N0QRV,Ada\n")})
	if len(p.Problems) > 0 {
		t.Fatal(p.Problems)
	}
	return plan.Expand(p)
}

// say writes notes on one line, as a person would check them.
func say(n *notes.Notes) string {
	var b strings.Builder
	for _, r := range n.Radios {
		if len(r.Why) > 0 {
			fmt.Fprintf(&b, "load %s: %s. ", r.Label, strings.Join(r.Why, ", "))
		}
	}
	for _, c := range n.New {
		fmt.Fprintf(&b, "new %s %v %v. ", c.Label, c.Facts, c.Zones)
	}
	for _, c := range n.Gone {
		fmt.Fprintf(&b, "gone %s. ", c.Label)
	}
	for _, c := range n.Changed {
		fmt.Fprintf(&b, "changed %s%v %v. ", c.Of, c.Labels, c.Facts)
	}
	for _, p := range n.Relabelled {
		fmt.Fprintf(&b, "label %s was %s. ", p.New, p.Old)
	}
	for _, l := range append(n.Zones, n.ScanLists...) {
		fmt.Fprintf(&b, "list %s %s was %q +%v -%v %v %v. ", l.Op, l.Label, l.Was, l.Came, l.Went, l.Reordered, l.Priority)
	}
	for _, p := range n.Messages {
		fmt.Fprintf(&b, "message %q was %q. ", p.New, p.Old)
	}
	for _, k := range n.Keys {
		fmt.Fprintf(&b, "key %s %q was %q. ", k.Digit, k.New, k.Old)
	}
	if n.Contacts != (notes.Contacts{}) {
		fmt.Fprintf(&b, "contacts %v. ", n.Contacts)
	}
	return strings.TrimSpace(b.String())
}

func TestNotes(t *testing.T) {
	tests := []struct {
		name, why string
		edits     []string // old, new, old, new ...
		want      string
	}{
		{"nothing", "the same plan", nil, ""},
		{"a note", "it is the club's own business", []string{"label: Ridge,", "label: Ridge, note: key under the mat,"}, ""},
		{"a limit", "no radio holds it", []string{"zones: [home]}\n  base", "zones: [home], limits: {channels: 99}}\n  base"}, ""},
		{"another key", "members never see keys", []string{"  ridge:", "  hill:", "[ridge/*", "[hill/*"}, ""},
		{"policy", "it is for whoever edits", []string{"license: technician", "license: general"}, ""},
		{"a channel that no radio holds", "nobody has it", []string{"simplex: 146.55", "simplex: 146.58"}, ""},
		{"retuned", "old and new value of both ways; each radio has the one channel", []string{"146.940", "146.880"},
			"load Base: 1 channel set differently. load Pocket: 1 channel set differently. " +
				"changed [Knob FM] [{receive 146.940 MHz 146.880 MHz} {transmit 146.340 MHz 146.280 MHz}]."},
		{"a repeater as a whole", "the channels with one change stand together, those of the repeater's DMR side as well as FM", []string{"444.325", "444.350"},
			"load Pocket: 3 channels set differently. " +
				"changed Ridge[Ridge FM Ridge State Ridge Local] [{receive 444.325 MHz 444.350 MHz} {transmit 449.325 MHz 449.350 MHz}]."},
		{"a label", "old and new; the FM radio has no DMR channel", []string{"label: State", "label: Wide"},
			"load Pocket: 1 channel set differently. label Ridge Wide was Ridge State."},
		{"a channel more", "with what a member sets, and where it is found", []string{"ridge/*, knob/fm, call]", "ridge/*, knob/fm, call, spare]"},
			"load Base: 1 new channel, 1 zone or scan list arranged differently. load Pocket: 1 new channel, 1 zone or scan list arranged differently. " +
				"new Spare [{receive 146.550 MHz} {transmit 146.550 MHz} {mode FM} {width wide}] [Home]. " +
				`list changed Home was "" +[Spare] -[] false <nil>.`},
		{"a channel less", "it is gone from the radios", []string{"knob/fm, call]}\n  rest", "call]}\n  rest", "[knob/fm, call], priority", "[call], priority"},
			"load Base: 1 channel gone, 2 zones or scan lists arranged differently. load Pocket: 1 channel gone, 2 zones or scan lists arranged differently. " +
				"gone Knob FM. " + `list changed Home was "" +[] -[Knob FM] false <nil>. list changed Hills was "" +[] -[Knob FM] false <nil>.`},
		{"another order", "the knob turns another way", []string{"[ridge/*, knob/fm, call]", "[call, ridge/*, knob/fm]"},
			"load Base: 1 zone or scan list arranged differently. load Pocket: 1 zone or scan list arranged differently. " +
				`list changed Home was "" +[] -[] true <nil>.`},
		{"priority", "by label", []string{"priority: call", "priority: knob/fm"},
			"load Base: 1 zone or scan list arranged differently. load Pocket: 1 zone or scan list arranged differently. " +
				`list changed Hills was "" +[] -[] false &{Call 2m Knob FM}.`},
		{"small things", "a message, a number key by label, and people only counted", []string{"late: Running late", "late: I am late", "2: N0QRV", "2: local"},
			`load Pocket: 1 message, 1 number key. message "I am late" was "Running late". key 2 "Local" was "N0QRV".`},
		{"it listens for more", "only what came is told", []string{"slot1: [wide]", "slot1: [wide, local]"},
			"load Pocket: 1 new channel, 1 channel set differently, 1 zone or scan list arranged differently. " +
				"new Ridge Local [{receive 444.325 MHz} {transmit 449.325 MHz} {mode DMR} {color code 4} {slot 1} {group Local (99932)}] [Home]. " +
				`changed [Ridge State] [{also listens for  Local}]. list changed Home was "" +[Ridge Local] -[] false <nil>.`},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			after := club
			for i := 0; i < len(tt.edits); i += 2 {
				if !strings.Contains(after, tt.edits[i]) {
					t.Fatalf("%q is not in the plan", tt.edits[i])
				}
				after = strings.Replace(after, tt.edits[i], tt.edits[i+1], 1)
			}
			n := notes.Of(plandiff.Compare(expand(t, club), expand(t, after)))
			if got := say(n); got != tt.want {
				t.Errorf("%s\n got %s\nwant %s", tt.why, got, tt.want)
			}
			if n.Empty() != (tt.want == "") {
				t.Errorf("%s: empty is %v", tt.why, n.Empty())
			}
		})
	}
}
