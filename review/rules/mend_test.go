package rules_test

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"
	"passband.example/plandiff/plan"
	"passband.example/plandiff/rewrite"
	"passband.example/review"
	"passband.example/review/rules"
)

// TestMend wants the edit that each rule proposes where a machine can tell, and none
// where it cannot.
func TestMend(t *testing.T) {
	for _, c := range []struct {
		name, why string
		rule      *review.Rule
		text      string
		want      string // thing: field: old -> new
	}{
		{"misprinted tone", "half a hertz from a listed one", rules.ToneNotStandard,
			"channels: {c: {simplex: 146.52, fm: {tone: 177.8}}}\n", "channel c: fm.tone.send: 177.8 -> 177.3"},
		{"tone of its own", "the listed ones are too far to be meant", rules.ToneNotStandard,
			"channels: {c: {simplex: 146.52, fm: {tone: 150.0}}}\n", ""},
		{"tone to hear", "the field that is wrong, not the other", rules.ToneNotStandard,
			"channels: {c: {simplex: 146.52, fm: {tone: {send: 67.0, receive: 67.1}}}}\n", "channel c: fm.tone.receive: 67.1 -> 67.0"},
		{"code of another spelling", "the listed one is the same signal", rules.DCSNotStandard,
			"repeaters: {r: {output: 444.3, split: +5, fm: {tone: D340I}}}\n", "repeater r: fm.tone.send: D340I -> D047N"},
		{"code of no listed signal", "nobody knows what was meant", rules.DCSNotStandard,
			"channels: {c: {simplex: 146.52, fm: {tone: D000N}}}\n", ""},
		{"misspelled group", "one group is near", rules.DanglingReference,
			"groups: {statewide: {id: 1}, local: {id: 2}}\nreceive_lists: {l: {groups: [local, statewid]}}\n", "receive list l: groups: local statewid -> local statewide"},
		{"two groups as near", "a person must choose", rules.DanglingReference,
			"groups: {north: {id: 1}, sorth: {id: 2}}\nreceive_lists: {l: {groups: [worth]}}\n", ""},
		{"another number", "tac-2 is no misspelling of tac-1", rules.DanglingReference,
			"groups: {tac-1: {id: 1}}\nreceive_lists: {l: {groups: [tac-2]}}\n", ""},
		{"nothing near", "nobody knows what was meant", rules.DanglingReference,
			"groups: {tac: {id: 1}}\nreceive_lists: {l: {groups: [statewide]}}\n", ""},
		{"misspelled group of a talk path", "one of that repeater is near", rules.DanglingReference,
			"groups: {wide: {id: 1}}\nrepeaters: {r: {output: 444.3, split: +5, dmr: {slot1: [wide]}}}\nzones: {z: {channels: [r/1/wise]}}\n", "zone z: channels: r/1/wise -> r/1/wide"},
		{"another slot of a talk path", "it may be the slot or the group that is wrong", rules.DanglingReference,
			"groups: {wide: {id: 1}}\nrepeaters: {r: {output: 444.3, split: +5, dmr: {slot1: [wide]}}}\nzones: {z: {channels: [r/2/wide]}}\n", ""},
		{"misspelled repeater of a talk path", "no other repeater is near", rules.DanglingReference,
			"repeaters: {ridge: {output: 444.3, split: +5, fm: {}}, knob: {output: 444.4, split: +5, fm: {}}}\nzones: {z: {channels: [rigde/fm]}}\n", "zone z: channels: rigde/fm -> ridge/fm"},
		{"two repeaters as near", "a person must choose", rules.DanglingReference,
			"repeaters: {ridge: {output: 444.3, split: +5, fm: {}}, bidge: {output: 444.4, split: +5, fm: {}}}\nzones: {z: {channels: [midge/fm]}}\n", ""},
		{"misspelled zone", "its mark stays", rules.DanglingReference,
			"channels: {c: {simplex: 146.52, fm: {}}}\nzones: {valley: {channels: [c]}, all: {channels: ['zone:vally']}}\n", "zone all: channels: zone:vally -> zone:valley"},
		{"misspelled pattern", "it would stand for other channels", rules.DanglingReference,
			"repeaters: {ridge: {output: 444.3, split: +5, fm: {}}}\nzones: {z: {channels: ['rigde/*']}}\n", ""},
		{"misspelled shortcut", "a record that is one value", rules.DanglingReference,
			"groups: {statewide: {id: 1}}\nshortcuts: {1: statewid}\n", "shortcut 1: calls: statewid -> statewide"},
		{"lost sign", "the other sign leads among the others", rules.PlaceFarOff,
			"repeaters: {a: {output: 146.94, site: {lat: 40.0, lon: 105.1}}, b: {output: 146.7, site: {lat: 40.1, lon: -105.1}}, c: {output: 146.8, site: {lat: 40.2, lon: -105.2}}}\n", "repeater a: site.lon: 105.1 -> -105.1"},
		{"two places", "either may be the wrong one", rules.PlaceFarOff,
			"repeaters: {a: {output: 146.94, site: {lat: 40.0, lon: 105.1}}, b: {output: 146.7, site: {lat: 40.1, lon: -105.1}}}\n", ""},
		{"no split", "one is usual for the output (US national band plan; NCVEC T2A01)", rules.SplitMissing,
			"repeaters: {r: {output: 146.94, fm: {}}}\n", "repeater r: split:  -> -0.6"},
		{"no split where either sign is used", "147.000 is paired both ways (history of the 2 m pairs)", rules.SplitMissing,
			"repeaters: {r: {output: 147.0, fm: {}}}\n", ""},
		{"no split known", "nobody knows what was meant", rules.SplitMissing,
			"repeaters: {r: {output: 145.05, fm: {}}}\n", ""},
		{"on no step", "the nearest of all steps in use", rules.OffRaster,
			"channels: {c: {simplex: 146.5217, fm: {}}}\n", "channel c: simplex: 146.5217 -> 146.5225"},
		{"between channels", "the area may have other steps", rules.OffRaster,
			"channels: {c: {simplex: 146.5225, fm: {}}}\n", ""},
		{"twice on a slot", "the second one goes", rules.GroupTwiceOnSlot,
			"groups: {a: {id: 1}, b: {id: 2}}\nrepeaters: {r: {output: 444.3, split: +5, dmr: {slot1: [a, b, a]}}}\n", "repeater r: dmr.slot1: a b a -> a b"},
		{"twice in a zone", "the second one goes", rules.TwiceInZone,
			"channels: {c: {simplex: 146.52, fm: {}}, d: {simplex: 146.55, fm: {}}}\nzones: {z: {channels: [c, d, c]}}\n", "zone z: channels: c d c -> c d"},
		{"cut off", "the one channel that is meant by it", rules.CutOffDecimals,
			"channels: {c: {simplex: 446.006, fm: {}}}\n", "channel c: simplex: 446.006 -> 446.00625"},
		{"cut off with a split", "the input goes along", rules.CutOffDecimals,
			"repeaters: {r: {output: 443.0062, split: +5, fm: {}}}\n", "repeater r: output: 443.0062 -> 443.00625; repeater r: input: 448.0062 -> 448.00625"},
		{"cut off with an input", "the input is stated, and right", rules.CutOffDecimals,
			"repeaters: {r: {output: 443.0062, input: 448.00625, fm: {}}}\n", "repeater r: output: 443.0062 -> 443.00625"},
		{"reversed", "the usual split of the size is one", rules.SplitReversed,
			"repeaters: {r: {output: 146.94, split: +0.6, fm: {}}}\n", "repeater r: input: 147.540 -> 146.340"},
		{"reversed into a barred range", "the size is usual with the other sign (NCVEC T2A03)", rules.RepeaterNotAllowed,
			"repeaters: {r: {output: 442.15, split: -5, fm: {}}}\n", "repeater r: input: 437.150 -> 447.150"},
		{"reversed by memory alone", "no document says which sign is usual below 442", rules.RepeaterNotAllowed,
			"repeaters: {r: {output: 440.6, split: -5, fm: {}}}\n", ""},
		{"an output that is barred", "the split may be right", rules.RepeaterNotAllowed,
			"repeaters: {r: {output: 145.505, split: -0.6, fm: {}}}\n", ""},
		{"unusual", "another pairing may be coordinated", rules.SplitUnusual,
			"repeaters: {r: {output: 146.94, split: -0.7, fm: {}}}\n", ""},
		{"letter O", "with a zero it is a callsign", rules.CallsignForm,
			"repeaters: {r: {callsign: NOQR1A, output: 444.3, split: +5, fm: {}}}\n", "repeater r: callsign: NOQR1A -> N0QR1A"},
		{"zero", "with the letter it is a callsign", rules.CallsignForm,
			"repeaters: {r: {callsign: N0QR0, output: 444.3, split: +5, fm: {}}}\n", "repeater r: callsign: N0QR0 -> N0QRO"},
		{"another fault", "no zero makes it one", rules.CallsignForm,
			"repeaters: {r: {callsign: N0QR1, output: 444.3, split: +5, fm: {}}}\n", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := findings(t, c.rule, map[string]string{"plan.yaml": header, "a.yaml": c.text})
			if len(got) != 1 {
				t.Fatalf("%d findings, want one: %+v", len(got), got)
			}
			if mend := mendText(got[0].Mend); mend != c.want {
				t.Errorf("%s: got %q, want %q", c.why, mend, c.want)
			}
		})
	}
}

