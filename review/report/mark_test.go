package report_test

import (
	"strings"
	"testing"

	"passband.example/review"
	"passband.example/review/report"
)

const key = "0123456789abcdef"

func TestMark(t *testing.T) {
	plan := report.PlanMark("plans/valley")
	signed := report.Mark{Role: report.MarkFinding, Key: key + "-2", Plan: plan}.Signed("body\n")
	for _, c := range []struct {
		name, why, body string
		want            bool
	}{
		{"as written", "a later run must know it again", signed, true},
		{"other line ends", "forges keep what a browser sends", strings.ReplaceAll(signed, "\n", "\r\n"), true},
		{"not on the first line", "what stands below it may come from a plan", "\n" + signed, false},
		{"behind a text", "the same", "x" + signed, false},
		{"two on one line", "a mark has the line to itself", strings.Replace(signed, "\n", " ", 1), false},
		{"another version", "its fields may mean something else", strings.Replace(signed, "passband 1", "passband 2", 1), false},
		{"a summary with a key", "there is one summary", strings.Replace(signed, "finding", "summary", 1), false},
		{"a finding without a key", "it would be any", strings.Replace(signed, key+"-2", "-", 1), false},
		{"nothing", "no mark", "", false},
	} {
		t.Run(c.name, func(t *testing.T) {
			m, _, ok := report.ParseMark(c.body)
			if ok != c.want {
				t.Fatalf("%s: read as %+v, %t", c.why, m, ok)
			}
			if ok && (m.Key != key+"-2" || m.Plan != plan || m.Role != report.MarkFinding) {
				t.Errorf("read as %+v", m)
			}
		})
	}
	if report.PlanMark("a") == report.PlanMark("b") {
		t.Error("two plans have one mark")
	}
}

// FuzzMark wants what is read as a mark to be written the same.
func FuzzMark(f *testing.F) {
	f.Add(report.Mark{Role: report.MarkSummary, Key: "-", Plan: report.PlanMark("")}.Signed("x"))
	f.Add("<!-- passband 1 gone " + key + " 012345678901 012345678901 -->")
	f.Add("<!-- passband 1 finding -->\n")
	f.Fuzz(func(t *testing.T, body string) {
		m, text, ok := report.ParseMark(body)
		if !ok {
			return
		}
		again, same, ok := report.ParseMark(m.Signed(text))
		if !ok || same != text || again.Key != m.Key || again.Role != m.Role || again.Plan != m.Plan {
			t.Errorf("%q becomes %+v", body, again)
		}
	})
}

func TestFindingKeys(t *testing.T) {
	one, two := review.Finding{Rule: "a"}, review.Finding{Rule: "b"}
	keys := report.FindingKeys([]review.Finding{one, two, one, one})
	if keys[0] != one.ID() || keys[1] != two.ID() || keys[2] != one.ID()+"-2" || keys[3] != one.ID()+"-3" {
		t.Errorf("%q", keys)
	}
}
