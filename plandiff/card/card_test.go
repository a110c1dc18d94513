package card_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"passband.example/plandiff/card"
	"passband.example/plandiff/plan"
	"passband.example/plandiff/plan/plantest"
	"pgregory.net/rapid"
)

const valley = `plan: Valley
repeaters:
  ridge:
    {label: Ridge, callsign: N0QRV, output: 444.325, split: +5, when: First choice, fm: {tone: 103.5},
     dmr: {color_code: 0, slot1: [state], slot2: [local]}}
  knob: {label: Knob, output: 146.94, input: 146.34, fm: {tone: {send: D023N, receive: 100.0}, width: narrow}}
  deaf: {label: Deaf, output: 145.6, fm: {}}
groups:
  state: {id: 99931, label: State, when: To reach the state}
  local: {id: 99932, label: Local}
channels:
  call: {label: Calling on 2 m, simplex: 146.52, fm: {}}
  wx: {label: WX, receive: 162.55, fm: {}}
  state-in: {label: State In, path: ridge/1/state, transmit: no}
  low: {label: Low, path: ridge/fm, when: Nearby}
zones:
  all: {label: All, channels: [ridge/*/*, ridge/fm, low, knob/fm, deaf/fm, call, wx, state-in]}
  digital: {channels: [ridge/1/state, ridge/2/local]}
  two: {channels: [call, wx]}
radios:
  uhf: {label: UHF, bands: [400-480], modes: [fm, dmr]}
  small: {bands: [100-500], modes: [fm], label_length: 7, zones: [all, digital, two], limits: {channels_per_zone: 4, channels: 3, zones: 1}}
`

func expand(t testing.TB, text string) *plan.Expansion {
	t.Helper()
	p := plantest.Load(t, map[string][]byte{"plan.yaml": []byte(text)})
	if len(p.Problems) > 0 {
		t.Fatal(p.Problems)
	}
	return plan.Expand(p)
}

// said gives the rows of a card as a person reads them.
func said(c *card.Card) []string {
	var lines []string
	for _, r := range c.Rows {
		lines = append(lines, fmt.Sprintf("%d %s|%s|%s|%s|%s|%s", r.Number, r.Label, r.Hears(), r.Sends(), r.Split(), r.Opens(), r.When()))
	}
	return lines
}

func TestRows(t *testing.T) {
	cards, err := card.Of(expand(t, valley), card.Choice{Zone: "all"})
	if err != nil || len(cards) != 1 {
		t.Fatal(cards, err)
	}
	got := said(cards[0])
	for _, tt := range []struct{ name, why, want string }{
		{"FM", "the tone is what a member sends", "Low|444.325|449.325|+5|103.5 Hz|Nearby"},
		{"DMR", "color code 0 is one too", "Ridge Local|444.325|449.325|+5|CC 0, slot 2, 99932|First choice"},
		{"two tones", "a member sends one and hears the other", "Knob FM|146.940|146.340|-0.6|D023N, hears 100.0 Hz, narrow|through Knob"},
		{"simplex", "one frequency for both ways", "Calling on 2 m|146.520|same||no tone|from radio to radio"},
		{"receive only", "nothing to send on is nothing to open", "WX|162.550|listen only|||to listen to"},
		{"no transmit", "the group says when", "State In|444.325|listen only||CC 0, slot 1, 99931|To reach the state"},
		{"no input", "the plan does not say where to send", "Deaf FM|145.600|listen only|||through Deaf"},
	} {
		if !slices.ContainsFunc(got, func(s string) bool { _, rest, _ := strings.Cut(s, " "); return rest == tt.want }) {
			t.Errorf("%s (%s): no row is %q in\n%s", tt.name, tt.why, tt.want, strings.Join(got, "\n"))
		}
	}
	because := map[string]string{}
	for _, r := range cards[0].Rows {
		if key, at := r.ListensBecause(); key != "" {
			because[r.Label] = fmt.Sprintf("%s %d", key, at.Line)
		}
		if key, _ := r.ListensBecause(); (key != "") != r.ListensOnly() {
			t.Errorf("%s: what makes it listen only is %q", r.Label, key)
		}
	}
	if len(because) != 3 || because["WX"] != "receive, and nothing to send on 13" || because["State In"] != "transmit: no 14" || because["Deaf FM"] != "a repeater without split or input 7" {
		t.Errorf("%v", because)
	}
	if rep := strings.Join(cards[0].Repeaters(), "; "); rep != "Ridge N0QRV; Knob; Deaf" {
		t.Errorf("repeaters: %s", rep)
	}
}

