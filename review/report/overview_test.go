package report_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"passband.example/plandiff/plan"
	"passband.example/review"
	"passband.example/review/report"
)

func overview(d *report.Document) *report.Overview {
	return &report.Overview{Document: d, Keys: report.FindingKeys(d.Verdict.Findings), Rest: "the summary of the job", Earlier: d.Verdicts("")}
}

// TestOverview wants the verdict first, then what changes, the memory, what is
// found and what it rests on.
func TestOverview(t *testing.T) {
	d := north(t)
	o := overview(d)
	o.OnLine = map[string]bool{o.Keys[0]: true}
	o.Notes = []string{"A note."}
	text, at := o.Markdown(), 0
	for _, want := range []string{
		"## Blocked: Harrow Valley Repeater Group\n", "The change brings 6 block, ", "A note.\n",
		"### What changes for members\n", "<summary>15 changes to 15 records</summary>", "*reaches:* 1 channel: `knob/fm` (transmit)", "</details>\n",
		"### Memory of each class of radio\n", "| `pocket` | channels | 116 | 127 | 192 |\n", "| `pocket` | channels per zone | 15 | **17, too many** | 16 |\n",
		"### What is found\n", "- **block** \\[group-id-twice\\] at `groups.yaml:33:20`: the groups north-tac and tac-3 have the same number 999803\n",
		"**block** \\[off-band\\]: repeater cairn", "*why:*", "**warn**",
		"### What this rests on\n", "from `b6a33d1f6e`, where north left main, to `north` (`d231f09765`)", "under the policy of the base, edition 2026", "license holder answers",
		"- `d231f09765`: " + d.Status() + "\n",
	} {
		i := strings.Index(text[at:], want)
		if i < 0 {
			t.Fatalf("%q is not there after byte %d in\n%s", want, at, text)
		}
		at += i + len(want)
	}
	if !strings.HasPrefix(text, "## Blocked") {
		t.Error("the verdict is not first")
	}
}

// TestOverviewLimit cuts the text to every length that a forge might want, and
// wants what is left out to be said.
func TestOverviewLimit(t *testing.T) {
	d := north(t)
	whole := overview(d).Markdown()
	shown := func(text, what string) int { return strings.Count(text, what) }
	for limit := 3000; limit < len(whole)+2000; limit += 97 {
		o := overview(d)
		o.Limit = limit
		text := o.Markdown()
		if len(text) > limit {
			t.Fatalf("%d bytes where %d are allowed", len(text), limit)
		}
		if !strings.HasPrefix(text, "## Blocked") || !strings.Contains(text, "license holder answers") {
			t.Fatalf("at %d the frame is gone", limit)
		}
		if shown(text, "<details") != shown(text, "</details>") {
			t.Fatalf("at %d a fold is left open:\n%s", limit, text)
		}
		found := shown(text, ": **block**") + shown(text, ": **warn**")
		held := 0
		for line := range strings.Lines(text) {
			n := 0
			if _, err := fmt.Sscanf(line, "This text has a limit: %d more findings are not shown here; the summary of the job has all.", &n); err == nil {
				held = n
			}
		}
		if brought := d.Verdict.Count(review.Block, review.New) + d.Verdict.Count(review.Warn, review.New) + d.Verdict.Count(review.Note, review.New); found+held != brought {
			t.Fatalf("at %d: %d shown and %d held back of %d", limit, found, held, len(d.Verdict.Findings))
		}
		if text != whole && !strings.Contains(text, "This text has a limit") {
			t.Fatalf("at %d something is left out in silence", limit)
		}
		if held > 0 && strings.Contains(text, "- **repeater") {
			t.Fatalf("at %d changes are shown before findings", limit)
		}
	}
}