func mendText(m review.Mend) string {
	var all []string
	for _, change := range m {
		for _, e := range change.Edits {
			all = append(all, fmt.Sprintf("%s: %s: %s -> %s", change.Thing, e.Field, strings.Join(e.Old, " "), strings.Join(e.New, " ")))
		}
	}
	return strings.Join(all, "; ")
}

// TestMendsMend carries every mend that the cases and the pages bring up into the text
// of their plans, one at a time. It must remove its finding, and bring no other of the
// rule.
func TestMendsMend(t *testing.T) {
	mended := make(map[string]int)
	for _, r := range rules.All() {
		page, err := review.ParsePage(r.Doc)
		if err != nil {
			t.Fatal(err)
		}
		plans := []map[string]string{example(page.Fails)}
		names, err := filepath.Glob(filepath.Join("testdata", r.ID, "*.txtar"))
		if err != nil {
			t.Fatal(err)
		}
		for _, name := range names {
			data, err := os.ReadFile(name)
			if err != nil {
				t.Fatal(err)
			}
			files, _ := unpack(t, txtar.Parse(data))
			plans = append(plans, files)
		}
		for _, files := range plans {
			if strings.Contains(fmt.Sprint(files), " -> ") || r.Run == nil {
				continue // a link, which no file in memory can be
			}
			for _, f := range findings(t, r, files) {
				if f.Rule == r.ID && len(f.Mend) > 0 {
					mendOne(t, r, files, f)
					mended[r.ID]++
				}
			}
		}
	}
	for _, id := range []string{"cut-off-decimals", "split-reversed", "callsign-form", "tone-not-standard", "dcs-not-standard", "dangling-reference", "group-twice-on-slot", "twice-in-zone"} {
		if mended[id] < 2 {
			t.Errorf("%s has %d mends in its cases", id, mended[id])
		}
	}
}

