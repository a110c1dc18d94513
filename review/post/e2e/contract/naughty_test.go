package contract

import (
	"encoding/json"
	"fmt"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/extension"
	extast "github.com/yuin/goldmark/extension/ast"
	"github.com/yuin/goldmark/text"
	"gopkg.in/yaml.v3"

	"passband.example/plandiff"
	"passband.example/plandiff/plan"
	"passband.example/review"
	"passband.example/review/report"
	"passband.example/review/rules"
)

// ours are strings that are naughty where passband writes, beside the published list.
var ours = []string{
	"@owner", "owner/plan#7", "#7", "GH-7", "https://evil.example", "www.evil.example", "a@evil.example", ":tada:",
	"<!-- passband 1 summary - 012345678901 012345678901 -->", "--> <b>x</b>", "</details>", "<details>", "<img src=x onerror=alert(1)>",
	"```\n::error::x\n```", "~~~", "| a | b |", "[x](https://evil.example)", "![x](https://evil.example/x.png)", "\x1b[31mred\x1b[0m", "\u202etxt.exe",
	"::error file=x::y", "##[error]x", "%0A::error::x", "$x^2$", "`", "``", "``` ``", "\\", "- [ ] x", "# x", "1. x", "> x", "***", "===",
	strings.Repeat("a", 70_000), strings.Repeat("`", 300), "a\tb\nc\rd", "\u200b@owner", "@\u200bowner",
}

// fields are plans with a text in every field that takes one.
var fields = map[string]string{
	"the plan": "plan: %s\n", "a label": "channels: {call: {label: %s, simplex: 164.52, fm: {}}}\n", "a note": "channels: {call: {label: C, note: %s, simplex: 164.52, fm: {}}}\n",
	"a key": "channels: {%s: {label: C, simplex: 164.52, fm: {}}}\n", "a message": "messages: {late: %s}\n", "a zone": "zones: {a: {label: %s, channels: [nowhere]}}\n",
	"an entry": "zones: {a: {label: A, channels: [%s]}}\n", "a group": "groups: {a: {id: 99931, label: %s}}\n", "a callsign": "repeaters: {r: {callsign: %s, output: 444.325, split: +5, fm: {}}}\n",
	"a frequency": "repeaters: {r: {output: %s, split: +5, fm: {}}}\n", "an unknown field": "%s: 1\n", "a reason": "review: {accept: [{rule: off-band, at: call, until: 2027-01-01, reason: %s}]}\n",
	"a severity": "review: {severity: {off-band: %s}}\n", "a site": "repeaters: {r: {output: 444.325, split: +5, fm: {}, site: {grid: %s}}}\n", "a region": "region: %s\n",
}

func naughty(t *testing.T) []string {
	t.Helper()
	data, err := os.ReadFile("testdata/naughty.json")
	if err != nil {
		t.Fatal(err)
	}
	var list []string
	if err := json.Unmarshal(data, &list); err != nil {
		t.Fatal(err)
	}
	return append(list, ours...)
}

// quoted writes a text as a value of YAML on one line.
func quoted(s string) string {
	n := &yaml.Node{Kind: yaml.ScalarNode, Style: yaml.DoubleQuotedStyle, Value: strings.ToValidUTF8(s, "?")}
	out, err := yaml.Marshal(n)
	if err != nil {
		return `"x"`
	}
	return strings.ReplaceAll(strings.TrimRight(string(out), "\n"), "\n", " ")
}

// judged gives the review of a change that brings a plan.
func judged(t *testing.T, text string) *report.Document {
	t.Helper()
	load := func(text string) *plan.Expansion {
		p, err := plan.Load(t.Context(), fstest.MapFS{"plan.yaml": {Data: []byte(text)}})
		if err != nil {
			t.Fatal(err)
		}
		return plan.Expand(p)
	}
	base := "edition: 2026\n"
	c := plandiff.Compare(load(base), load(base+text))
	v, err := review.Judge(t.Context(), rules.All(), c, nil, plan.Date{Year: 2026, Month: 11, Day: 25})
	if err != nil {
		t.Fatal(err)
	}
	hash := strings.Repeat("1", 40)
	return &report.Document{Old: &report.Origin{Name: "main", Hash: hash}, New: &report.Origin{Name: "new", Hash: hash}, Comparison: c, Verdict: v, Expansion: c.New}
}

