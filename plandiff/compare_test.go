package plandiff_test

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"
	"passband.example/plandiff"
	"passband.example/plandiff/plan"
)

const base = `
plan: Example
edition: 2026
region: US
license: technician
repeaters:
  ridge:
    label: Ridge
    callsign: N0QRV
    output: 444.325
    split: +5
    fm: {tone: 103.5}
    dmr:
      color_code: 4
      slot1: [statewide, tri-county]
      slot2: [local]
  knob: {label: Knob, output: 146.940, split: -0.6, fm: {tone: D023N}}
groups:
  statewide: {id: 99931, label: State}
  tri-county: {id: 99932, label: Tri}
  local: {id: 99933, label: Local}
channels:
  calling-2m: {label: Call 2m, simplex: 146.52, fm: {}}
  weather-1: {label: WX 1, receive: 162.55, fm: {}}
zones:
  valley: {label: Valley, channels: [ridge/fm, ridge/1/*, ridge/2/local, calling-2m, weather-1]}
  hills: {label: Hills, channels: [knob/fm, "*/*/statewide", calling-2m]}
scan_lists:
  sweep: {label: Sweep, channels: [knob/fm, ridge/fm, calling-2m], priority: calling-2m}
messages: {late: Running late}
shortcuts: {1: statewide}
radios:
  pocket: {bands: [136-174, 400-480], modes: [fm, dmr], label_length: 12, limits: {channels: 1000}}
  plain: {bands: [136-174], modes: [fm], label_length: 8}
`

func expand(t *testing.T, text string) *plan.Expansion {
	t.Helper()
	p, err := plan.Load(context.Background(), fstest.MapFS{"plan.yaml": {Data: []byte(text)}})
	if err != nil {
		t.Fatal(err)
	}
	for _, problem := range p.Problems {
		t.Fatal(problem)
	}
	return plan.Expand(p)
}

// edit replaces pairs of texts in the base plan; each old text must be there.
func edit(t *testing.T, pairs ...string) string {
	t.Helper()
	text := base
	for i := 0; i < len(pairs); i += 2 {
		if !strings.Contains(text, pairs[i]) {
			t.Fatalf("the plan has no %q", pairs[i])
		}
		text = strings.ReplaceAll(text, pairs[i], pairs[i+1])
	}
	return text
}

// say gives a change in one line: operation, thing, weight and edits.
func say(c plandiff.Change) string {
	words := []string{c.Op.String(), c.Thing.String()}
	if c.Op == plandiff.Renamed {
		words = append(words, "was", c.Was.Key)
	}
	words = append(words, "("+c.Weight.String()+")")
	if c.Op == plandiff.Changed {
		for _, e := range c.Edits {
			words = append(words, fmt.Sprintf("%s %v>%v", e.Field, e.Old, e.New))
			for _, s := range e.Steps {
				words = append(words, fmt.Sprintf("[%s %s %d>%d]", s.Op, s.Text, s.From, s.To))
			}
		}
	}
	return strings.Join(words, " ")
}

