package report_test

import (
	"fmt"
	"regexp"
	"strings"
	"testing"

	"passband.example/plandiff/plan"
	"passband.example/review"
	"passband.example/review/report"
)

func TestAnnotations(t *testing.T) {
	d := north(t)
	d.New.Folder = "plans/valley"
	text := report.Annotations(d)
	if n := strings.Count(text, "::error "); n != 6 {
		t.Errorf("%d errors", n)
	}
	want := "::error file=plans/valley/zones.yaml,line=34,col=3,title=passband memory-full::zone travel has 17 channels, and radio pocket holds 16; what"
	if !strings.Contains(text, want) {
		t.Errorf("%q is not in\n%s", want, text)
	}
}

// TestAnnotationsCap counts what the forge would drop without a word.
func TestAnnotationsCap(t *testing.T) {
	for _, c := range []struct{ n, lines, held int }{{9, 9, 0}, {10, 10, 0}, {11, 10, 2}, {500, 10, 491}} {
		d := north(t)
		d.Verdict.Findings = nil
		for i := range c.n {
			d.Verdict.Findings = append(d.Verdict.Findings, review.Finding{Severity: review.Block, What: fmt.Sprint(i)})
		}
		text := report.Annotations(d)
		if strings.Count(text, "\n") != c.lines || (c.held > 0) != strings.Contains(text, fmt.Sprintf("%d more findings", c.held)) {
			t.Errorf("%d findings give\n%s", c.n, text)
		}
	}
}

// FuzzAnnotations wants one command on one line, whatever a plan says and files are
// called.
func FuzzAnnotations(f *testing.F) {
	f.Add("a\n::error::b", "plan.yaml", int32(1))
	f.Add("%0A::set-output name=a::b\r", "a,line=9::x:y%.yaml", int32(0))
	f.Add("\x1b[31m\u202e", "\n", int32(2))
	f.Add("##[error]x", "", int32(-4))
	line := regexp.MustCompile(`^::warning (file=[^:,\r\n]*,(line=\d+,col=\d+,)?)?title=passband [^:,\r\n]*::[^\r\n]*\n$`)
	d := north(f)
	f.Fuzz(func(t *testing.T, what, file string, at int32) {
		d.Verdict.Findings = []review.Finding{{Rule: "bad-value", Severity: review.Warn, What: what, At: plan.Place{File: file, Line: at, Col: at}}}
		if got := report.Annotations(d); !line.MatchString(got) {
			t.Errorf("%q", got)
		}
	})
}

func TestFenced(t *testing.T) {
	if got := report.Fenced("t0k3n", "::error::x\n\n"); got != "::stop-commands::t0k3n\n::error::x\n::t0k3n::\n" {
		t.Errorf("%q", got)
	}
}
