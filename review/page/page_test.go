package page_test

import (
	"bytes"
	"crypto/sha256"
	"encoding/base64"
	"fmt"
	"slices"
	"strings"
	"testing"

	"golang.org/x/net/html"
	"passband.example/plandiff/demo"
	"passband.example/review/report"
)

// documents are pages of every shape: a plan alone, a change, and a plan with next to nothing.
func documents(t *testing.T) map[string]*report.Document {
	return map[string]*report.Document{
		"plan":   standing(t, expand(t, demo.Plan())),
		"change": north(t),
		"empty":  standing(t, expand(t, of("plan: Empty\nedition: 2026\n"))),
		"broken": standing(t, expand(t, of("plan: Broken\nedition: soon\nrepeaters: {a: {output: 14x}}\n"))),
		"none":   changing(t, expand(t, demo.Plan()), expand(t, demo.Plan())),
	}
}

// TestPolicy holds the page to its content security policy: what stands in it is what the
// policy allows, and nothing would be fetched.
func TestPolicy(t *testing.T) {
	for name, d := range documents(t) {
		t.Run(name, func(t *testing.T) {
			root := parse(t, render(t, d))
			policy := ""
			for _, meta := range elements(root, "meta") {
				if v, _ := attribute(meta, "http-equiv"); v == "Content-Security-Policy" {
					policy, _ = attribute(meta, "content")
				}
			}
			if !strings.HasPrefix(policy, "default-src 'none'; ") || strings.Contains(policy, "unsafe") || strings.Contains(policy, "*") {
				t.Errorf("the policy is %q", policy)
			}
			for _, n := range elements(root, "style", "script") {
				if kind, _ := attribute(n, "type"); kind == "application/json" {
					continue // data, which is not run
				}
				sum := sha256.Sum256([]byte(n.FirstChild.Data))
				if want := n.Data + "-src 'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"; !strings.Contains(policy, want) {
					t.Errorf("the policy lacks %s", want)
				}
			}
			for n := range root.Descendants() {
				for _, a := range n.Attr {
					switch {
					case strings.HasPrefix(a.Key, "on"), a.Key == "style", a.Key == "src", a.Key == "srcset", a.Key == "action", a.Key == "xlink:href":
						t.Errorf("<%s> has %s=%q", n.Data, a.Key, a.Val)
					case a.Key == "href" && !strings.HasPrefix(a.Val, "#"):
						t.Errorf("<%s> leads to %q", n.Data, a.Val)
					}
				}
			}
			if found := elements(root, "link", "img", "iframe", "object", "embed", "base", "use", "image"); len(found) > 0 {
				t.Errorf("the page has <%s>", found[0].Data)
			}
		})
	}
}

// TestStructure holds the page to what those need who do not see it (WCAG 2.2: 1.1.1, 1.3.1, 2.4.1,
// 2.4.6, 4.1.2).
func TestStructure(t *testing.T) {
	for name, d := range documents(t) {
		t.Run(name, func(t *testing.T) {
			root := parse(t, render(t, d))
			for _, once := range []string{"main", "nav", "header", "footer", "h1", "title"} {
				n := 0
				for _, e := range elements(root, once) {
					if e.Namespace == "" {
						n++
					}
				}
				if n != 1 {
					t.Errorf("the page has %d <%s>", n, once)
				}
			}
			level := 1
			for _, h := range elements(root, "h1", "h2", "h3", "h4", "h5") {
				next := int(h.Data[1] - '0')
				if next > level+1 {
					t.Errorf("after a heading of level %d comes %q of level %d", level, textOf(h), next)
				}
				level = next
			}
			for _, table := range elements(root, "table") {
				if len(elements(table, "caption")) != 1 || len(elements(table, "thead")) != 1 {
					t.Error("a table has no caption or no head")
				}
			}
			for _, svg := range elements(root, "svg") {
				if hidden, _ := attribute(svg, "aria-hidden"); hidden == "true" {
					continue
				}
				label, _ := attribute(svg, "aria-label")
				by, _ := attribute(svg, "aria-labelledby")
				if role, _ := attribute(svg, "role"); role != "img" || label == "" && by == "" {
					t.Error("a picture has no name")
				}
			}
			ids := make(map[string]bool)
			for n := range root.Descendants() {
				if id, ok := attribute(n, "id"); ok {
					if ids[id] {
						t.Errorf("two elements have the ID %q", id)
					}
					ids[id] = true
				}
			}
			for n := range root.Descendants() {
				by, _ := attribute(n, "aria-labelledby")
				for id := range strings.FieldsSeq(by) {
					if !ids[id] {
						t.Errorf("<%s> is named by %q, which is not there", n.Data, id)
					}
				}
				if to, ok := attribute(n, "href"); ok && !ids[strings.TrimPrefix(to, "#")] {
					t.Errorf("a link leads to %s, which is not there", to)
				}
			}
		})
	}
}

