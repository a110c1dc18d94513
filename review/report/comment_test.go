package report_test

import (
	"strings"
	"testing"

	"passband.example/plandiff/plan"
	"passband.example/review"
	"passband.example/review/report"
)

func finding(t *testing.T, d *report.Document, rule string) review.Finding {
	t.Helper()
	for _, f := range d.Verdict.Findings {
		if f.Rule == rule {
			return f
		}
	}
	t.Fatalf("the demo's proposal has no %s", rule)
	return review.Finding{}
}

// TestComment wants all that a reader of a line needs: what, why, what to do, the
// other places, what it rests on, and how to live with it.
func TestComment(t *testing.T) {
	d := north(t)
	d.New.Folder = "plans/valley"
	body := report.Comment(d, finding(t, d, "radio-id-shared"), nil)
	for _, want := range []string{
		"**block** \\[radio-id-shared\\]: the radio ID 9990017 stands under K0QRQ and N0QRO",
		"A radio shows who speaks by this number",
		"**What to do:** look up whose it is",
		"- `plans/valley/operators.csv:18:1`: K0QRQ has it here",
		"**Rests on:** ETSI TS 102 361-1 annex A",
	} {
		if !strings.Contains(body, want) {
			t.Errorf("%q is not in\n%s", want, body)
		}
	}
	if strings.Contains(body, "suggestion") {
		t.Error("it offers what nobody has worked out")
	}
	if strings.Contains(body, "If those who answer") {
		t.Error("it offers lines to paste with a key that would have to be quoted")
	}
	body = report.Comment(d, finding(t, d, "off-band"), nil)
	for _, want := range []string{"<details><summary>If those who answer for the plan accept this</summary>\n", "    - {rule: off-band, at: cairn, until: YYYY-MM-DD, reason: \"who decided it", "makes nothing lawful"} {
		if !strings.Contains(body, want) {
			t.Errorf("%q is not in\n%s", want, body)
		}
	}
}

func TestSuggestion(t *testing.T) {
	d := north(t)
	f := finding(t, d, "dangling-reference")
	for _, c := range []struct {
		name, why, text string
		want            string // "" for none
	}{
		{"a line", "it takes the place of the line", "    range: x", "\n```suggestion\n    range: x\n```\n"},
		{"two lines", "one line may become two", "a:\n  b", "\n```suggestion\na:\n  b\n```\n"},
		{"no line", "an empty fence takes the line out", "", "\n```suggestion\n```\n"},
		{"a fence", "text of a plan must not end it early", "a: ```", "\n````suggestion\na: ```\n````\n"},
		{"what does not show", "nobody could see what is accepted", "a: \u202eb", ""},
		{"a carriage return", "it would be lost on the way", "a: b\r", ""},
		{"much text", "no longer a thing to read beside a line", strings.Repeat("a", 5000), ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			body := report.Comment(d, f, &report.Suggestion{From: 1, To: 1, Text: c.text})
			if c.want == "" && strings.Contains(body, "suggestion\n") || !strings.Contains(body, c.want) {
				t.Errorf("%s:\n%s", c.why, body)
			}
		})
	}
}

// TestLongComment fits a finding on texts of a megabyte and a thousand places.
func TestLongComment(t *testing.T) {
	long := strings.Repeat("ż", 1<<20)
	f := review.Finding{Rule: "label-too-long", Severity: review.Warn, What: long, Why: long, Fix: long, Source: long, About: []plan.Thing{{Kind: plan.KindRepeater, Key: long}}}
	for range 1000 {
		f.Also = append(f.Also, review.Related{At: plan.Place{File: long, Line: 1, Col: 1}, Text: long})
	}
	body := report.Comment(north(t), f, nil)
	if len(body) > 60_000 || !strings.Contains(body, "and 988 more places") || !strings.Contains(body, "bytes more)") {
		t.Errorf("%d bytes", len(body))
	}
	if gone := report.GoneComment(body, head); len(gone) > 61_000 {
		t.Errorf("%d bytes", len(gone))
	}
}

func TestGoneComment(t *testing.T) {
	body := report.GoneComment("**block**: so\n\n```suggestion\nx\n```\n", head)
	if !strings.HasPrefix(body, "**No longer found** since `d231f09765`") || !strings.Contains(body, "**block**: so") || strings.Contains(body, "suggestion") {
		t.Error(body)
	}
}