func mendOne(t *testing.T, r *review.Rule, files map[string]string, f review.Finding) {
	t.Helper()
	before := make(map[string][]byte)
	for name, text := range files {
		before[name] = []byte(text)
	}
	p, err := rewrite.Load(before)
	if err != nil {
		t.Fatal(err)
	}
	if len(p.Problems) > 0 {
		return // such a plan is not mended
	}
	now, err := rewrite.Apply(before, p, f.Mend)
	if err != nil {
		t.Errorf("%s: %s: %s: %v", r.ID, f.At, mendText(f.Mend), err)
		return
	}
	for name, data := range now {
		before[name] = data
	}
	mended, err := rewrite.Load(before)
	if err != nil {
		t.Fatal(err)
	}
	was, is := idsOfFindings(check(t, only(r.ID), plan.Expand(p))), idsOfFindings(check(t, only(r.ID), plan.Expand(mended)))
	i := slices.Index(was, f.ID())
	was = slices.Delete(was, i, i+1)
	if !slices.Equal(was, is) {
		t.Errorf("%s: %s: %s: the findings left are %q, and should be %q", r.ID, f.At, mendText(f.Mend), is, was)
	}
}

func idsOfFindings(fs []review.Finding) []string {
	var ids []string
	for _, f := range fs {
		ids = append(ids, f.ID())
	}
	slices.Sort(ids)
	return ids
}