// TestOverviewStill tells of what is mended and what stood before.
func TestOverviewStill(t *testing.T) {
	base := "plan: A\nedition: 2026\nregion: US\nlicense: technician\nchannels:\n  slip: {label: Slip, simplex: 164.52, fm: {}}\n  slop: {label: Slop, simplex: 165.52, fm: {}}\n"
	d := judged(t, of(base), of(strings.Replace(base, "165.52", "146.52", 1)))
	text := overview(d).Markdown()
	for _, want := range []string{"## Nothing blocks: A\n", "- **mended** \\[", "Thank you for mending 1 finding.", "before this change and "} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not in\n%s", want, text)
		}
	}
	if strings.Contains(text, "164.52 MHz") {
		t.Errorf("what stood before is held against the change:\n%s", text)
	}
	same := judged(t, of(base), of("# a\n"+base))
	if text := overview(same).Markdown(); !strings.Contains(text, "Nothing changes for members") {
		t.Error(text)
	}
}

// TestVerdicts keeps one line for each commit judged, and believes no other line.
func TestVerdicts(t *testing.T) {
	d := north(t)
	o := overview(d)
	for range 2 { // the same commit again
		o.Earlier = d.Verdicts(o.Markdown())
	}
	if len(o.Earlier) != 1 {
		t.Fatalf("%q", o.Earlier)
	}
	d.New.Hash = "e" + head[1:]
	o.Earlier = d.Verdicts(o.Markdown())
	want := []string{"- `d231f09765`: " + d.Status(), "- `e231f09765`: " + d.Status()}
	if !slices.Equal(o.Earlier, want) {
		t.Errorf("%q", o.Earlier)
	}
	for i := range 50 {
		d.New.Hash = fmt.Sprintf("%010x%s", i, head[10:])
		o.Earlier = d.Verdicts(o.Markdown())
	}
	if len(o.Earlier) != 20 {
		t.Errorf("%d verdicts are kept", len(o.Earlier))
	}
	if got := d.Verdicts("- `0123456789`: Nothing blocks: x\n"); len(got) != 1 {
		t.Errorf("a line elsewhere is believed: %q", got)
	}
}

func TestStatus(t *testing.T) {
	d := north(t)
	if got := d.Status(); !strings.HasPrefix(got, "Blocked: the change brings 6 block, ") || len(got) > 140 {
		t.Error(got)
	}
	for range 1_000_000 / len(d.Verdict.Findings) {
		d.Verdict.Findings = append(d.Verdict.Findings, review.Finding{Severity: review.Note})
	}
	if got := d.Status(); len(got) > 140 {
		t.Errorf("%d characters", len(got))
	}
}

// TestOverviewLinks makes links of places, to the file and line, whatever a file is called.
func TestOverviewLinks(t *testing.T) {
	d := north(t)
	keys := report.FindingKeys(d.Verdict.Findings)
	for _, c := range []struct{ name, file, want string }{
		{"plain", "zones.yaml", "[`zones.yaml:10:81`](https://forge.example/club/plan/blob/abc/zones.yaml#L10)"},
		{"in a folder", "east/zones.yaml", "/abc/east/zones.yaml#L10)"},
		{"a name that would end the link", "a) [b](c.yaml", "/abc/a%29%20%5Bb%5D%28c.yaml#L10)"},
		{"a name that would end the code", "a`b.yaml", "[``a`b.yaml:10:81``](https://forge.example/club/plan/blob/abc/a%60b.yaml#L10)"},
		{"a name with a line end", "a\n<b>.yaml", "/abc/a%0A%3Cb%3E.yaml#L10)"},
	} {
		f := d.Verdict.Findings[0]
		f.At = plan.Place{File: c.file, Line: 10, Col: 81}
		one := *d
		verdict := *d.Verdict
		verdict.Findings, one.Verdict = []review.Finding{f}, &verdict
		for _, onLine := range []bool{true, false} {
			o := report.Overview{Document: &one, Keys: keys[:1], OnLine: map[string]bool{keys[0]: onLine}, Files: "https://forge.example/club/plan/blob/abc"}
			if got := o.Markdown(); !strings.Contains(got, c.want) {
				t.Errorf("%s: there is no %s in\n%s", c.name, c.want, got)
			}
		}
	}
}