// TestUnread says on the page that part of a plan could not be read.
func TestUnread(t *testing.T) {
	root := parse(t, render(t, documents(t)["broken"]))
	if got := textOf(byID(root, "glance")); !strings.Contains(got, "2 places of the plan cannot be read, which the findings tell") {
		t.Errorf("the verdict says %q", got)
	}
}

// TestSameBytes writes a page twice: the same document gives the same bytes.
func TestSameBytes(t *testing.T) {
	if !bytes.Equal(render(t, north(t)), render(t, north(t))) {
		t.Error("two pages of one change differ")
	}
}

// TestShows finds on the page what the change is about.
func TestShows(t *testing.T) {
	root := parse(t, render(t, north(t)))
	for _, c := range []struct{ id, want, why string }{
		{"glance", "Blocked: the change brings 6 block, 7 warn", "the verdict comes first"},
		{"findings", "repeaters.yaml:318:12", "a finding has its place"},
		{"findings", "47 CFR 97.301(a)", "and its source"},
		{"changes", "reaches 6 channels", "effects are counted"},
		{"zones", "12 zones as before", "what is the same is folded"},
		{"memory", "over 106 %", "a zone of 17 channels in a radio that takes 16"},
		{"spectrum", "Cairn", "signals have names"},
		{"spectrum", "From 458.000 to 460.000 MHz members hear 0 signals and send 1 signal", "pictures have words"},
		{"map", "azimuthal equidistant", "the projection is stated"},
		{"map", "+ Heron Point", "new repeaters are marked"},
		{"channels", "154 channels", "all of them"},
	} {
		if got := textOf(byID(root, c.id)); !strings.Contains(got, c.want) {
			t.Errorf("%s lacks %q (%s)", c.id, c.want, c.why)
		}
	}
}

// TestWithoutScript looks at what is there before a script ran: the search is hidden, and
// every channel stands in the table.
func TestWithoutScript(t *testing.T) {
	root := parse(t, render(t, north(t)))
	for _, id := range []string{"search", "pager"} {
		if _, hidden := attribute(byID(root, id), "hidden"); !hidden {
			t.Errorf("#%s is shown to readers for whom it does nothing", id)
		}
	}
	rows := elements(elements(byID(root, "channel-table"), "tbody")[0], "tr")
	if len(rows) != 154 || !slices.ContainsFunc(rows, func(n *html.Node) bool {
		return cellsOf(n) == "cairn/fm|Cairn FM|147.395|147.995|FM|send 146.2|new|fm-2m|fm-handheld, mobile, pocket"
	}) {
		t.Errorf("%d rows, or cairn/fm is not as it should be", len(rows))
	}
}

// cellsOf gives the texts of a row.
func cellsOf(row *html.Node) string {
	var texts []string
	for _, c := range elements(row, "th", "td") {
		texts = append(texts, textOf(c))
	}
	return strings.Join(texts, "|")
}

// TestFolds folds many findings of one rule, and never one that blocks.
func TestFolds(t *testing.T) {
	plan := "plan: Many\nedition: 2026\nregion: US\nlicense: technician\nchannels:\n"
	for i := range 9 {
		plan += fmt.Sprintf("  off-%d: {label: Off %d, simplex: 149.52%d, fm: {}}\n  in-%d: {label: In %d, simplex: 146.5%d, fm: {}}\n", i, i, i, i, i, i)
	}
	root := parse(t, render(t, standing(t, expand(t, of(plan)))))
	text := textOf(byID(root, "findings"))
	if !strings.Contains(text, "findings more of the rule channel-in-no-zone") {
		t.Error("18 notes of one rule are not folded")
	}
	for _, fold := range elements(byID(root, "findings"), "details") {
		if strings.Contains(textOf(fold), "passband explain off-band") {
			t.Error("what blocks is folded")
		}
	}
}
