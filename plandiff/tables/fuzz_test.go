package tables

import (
	"strings"
	"testing"

	"passband.example/plandiff"
	"passband.example/plandiff/plan"
	"passband.example/plandiff/plan/plantest"
)

const fuzzPlan = `plan: Small
repeaters:
  ridge: {label: Ridge, output: 444.325, split: +5, fm: {tone: 103.5}, dmr: {color_code: 4, slot1: [statewide], slot2: [local]}}
groups:
  statewide: {id: 99931, label: State}
  local: {id: 99932}
channels:
  calling: {label: Call, simplex: 146.52, fm: {}}
zones:
  home: {label: Home, channels: [ridge/1/*, ridge/fm, calling]}
scan_lists:
  hills: {channels: [ridge/fm]}
radios:
  pocket: {bands: [144-148, 420-450], label_length: 8}
`

func smallPlan(tb testing.TB) (*plan.Expansion, map[string][]byte) {
	files := map[string][]byte{"plan.yaml": []byte(fuzzPlan)}
	return plan.Expand(plantest.Load(tb, files)), files
}

// FuzzParseLayout reads any text as a layout: it is refused with places, or can be
// written by, and what is written is read back without a change.
func FuzzParseLayout(f *testing.F) {
	f.Add(neutralText)
	f.Add("layout: x\ntables: [{file: a.csv, rows: zones, each: members, columns: [{header: a, value: members}, {header: k, value: key}]}]")
	f.Add("layout: x\nencoding: latin-1\ndecimal: comma\ntables: [{file: a.csv, rows: channels, columns: [{header: a, value: split, format: kHz 1, blank: \"0\", none: x, map: {\"+5\": up}}]}]")
	f.Add("&a [*a]")
	x, _ := smallPlan(f)
	f.Fuzz(func(t *testing.T, text string) {
		l, err := ParseLayout("x.layout", []byte(text))
		if err != nil {
			return
		}
		out, err := Write(x, "pocket", l)
		if err != nil {
			return
		}
		in, err := Read(x, "pocket", l, out.Files)
		if err != nil {
			t.Fatal(err)
		}
		if in.Plan != nil {
			if c := plandiff.Compare(x, plan.Expand(in.Plan)); !c.Empty() {
				t.Fatalf("%s: %v", c.Changes[0].Thing, c.Changes[0].Edits)
			}
		}
	})
}

// FuzzRead reads any bytes as each table of the neutral layout: a plan that comes of it
// can be put into the files of the old one.
func FuzzRead(f *testing.F) {
	x, files := smallPlan(f)
	l, err := Neutral()
	if err != nil {
		f.Fatal(err)
	}
	for _, radio := range []string{"", "pocket"} {
		out, err := Write(x, radio, l)
		if err != nil {
			f.Fatal(err)
		}
		for n, file := range out.Files {
			f.Add(n, file.Data)
			f.Add(n, []byte(strings.ReplaceAll(string(file.Data), "ridge", "hill")))
			f.Add(n, []byte(strings.ReplaceAll(string(file.Data), ",", ";")))
			f.Add(n, []byte(strings.ReplaceAll(string(file.Data), "444.325", "443.1")))
		}
	}
	f.Add(1, []byte("Channel,Mode,Output MHz,Input MHz,Slot,Group number,Color code\nA FM,FM,146.94,146.34,,,\nA B,DMR,146.94,146.34,1,7,1\nA C,DMR,146.94,146.34,2,8,1\n"))
	f.Fuzz(func(t *testing.T, n int, data []byte) {
		name := l.Tables[uint(n)%uint(len(l.Tables))].File
		in, err := Read(x, "", l, []File{{name, data}})
		if err != nil || in.Plan == nil {
			return
		}
		if _, _, err := Carry(files, x, in); err != nil && !strings.Contains(err.Error(), "by hand") {
			t.Fatal(err)
		}
	})
}