// TestRadio wants nothing hidden of what a radio cannot hold.
func TestRadio(t *testing.T) {
	cards, err := card.Of(expand(t, valley), card.Choice{Radio: "small"})
	if err != nil || len(cards) != 3 {
		t.Fatal(cards, err)
	}
	all := cards[0]
	if len(all.LeftOut) != 2 || all.LeftOut[0].Why != "it has no DMR" {
		t.Errorf("left out: %v", all.LeftOut)
	}
	var beyond []string
	for _, r := range all.Rows {
		beyond = append(beyond, fmt.Sprintf("%d %s: %s", r.Number, r.Label, r.Beyond))
	}
	want := []string{
		"1 Low: ", "2 Knob FM: ", "3 Deaf FM: ", "4 Calling: its limit of channels is 3",
		"5 WX: its limit of channels per zone is 4",
	}
	if !slices.Equal(beyond, want) {
		t.Errorf("got %q", beyond)
	}
	if digital := cards[1]; len(digital.Rows) != 0 || len(digital.LeftOut) != 2 || digital.Beyond != "" {
		t.Errorf("a zone that the radio cannot use: %+v", digital)
	}
	two := cards[2]
	if two.Beyond != "its limit of zones is 1, and this is number 2" || two.Rows[1].Beyond != "its limit of channels is 3" {
		t.Errorf("%q %q", two.Beyond, two.Rows[1].Beyond)
	}
}

func TestChoiceErrors(t *testing.T) {
	x := expand(t, valley)
	for _, tt := range []struct {
		name, why, want string
		choice          card.Choice
	}{
		{"zone", "a slip", `the plan has no zone "digitl"; did you mean digital?`, card.Choice{Zone: "digitl"}},
		{"radio", "nothing near", `the plan has no class of radio "mobile"; "passband card --help" says how to name one`, card.Choice{Radio: "mobile"}},
		{"hostile", "a key is shown as it is written", `the plan has no zone "\x1b[31m"`, card.Choice{Zone: "\x1b[31m"}},
	} {
		if _, err := card.Of(x, tt.choice); err == nil || !strings.HasPrefix(err.Error(), tt.want) {
			t.Errorf("%s (%s): %v", tt.name, tt.why, err)
		}
	}
	other := expand(t, valley+"  one: {zones: [two]}\n")
	if _, err := card.Of(other, card.Choice{Radio: "one", Zone: "all"}); err == nil || err.Error() != "radio one does not carry zone all; look at its key zones" {
		t.Errorf("a zone that the radio does not carry: %v", err)
	}
}

// TestEveryChannelIsNamed holds for any plan: each member of each zone that a radio
// carries is a row or left out with a reason, once, and rows count from 1.
func TestEveryChannelIsNamed(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := plan.Expand(plantest.Plan(t))
		for _, fit := range x.Fits {
			cards, err := card.Of(x, card.Choice{Radio: fit.Radio.Key.V})
			if err != nil {
				t.Fatal(err)
			}
			at := 0
			for _, z := range x.Zones {
				if !fit.Carries(z.Zone) {
					continue
				}
				c := cards[at]
				at++
				if c.Zone != z.Zone || len(c.Rows)+len(c.LeftOut) != len(z.Members) {
					t.Fatalf("zone %s of radio %s: %d rows and %d left out of %d", z.Zone.Key.V, fit.Radio.Key.V, len(c.Rows), len(c.LeftOut), len(z.Members))
				}
				for i, r := range c.Rows {
					if r.Number != i+1 || r.When() == "" || r.Hears() == "" || r.Sends() == "" {
						t.Fatalf("%+v", r)
					}
				}
			}
			if at != len(cards) {
				t.Fatalf("%d cards for %d zones", len(cards), at)
			}
		}
	})
}