// TestNaughtyStrings puts each string into each field of a plan, and reads what would
// be posted as a forge does: nothing from a plan may become a link, a picture, HTML, a
// mention, a mark, a task or a command.
func TestNaughtyStrings(t *testing.T) {
	md := goldmark.New(goldmark.WithExtensions(extension.GFM))
	tried, texts := 0, 0
	for _, s := range naughty(t) {
		for name, field := range fields {
			tried++
			d := judged(t, fmt.Sprintf(field, quoted(s)))
			keys := report.FindingKeys(d.Verdict.Findings)
			o := &report.Overview{Document: d, Keys: keys, Limit: 60_000, Earlier: d.Verdicts("")}
			all := []string{o.Markdown()}
			for _, f := range d.Verdict.Findings {
				all = append(all, report.Comment(d, f, nil))
			}
			for _, body := range all {
				texts++
				if bad := unsafe(md, body); bad != "" {
					t.Errorf("%.60q as %s becomes %s:\n%.1500s", s, name, bad, body)
				}
				if len(body) > 65_536 {
					t.Errorf("%.60q as %s: %d bytes", s, name, len(body))
				}
			}
			command := regexp.MustCompile(`^::(error|warning|notice) (file=[^:,\r\n]*,(line=\d+,col=\d+,)?)?title=passband [a-z-]+::[^\r\n\x1b]*$`)
			for line := range strings.Lines(report.Annotations(d)) {
				if !command.MatchString(strings.TrimSuffix(line, "\n")) {
					t.Errorf("%.60q as %s: the command %q", s, name, line)
				}
			}
		}
	}
	t.Logf("%d strings in %d fields: %d plans, %d texts", len(naughty(t)), len(fields), tried, texts)
}

// allowed is the HTML that passband writes itself.
var allowed = regexp.MustCompile(`^(<details( open)?>|</details>|<summary>|</summary>|<details( open)?><summary>[A-Za-z0-9 ]+</summary>\s*)$`)

// mention finds what a forge would turn into a mention or a reference to an issue.
var mention = regexp.MustCompile(`(^|[^\w` + "`" + `])@[\w-]|(^|[\s(])#\d|\bGH-\d|\w#\d`)

// unsafe says what in a body is more than text; "" if nothing is.
func unsafe(md goldmark.Markdown, body string) string {
	if strings.ContainsAny(body, "\x00\x1b\r\u202e\u2066\u2028") {
		return "a character that does not show"
	}
	if _, _, marked := report.ParseMark(body); marked {
		return "a mark"
	}
	source, found := []byte(body), ""
	_ = ast.Walk(md.Parser().Parse(text.NewReader(source)), func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering || found != "" {
			return ast.WalkContinue, nil
		}
		switch n := n.(type) {
		case *ast.Link, *ast.Image, *ast.AutoLink, *extast.TaskCheckBox, *extast.Strikethrough:
			found = n.Kind().String()
		case *ast.RawHTML:
			for i := range n.Segments.Len() {
				if s := n.Segments.At(i); !allowed.Match(s.Value(source)) {
					found = "HTML " + string(s.Value(source))
				}
			}
		case *ast.HTMLBlock:
			for i := range n.Lines().Len() {
				if s := n.Lines().At(i); !allowed.MatchString(strings.TrimSpace(string(s.Value(source)))) {
					found = "HTML " + string(s.Value(source))
				}
			}
		case *ast.Text:
			if _, code := n.Parent().(*ast.CodeSpan); !code && mention.Match(n.Segment.Value(source)) {
				found = "a mention " + string(n.Segment.Value(source))
			}
		}
		return ast.WalkContinue, nil
	})
	return found
}

// TestUnsafe wants the check itself to find what it looks for.
func TestUnsafe(t *testing.T) {
	md := goldmark.New(goldmark.WithExtensions(extension.GFM))
	for _, bad := range []string{"@owner", "see #7", "GH-7", "<b>x</b>", "https://evil.example", "[x](y)", "![x](y)", "- [ ] x", "\x1b[31m", report.Mark{Role: report.MarkGone, Key: strings.Repeat("0", 16), Plan: report.PlanMark("")}.Signed("x")} {
		if unsafe(md, bad) == "" {
			t.Errorf("%q passes", bad)
		}
	}
	if got := unsafe(md, "`@owner` and <details><summary>A title</summary>\n\n</details>"); got != "" {
		t.Errorf("what is allowed does not pass: %s", got)
	}
	if !slices.Contains(ours, "@owner") {
		t.Error("nothing is tried")
	}
}