func TestCompare(t *testing.T) {
	tests := []struct {
		name  string
		edits []string
		want  []string
		why   string
	}{
		{"nothing", nil, nil, "a plan does not differ from itself"},
		{"zeros", []string{"146.52,", "146.520000,"}, nil, "trailing zeros are the same frequency"},
		{"split and input agree", []string{"split: +5", "input: 449.325"}, nil, "both make a member send on 449.325 MHz"},
		{"inverted twin", []string{"tone: D023N", "tone: D047I"}, nil, "an inverted 047 is the same signal as 023 (TIA-603 codes, computed by Golay (23,12))"},
		{"tone spelled out", []string{"{tone: 103.5}", "{tone: {send: 103.5}}"}, nil, "a bare tone is the one that is sent"},
		{"comments and order", []string{"  hills:", "  # the far side\n  hills:", "label: Knob, output: 146.940", "output: 146.940, label: Knob"}, nil, "comments and the order of keys weigh nothing"},
		{"retuned", []string{"444.325", "444.350"}, []string{"changed repeater ridge (air) output [444.325]>[444.350] input [449.325]>[449.350]"}, "one knob was turned: the input follows the split"},
		{"split reversed", []string{"split: +5", "split: -5"}, []string{"changed repeater ridge (air) input [449.325]>[439.325]"}, "the output stays"},
		{"output alone", []string{"444.325\n    split: +5", "444.350\n    input: 449.325"}, []string{"changed repeater ridge (air) output [444.325]>[444.350]"}, "the input stays"},
		{"tone", []string{"103.5", "100.0"}, []string{"changed repeater ridge (air) fm.tone.send [103.5]>[100.0]"}, ""},
		{"side taken away", []string{"    dmr:\n      color_code: 4\n      slot1: [statewide, tri-county]\n      slot2: [local]\n", "", "ridge/1/*, ridge/2/local, ", "", `"*/*/statewide", `, ""},
			[]string{
				"changed repeater ridge (air) dmr [yes]>[] dmr.color_code [4]>[] dmr.slot1 [statewide tri-county]>[] [removed statewide 1>0] [removed tri-county 2>0] dmr.slot2 [local]>[] [removed local 1>0]",
				"changed zone hills (layout) channels [knob/fm */*/statewide calling-2m]>[knob/fm calling-2m] [removed */*/statewide 2>0]",
				"changed zone valley (layout) channels [ridge/fm ridge/1/* ridge/2/local calling-2m weather-1]>[ridge/fm calling-2m weather-1] [removed ridge/1/* 2>0] [removed ridge/2/local 3>0]",
			}, "what goes with the DMR side is no change of its own"},
		{"repeater renamed", []string{"ridge", "crest"}, []string{"renamed repeater crest was ridge (label)"}, "all that refers to it follows"},
		{"repeater renamed and relabelled", []string{"ridge", "crest", "label: Ridge", "label: Crest"}, []string{
			"renamed repeater crest was ridge (label)", "changed repeater crest (label) label [Ridge]>[Crest]"}, "on the air it is the same"},
		{"repeater renamed and retuned", []string{"ridge", "crest", "444.325", "444.350"}, []string{
			"renamed repeater crest was ridge (label)", "changed repeater crest (air) output [444.325]>[444.350] input [449.325]>[449.350]"}, "it is more like the old one than unlike it"},
		{"group renamed", []string{"tri-county", "three"}, []string{"renamed group three was tri-county (label)"}, "slots and patterns follow"},
		{"a reference is left behind", []string{"  knob:", "  peak:", "channels: [knob/fm, \"", "channels: [peak/fm, \""},
			[]string{
				"renamed repeater peak was knob (label)",
				"changed scan list sweep (layout) channels [knob/fm ridge/fm calling-2m]>[knob/fm ridge/fm calling-2m] [left behind knob/fm 1>1]",
			}, "the scan list still names what there is not"},
		{"rename stated", []string{"knob: {label: Knob, output: 146.940, split: -0.6, fm: {tone: D023N}}", "peak: {was: knob, output: 53.05, split: -1, dmr: {color_code: 3}}", "knob", "peak", "was: peak", "was: knob"}, []string{
			"renamed repeater peak was knob (label)", "changed repeater peak (label) label [Knob]>[]", "changed repeater peak (air) output [146.940]>[53.050]", "changed repeater peak (air) input [146.340]>[52.050]",
			"changed repeater peak (air) fm [yes]>[] fm.tone.send [D023N]>[]", "changed repeater peak (air) dmr []>[yes] dmr.color_code []>[3]", "changed repeater peak (label) was []>[knob]",
		}, "nothing is alike, and the plan says that it is the same"},
		{"rename stated against likeness", []string{"knob: {label: Knob, output: 146.940, split: -0.6, fm: {tone: D023N}}", "copy: {label: Knob, output: 146.940, split: -0.6, fm: {tone: D023N}}\n  peak: {was: knob, output: 146.940, split: -0.6, fm: {}}", "channels: [knob/fm", "channels: [peak/fm"}, []string{
			"renamed repeater peak was knob (label)", "changed repeater peak (label) label [Knob]>[]", "changed repeater peak (air) fm.tone.send [D023N]>[]", "changed repeater peak (label) was []>[knob]",
			"added repeater copy (air)",
		}, "the copy is the same in all, and what the plan says wins"},
		{"rename stated of what is still there", []string{"  knob:", "  peak: {was: knob, output: 53.05, split: -1, fm: {}}\n  knob:"}, []string{"added repeater peak (air)"}, "a key is an identity: it counts for nothing"},
		{"rename stated of what never was", []string{"  local: {id: 99933,", "  local: {was: here, id: 99933,"}, []string{"changed group local (label) was []>[here]"}, "it counts for nothing"},
		{"rename stated twice", []string{"statewide: {id: 99931, label: State}", "a: {was: statewide, id: 1}\n  b: {was: statewide, id: 2}", "[statewide, tri", "[a, tri", "*/*/statewide", "*/*/a", "1: statewide", "1: a"}, []string{
			"renamed group a was statewide (label)", "changed group a (air) id [99931]>[1]", "changed group a (label) label [State]>[]", "changed group a (label) was []>[statewide]", "added group b (air)",
		}, "the first by key has it"},
		{"rename stated of each kind", []string{
			"local: {id: 99933, label: Local}", "near: {was: local, id: 7}", "slot2: [local]", "slot2: [near]", "ridge/2/local", "ridge/2/near",
			"weather-1: {label: WX 1, receive: 162.55, fm: {}}", "wx: {was: weather-1, simplex: 446.0, dmr: {color_code: 1, group: tri-county}}", "weather-1]", "wx]",
			"  hills: {label: Hills, channels: [knob/fm, \"*/*/statewide\", calling-2m]}", "  far: {was: hills, channels: [weather]}", "[weather]", "[calling-2m]",
			"sweep: {label: Sweep, channels: [knob/fm, ridge/fm, calling-2m], priority: calling-2m}", "look: {was: sweep, channels: [wx]}",
			"plain: {bands: [136-174], modes: [fm], label_length: 8}", "plate: {was: plain, bands: [50-54], modes: [dmr]}",
		}, []string{
			"renamed group near was local (label)", "changed group near (air) id [99933]>[7]", "changed group near (label) label [Local]>[]", "changed group near (label) was []>[local]",
			"renamed channel wx was weather-1 (label)", "changed channel wx (label) label [WX 1]>[]", "changed channel wx (air) simplex []>[446.000]", "changed channel wx (air) receive [162.550]>[]",
			"changed channel wx (air) fm [yes]>[]", "changed channel wx (air) dmr []>[yes] dmr.color_code []>[1] dmr.group []>[tri-county]", "changed channel wx (label) was []>[weather-1]",
			"renamed zone far was hills (label)", "changed zone far (label) label [Hills]>[]", "changed zone far (label) was []>[hills]",
			"changed zone far (layout) channels [knob/fm */*/statewide calling-2m]>[calling-2m] [removed knob/fm 1>0] [removed */*/statewide 2>0]",
			"renamed scan list look was sweep (label)", "changed scan list look (label) label [Sweep]>[]", "changed scan list look (label) was []>[sweep]",
			"changed scan list look (layout) channels [knob/fm ridge/fm calling-2m]>[wx] [removed knob/fm 1>0] [removed ridge/fm 2>0] [removed calling-2m 3>0] [added wx 0>1]",
			"changed scan list look (layout) priority [calling-2m]>[]",
			"renamed radio plate was plain (label)", "changed radio plate (label) was []>[plain]", "changed radio plate (layout) label_length [8]>[]",
			"changed radio plate (layout) bands [136-174]>[50-54] [removed 136-174 1>0] [added 50-54 0>1]",
			"changed radio plate (layout) modes [fm]>[dmr] [removed fm 1>0] [added dmr 0>1]",
		}, "each record with a key of its own"},
		{"keys swapped", []string{"statewide: {id: 99931, label: State}", "statewide: {id: 99932, label: Tri}", "tri-county: {id: 99932, label: Tri}", "tri-county: {id: 99931, label: State}"},
			[]string{
				"changed group statewide (air) id [99931]>[99932]", "changed group statewide (label) label [State]>[Tri]",
				"changed group tri-county (air) id [99932]>[99931]", "changed group tri-county (label) label [Tri]>[State]",
			}, "a key is an identity: what has the same key is the same thing"},
		{"moved to the end", []string{"[ridge/fm, ridge/1/*, ridge/2/local, calling-2m, weather-1]", "[ridge/1/*, ridge/2/local, calling-2m, weather-1, ridge/fm]"},
			[]string{"changed zone valley (layout) channels [ridge/fm ridge/1/* ridge/2/local calling-2m weather-1]>[ridge/1/* ridge/2/local calling-2m weather-1 ridge/fm] [moved ridge/fm 1>5]"}, "one move, not four"},
		{"groups in another order", []string{"[statewide, tri-county]", "[tri-county, statewide]"},
			[]string{"changed repeater ridge (layout) dmr.slot1 [statewide tri-county]>[tri-county statewide] [moved statewide 1>2]"}, "the order of a slot is the order of ridge/1/* in a zone, and nothing on the air"},
		{"bands in another order", []string{"[136-174, 400-480]", "[400-480, 136-174]"}, nil, "the order of bands means nothing"},
		{"simplex moved", []string{"146.52,", "146.55,"}, []string{"changed channel calling-2m (air) simplex [146.520]>[146.550]"}, ""},
		{"another channel", []string{"calling-2m: {label: Call 2m, simplex: 146.52, fm: {}}", "spot: {label: Hotspot, simplex: 433.45, dmr: {color_code: 1, slot: 1, group: local}}", "calling-2m", "spot"},
			[]string{
				"added channel spot (air)", "removed channel calling-2m (air)",
				"changed zone hills (layout) channels [knob/fm */*/statewide calling-2m]>[knob/fm */*/statewide spot] [removed calling-2m 3>0] [added spot 0>3]",
				"changed zone valley (layout) channels [ridge/fm ridge/1/* ridge/2/local calling-2m weather-1]>[ridge/fm ridge/1/* ridge/2/local spot weather-1] [removed calling-2m 4>0] [added spot 0>4]",
				"changed scan list sweep (layout) channels [knob/fm ridge/fm calling-2m]>[knob/fm ridge/fm spot] [removed calling-2m 3>0] [added spot 0>3]",
				"changed scan list sweep (layout) priority [calling-2m]>[spot]",
			}, "they have nothing in common, so one went and another came"},
		{"policy", []string{"edition: 2026\n", "edition: 2026\nreview: {severity: {off-band: note}}\n"}, []string{"added severity off-band (policy)"}, "a change of policy is a change"},
		{"message renamed", []string{"late: Running", "tardy: Running"}, []string{"renamed message tardy was late (label)"}, "the text is what a message is"},
		{"radio limit", []string{"channels: 1000", "channels: 500"}, []string{"changed radio pocket (layout) limits.channels [1000]>[500]"}, ""},
	}
	seen := make(map[string]bool)
	for _, tt := range tests {
		if seen[tt.name] {
			t.Errorf("the name %q is used twice", tt.name)
		}
		seen[tt.name] = true
		t.Run(tt.name, func(t *testing.T) {
			c := plandiff.Compare(expand(t, base), expand(t, edit(t, tt.edits...)))
			var got []string
			for _, change := range c.Changes {
				got = append(got, say(change))
			}
			slices.Sort(got)
			slices.Sort(tt.want)
			if diff := cmp.Diff(tt.want, got); diff != "" {
				t.Errorf("%s\n(-want +got)\n%s", tt.why, diff)
			}
		})
	}
}

