package e2e

import (
	"bytes"
	"context"
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"

	"passband.example/plandiff"
	"passband.example/plandiff/demo"
	"passband.example/plandiff/plan"
	"passband.example/review"
	"passband.example/review/page"
	"passband.example/review/report"
	"passband.example/review/rules"
)

var today = plan.Date{Year: 2026, Month: 11, Day: 25}

func expand(t *testing.T, files fs.FS) *plan.Expansion {
	t.Helper()
	p, err := plan.Load(context.Background(), files)
	if err != nil {
		t.Fatal(err)
	}
	return plan.Expand(p)
}

// pages are pages of each kind: a change, a plan as it stands, and one with conflicts and mixing
// products.
func pages(t *testing.T) map[string][]byte {
	t.Helper()
	return map[string][]byte{"change": north(t), "plan": standing(t, demo.Plan()), "crowded": standing(t, fstest.MapFS{"plan.yaml": {Data: []byte(crowded)}})}
}

// crowded has two repeaters on one channel, and a hill whose transmitters mix.
const crowded = `plan: Harrow Valley Repeater Group
edition: 2026
region: US
license: technician
repeaters:
  ridge: {label: Ridge, output: 146.940, split: -0.6, fm: {tone: 100.0}, site: {lat: 40.1, lon: -104.2}}
  far:   {label: Far, output: 146.940, split: -0.6, fm: {tone: 103.5}, site: {grid: DN70vj}}
  hill:  {label: Hill, output: 147.330, split: +0.6, fm: {tone: 100.0}, site: {lat: 40.1, lon: -104.2}}
  side:  {label: Side, output: 147.150, split: -0.6, fm: {tone: 100.0}, site: {lat: 40.1, lon: -104.2}}
`

// north is the page of the demo's proposal.
func north(t *testing.T) []byte {
	t.Helper()
	var parent fs.FS
	for _, c := range demo.History() {
		if c.Branch == demo.Proposal {
			return change(t, parent, demo.Branch())
		}
		parent = c.Plan
	}
	t.Fatal("the demo has no proposal")
	return nil
}

// change is the page of a change.
func change(t *testing.T, old, new fs.FS) []byte {
	t.Helper()
	c := plandiff.Compare(expand(t, old), expand(t, new))
	v, err := review.Judge(context.Background(), rules.All(), c, nil, today)
	if err != nil {
		t.Fatal(err)
	}
	return write(t, &report.Document{Old: &report.Origin{Name: "main"}, New: &report.Origin{Name: "north"}, Comparison: c, Expansion: c.New, Verdict: v})
}

// standing is the page of a plan as it stands.
func standing(t *testing.T, files fs.FS) []byte {
	t.Helper()
	x := expand(t, files)
	v, err := review.Check(context.Background(), rules.All(), x, today)
	if err != nil {
		t.Fatal(err)
	}
	return write(t, &report.Document{New: &report.Origin{Name: "main"}, Expansion: x, Verdict: v})
}

func write(t *testing.T, d *report.Document) []byte {
	t.Helper()
	var out bytes.Buffer
	if err := page.Write(&out, d); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// files makes a file system of the files of a plan.
func files(texts map[string][]byte) fs.FS {
	all := fstest.MapFS{}
	for name, text := range texts {
		all[name] = &fstest.MapFile{Data: text}
	}
	return all
}

// withText is a plan with a text in every place that a page shows.
func withText(s string) fs.FS {
	quoted := `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`).Replace(s) + `"`
	text := strings.ReplaceAll(`plan: @T
edition: 2026
region: US
license: technician
repeaters:
  ridge: {label: @T, callsign: N0QRV, output: 444.325, split: +5, fm: {tone: 103.5}, dmr: {color_code: 4, slot1: [statewide]}, site: {lat: 40.1, lon: -104.2}, note: @T}
  knob: {label: @T, output: 149.940, split: -0.6, fm: {}, site: {grid: DN70}}
groups:
  statewide: {id: 99931, label: @T}
zones:
  home: {label: @T, channels: ["ridge/*/*", ridge/fm, knob/fm]}
messages:
  late: @T
radios:
  pocket: {label: @T, bands: [136-174, 400-480], modes: [fm, dmr], label_length: 8}
`, "@T", quoted)
	return fstest.MapFS{"plan.yaml": {Data: []byte(text)}}
}
