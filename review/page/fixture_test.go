package page_test

import (
	"bytes"
	"context"
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"

	"golang.org/x/net/html"
	"passband.example/plandiff"
	"passband.example/plandiff/demo"
	"passband.example/plandiff/plan"
	"passband.example/review"
	"passband.example/review/page"
	"passband.example/review/report"
	"passband.example/review/rules"
)

// today is the day on which the tests judge.
var today = plan.Date{Year: 2026, Month: 11, Day: 25}

func expand(t testing.TB, files fs.FS) *plan.Expansion {
	t.Helper()
	p, err := plan.Load(context.Background(), files)
	if err != nil {
		t.Fatal(err)
	}
	return plan.Expand(p)
}

// standing is the document of a plan as it stands.
func standing(t testing.TB, x *plan.Expansion) *report.Document {
	t.Helper()
	v, err := review.Check(context.Background(), rules.All(), x, today)
	if err != nil {
		t.Fatal(err)
	}
	return &report.Document{New: &report.Origin{Name: "main", Hash: strings.Repeat("a", 40)}, Expansion: x, Verdict: v}
}

// changing is the document of a change.
func changing(t testing.TB, old, new *plan.Expansion) *report.Document {
	t.Helper()
	c := plandiff.Compare(old, new)
	v, err := review.Judge(context.Background(), rules.All(), c, nil, today)
	if err != nil {
		t.Fatal(err)
	}
	return &report.Document{
		Old:        &report.Origin{Name: "main", Hash: strings.Repeat("a", 40), Note: "where north left main"},
		New:        &report.Origin{Name: "north", Hash: strings.Repeat("b", 40), Subject: "A subject"},
		Comparison: c, Expansion: new, Verdict: v,
	}
}

// north is the demo's proposal.
func north(t testing.TB) *report.Document {
	t.Helper()
	var parent fs.FS
	for _, c := range demo.History() {
		if c.Branch == demo.Proposal {
			return changing(t, expand(t, parent), expand(t, demo.Branch()))
		}
		parent = c.Plan
	}
	t.Fatal("the demo has no proposal")
	return nil
}

// of makes a plan of a text.
func of(text string) fs.FS { return fstest.MapFS{"plan.yaml": {Data: []byte(text)}} }

func render(t testing.TB, d *report.Document) []byte {
	t.Helper()
	var out bytes.Buffer
	if err := page.Write(&out, d); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

func parse(t testing.TB, text []byte) *html.Node {
	t.Helper()
	root, err := html.Parse(bytes.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	return root
}

func attribute(n *html.Node, key string) (string, bool) {
	for _, a := range n.Attr {
		if a.Key == key {
			return a.Val, true
		}
	}
	return "", false
}

func elements(root *html.Node, names ...string) (found []*html.Node) {
	for n := range root.Descendants() {
		if n.Type != html.ElementNode {
			continue
		}
		for _, name := range names {
			if n.Data == name {
				found = append(found, n)
			}
		}
	}
	return found
}

func textOf(n *html.Node) string {
	var b strings.Builder
	for c := range n.Descendants() {
		if c.Type == html.TextNode {
			b.WriteString(c.Data)
		}
	}
	return strings.Join(strings.Fields(b.String()), " ")
}

func byID(root *html.Node, id string) *html.Node {
	for n := range root.Descendants() {
		if v, ok := attribute(n, "id"); ok && v == id {
			return n
		}
	}
	return nil
}