// TestReach counts what each kind of edit reaches, by hand from the base plan.
func TestReach(t *testing.T) {
	tests := []struct {
		name            string
		edits           []string
		cause           string
		channels, zones []string
		radios          []string
		why             string
	}{
		{"retuned", []string{"444.325", "444.350"}, "repeater ridge",
			[]string{"ridge/1/statewide", "ridge/1/tri-county", "ridge/2/local", "ridge/fm"}, []string{"hills", "valley"}, []string{"pocket"}, "plain tunes no 70 cm"},
		{"group renumbered", []string{"99931", "99941"}, "group statewide",
			[]string{"ridge/1/statewide"}, []string{"hills", "valley"}, []string{"pocket"}, "only one channel calls it"},
		{"group added to a slot", []string{"slot2: [local]", "slot2: [local, tri-county]"}, "repeater ridge",
			[]string{"ridge/2/local", "ridge/2/tri-county"}, []string{"valley"}, []string{"pocket"}, "the other channel of the slot listens for it too"},
		{"tone of an FM side", []string{"D023N", "D025N"}, "repeater knob", []string{"knob/fm"}, []string{"hills"}, []string{"plain", "pocket"}, ""},
		{"zone label", []string{"label: Hills", "label: Ridges"}, "zone hills", nil, []string{"hills"}, []string{"plain", "pocket"}, "no channel differs, the zone does"},
		{"message", []string{"Running late", "Running very late"}, "message late", nil, nil, []string{"pocket"}, "FM radios hold no messages"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			c := plandiff.Compare(expand(t, base), expand(t, edit(t, tt.edits...)))
			if len(c.Causes) != 1 || c.Causes[0].Thing.String() != tt.cause {
				t.Fatalf("causes: %+v", c.Causes)
			}
			reach := c.Causes[0].Reach
			var channels []string
			for _, e := range reach.Channels {
				channels = append(channels, e.Channel)
			}
			for _, d := range []string{cmp.Diff(tt.channels, channels), cmp.Diff(tt.zones, reach.Zones), cmp.Diff(tt.radios, reach.Radios)} {
				if d != "" {
					t.Errorf("%s\n(-want +got)\n%s", tt.why, d)
				}
			}
		})
	}
}

