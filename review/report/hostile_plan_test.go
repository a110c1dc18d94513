package report

import (
	"bytes"
	"context"
	"io"
	"strings"
	"testing"
	"testing/fstest"

	"passband.example/plandiff"
	"passband.example/plandiff/plan"
)

// A plan with a text in each place where a plan may hold any text.
const anyText = `plan: @T
edition: 2026
region: US
license: technician
note: @T
repeaters:
  ridge: {label: @T, callsign: N0QRV, output: 444.325, split: +5, fm: {tone: 103.5}, dmr: {color_code: 4, slot1: [statewide]}, when: @T, note: @T}
groups:
  statewide: {id: 99931, label: @T, when: @T, note: @T}
receive_lists:
  all: {label: @T, groups: [statewide], note: @T}
channels:
  calling-2m: {label: @T, simplex: 146.52, fm: {}, when: @T, note: @T}
zones:
  home: {label: @T, channels: ["ridge/*/*", ridge/fm, calling-2m], note: @T}
scan_lists:
  hills: {label: @T, channels: [calling-2m], note: @T}
messages:
  late: @T
radios:
  pocket: {label: @T, bands: [136-174, 400-480], modes: [fm, dmr], note: @T}
review:
  accept:
    - {rule: no-callsign, at: ridge, until: 2027-06-01, reason: @T}
`

// withText fills a text into every place.
func withText(t *testing.T, s string) *plan.Expansion {
	t.Helper()
	quoted := `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`).Replace(s) + `"`
	person := `"` + strings.ReplaceAll(s, `"`, `""`) + `"`
	p, err := plan.Load(context.Background(), fstest.MapFS{
		"plan.yaml":     {Data: []byte(strings.ReplaceAll(anyText, "@T", quoted))},
		"operators.csv": {Data: []byte("id,callsign,name\n9990001,N0QRX," + person + "\n")},
	})
	if err != nil || len(p.Problems) > 0 {
		t.Fatalf("%q: %v %v", s, err, p.Problems)
	}
	return plan.Expand(p)
}

// TestHostilePlan puts what means something to a forge or a terminal into every
// text of a plan: the reports keep the shape that harmless texts give, nothing is
// linked, and nothing is obeyed.
func TestHostilePlan(t *testing.T) {
	empty := withText(t, "x")
	tame := shapes(t, empty, withText(t, "tame"))
	for _, s := range []string{
		"`@admin` @admin #1 !2 GH-3", "``` ``@a`", "</details><img src=x onerror=1>", "[x](javascript:1) ![y](//z)", "https://x.example www.x.example",
		"| a | b |", `\| \\ \`, "1. one - two # three", "**bold** _it_ ~~no~~ $x$", "::error::x %0A", "x &#64;admin &lt;b&gt;", "- [ ] task", "-->", "{{x}}",
		"漢字 🛰 é", strings.Repeat("long ", 39) + "x", strings.Repeat("W", 200),
	} {
		for name, got := range shapes(t, empty, withText(t, s)) {
			if got.shape != tame[name].shape {
				t.Errorf("%q changes the shape of %s from %s to %s", shortened(s), name, tame[name].shape, got.shape)
			}
			for line := range strings.Lines(got.markdown) {
				line = strings.Trim(strings.TrimLeft(strings.TrimSpace(line), "-#| "), "|")
				_, running, err := readInline(strings.NewReplacer(" | ", " ", "*why:*", "", "*reaches:*", "", "*in:*", "", "*load again:*", "", "*until:*", "").Replace(line))
				if err != nil || linked.MatchString(running) {
					t.Errorf("%s: %v in %q", name, err, shortened(line))
				}
			}
			if hiddenIn(got.text, "") {
				t.Errorf("%q in the text of %s is not shown as it is", shortened(s), name)
			}
		}
	}
}

type shaped struct{ shape, markdown, text string }

// shapes renders what a change to these texts shows.
func shapes(t *testing.T, old, new *plan.Expansion) map[string]shaped {
	t.Helper()
	c := plandiff.Compare(old, new)
	d := &Document{Old: &Origin{Name: "main"}, New: &Origin{Name: "evening"}, Comparison: c, Expansion: new}
	pages := map[string]*Page{"diff": Diff(d), "radios": Radios(d)}
	for _, name := range []string{"ridge", "ridge/fm", "statewide", "home", "calling-2m", "N0QRX"} {
		page, err := Show(d, name)
		if err != nil {
			t.Fatal(err)
		}
		pages["show "+name] = page
	}
	all := make(map[string]shaped)
	for name, page := range pages {
		markdown := written(t, func(w io.Writer) error { return Markdown(w, page) })
		all[name] = shaped{shape(markdown), markdown, written(t, func(w io.Writer) error { return Text(w, page, Terminal{}) })}
	}
	return all
}

func written(t *testing.T, write func(io.Writer) error) string {
	t.Helper()
	var out bytes.Buffer
	if err := write(&out); err != nil {
		t.Fatal(err)
	}
	return out.String()
}

func shortened(s string) string { return s[:min(len(s), 200)] }
