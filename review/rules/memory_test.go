package rules_test

import (
	"context"
	"strings"
	"testing"

	"passband.example/plandiff"
	"passband.example/review"
	"passband.example/review/rules"
)

const memoryPlan = `plan: Example
edition: 2026
groups:
  a: {id: 99931}
  b: {id: 99932}
  c: {id: 99933}
repeaters:
  ridge: {output: 444.325, split: +5, dmr: {color_code: 4, slot1: [a], slot2: [b]}}
  knob: {output: 146.94, split: -0.6, fm: {}}
channels:
  call: {simplex: 146.52, fm: {}}
  net: {simplex: 146.55, fm: {}}
zones:
  one: {channels: ["ridge/*", knob/fm]}
  two: {channels: [call]}
  three: {channels: [zone:two]}
messages:
  late: Late
radios:
  pocket: {zones: [one], limits: {LIMIT}}
`

// TestMemoryFullNamesWhatPushed judges changes that cross a limit, and wants exactly
// the changes that added something to it, those that added most first.
func TestMemoryFullNamesWhatPushed(t *testing.T) {
	for _, c := range []struct {
		name, why, limit string
		edits            []string // old, new, old, new, ...
		row              string   // of operators.csv
		want             []string
	}{
		{"wildcard", "a repeater's new groups come by a pattern that nobody edited", "channels: 3",
			[]string{"slot2: [b]", "slot2: [b, c]"}, "", []string{"repeater ridge adds 1"}},
		{"most first", "two causes, the larger one first; an edit of a label is none", "channels: 3",
			[]string{"slot2: [b]", "slot2: [b, c, a]", "knob/fm]", "knob/fm, call]", "knob: {output", "knob: {label: Knob, output"}, "",
			[]string{"repeater ridge adds 2", "zone one adds 1"}},
		{"zone entry", "the channel was there, and the zone took it in", "channels_per_zone: 3",
			[]string{"knob/fm]", "knob/fm, call]"}, "", []string{"zone one adds 1"}},
		{"zone in a zone", "the radio took the outer zone, and the inner one brought another channel", "channels_per_zone: 1",
			[]string{"[call]", "[call, net]", "zones: [one]", "zones: [three]"}, "", []string{"zone two adds 1", "radio pocket adds 1"}},
		{"radio takes a zone", "nothing but the radio was edited", "channels: 3",
			[]string{"zones: [one]", "zones: [one, two]"}, "", []string{"radio pocket adds 1"}},
		{"limit set", "a limit that was not there before", "zones: 1",
			[]string{"zones: 1}", "zones: 1, channels: 2}"}, "", []string{"sets the limit"}},
		{"zones", "a zone that the radio takes", "zones: 1",
			[]string{"zones: [one]", "zones: [one, two]"}, "", []string{"radio pocket adds 1"}},
		{"lowered", "nothing was added, and the limit shrank", "channels: 3",
			[]string{"channels: 3", "channels: 2"}, "", []string{"lowers the limit from 3 to 2"}},
		{"message", "a message is counted whatever the zones are", "messages: 1",
			[]string{"late: Late", "late: Late\n  home: Home", "knob/fm]", "knob/fm, call]"}, "", []string{"message home adds 1"}},
		{"group", "a group that a slot took up", "groups: 2",
			[]string{"slot2: [b]", "slot2: [b, c]", "knob/fm]", "knob/fm, call]"}, "", []string{"repeater ridge adds 1"}},
		{"number key", "a group that no channel needs, and a key calls", "groups: 2",
			[]string{"messages:", "shortcuts: {1: c}\nmessages:"}, "", []string{"shortcut 1 adds 1"}},
		{"operator", "people are counted whatever the zones are", "operators: 1",
			nil, "9990002,N0QRW,Ben\n", []string{"operator 9990002/N0QRW/Ben adds 1"}},
		{"receive list", "a second list for the same slots", "receive_lists: 2",
			[]string{"slot2: [b]}", "slot2: [b]}}\n  mill: {output: 444.35, split: +5, dmr: {color_code: 1, slot1: [c]}", "knob/fm]", "knob/fm, mill/1/c]"}, "",
			[]string{"repeater mill adds 1"}},
		{"renamed", "a repeater with a new key is no new channel", "channels: 3",
			[]string{"ridge", "crest", "knob/fm]", "knob/fm, call]"}, "", []string{"zone one adds 1"}},
		{"taken place", "a channel written for a talk path stands in for the one that was made", "channels: 3",
			[]string{"  net:", "  high: {path: knob/fm, power: high}\n  net:", "knob/fm]", "high, call]"}, "", []string{"zone one adds 1"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			text := strings.Replace(memoryPlan, "LIMIT", c.limit, 1)
			const table = "id,callsign,name\n9990001,N0QRV,Ann\n"
			old := load(t, map[string]string{"plan.yaml": text, "operators.csv": table})
			now := load(t, map[string]string{"plan.yaml": strings.NewReplacer(c.edits...).Replace(text), "operators.csv": table + c.row})
			if len(now.Plan.Problems) > 0 {
				t.Fatal(now.Plan.Problems)
			}
			v, err := review.Judge(context.Background(), []*review.Rule{rules.MemoryFull}, plandiff.Compare(old, now), nil, today)
			if err != nil {
				t.Fatal(err)
			}
			if len(v.Findings) != 1 || v.Findings[0].Standing != review.New {
				t.Fatalf("want one new finding, got %v (%s)", v.Findings, c.why)
			}
			var got []string
			for _, also := range v.Findings[0].Also {
				if text, ok := strings.CutPrefix(also.Text, "this change "); ok {
					got = append(got, strings.TrimPrefix(text, "to "))
				}
			}
			if strings.Join(got, "; ") != strings.Join(c.want, "; ") {
				t.Errorf("got %q, want %q: %s", got, c.want, c.why)
			}
		})
	}
}