// TestApplyRefuses applies changes to a plan that they do not fit.
func TestApplyRefuses(t *testing.T) {
	x := expand(t, base)
	changes := plandiff.Compare(x, expand(t, edit(t, "444.325", "444.350"))).Changes
	other := expand(t, edit(t, "444.325", "444.400"))
	if p, err := plandiff.Apply(other.Plan, changes); err == nil || p != nil || !strings.Contains(err.Error(), "444.400") {
		t.Errorf("a field that holds something else: %v, %v", p, err)
	}
	gone := expand(t, strings.ReplaceAll(base, "ridge", "crest"))
	if p, err := plandiff.Apply(gone.Plan, changes); err == nil || p != nil || !strings.Contains(err.Error(), "repeater ridge") {
		t.Errorf("a record that is not there: %v, %v", p, err)
	}
}

// TestPlaceOfWhatIsGone finds a line that is still there for each record that is not.
func TestPlaceOfWhatIsGone(t *testing.T) {
	tests := []struct {
		name string
		cut  string
		line int32
		why  string
	}{
		{"last of its section", "  local: {id: 99933, label: Local}\n", 20, "the group before it"},
		{"first of its section", "  statewide: {id: 99931, label: State}\n", 19, "the group after it"},
		{"between two", "  tri-county: {id: 99932, label: Tri}\n", 19, "the group before it"},
		{"all of its section", "messages: {late: Running late}\n", 1, "the beginning of the file"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			for _, c := range plandiff.Compare(expand(t, base), expand(t, edit(t, tt.cut, ""))).Changes {
				if c.Op != plandiff.Removed {
					continue
				}
				if c.At.File != "plan.yaml" || c.At.Line != tt.line {
					t.Errorf("%s: %s is gone at %s, want line %d", tt.why, c.Thing, c.At, tt.line)
				}
				return
			}
			t.Error("nothing is gone")
		})
	}
}

// TestApplyToASetInAnotherOrder applies to a plan that holds the same set in
// another order what was compared with a third.
func TestApplyToASetInAnotherOrder(t *testing.T) {
	changes := plandiff.Compare(expand(t, base), expand(t, edit(t, "bands: [136-174, 400-480]", "bands: [136-174, 420-450]"))).Changes
	other := expand(t, edit(t, "bands: [136-174, 400-480]", "bands: [400-480, 136-174]"))
	if _, err := plandiff.Apply(other.Plan, changes); err != nil {
		t.Error(err)
	}
}
