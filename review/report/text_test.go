package report

import (
	"bytes"
	"regexp"
	"strings"
	"testing"

	"github.com/rivo/uniseg"
	"pgregory.net/rapid"
)

// TestTextLosesNothing wraps any line to any width: no word is lost, split or put
// elsewhere, and no line is wider than the terminal unless it is one word.
func TestTextLosesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		line := hostileLine().Draw(t, "line")
		width := rapid.IntRange(narrowest, 120).Draw(t, "width")
		p := new(Page)
		p.item(1, line...)
		out := render(t, p, Terminal{Width: width})
		want := ""
		for _, s := range line {
			want += Visible(s.Text)
		}
		if got := strings.Join(strings.Fields(out), ""); got != strings.Join(strings.Fields(want), "") {
			t.Fatalf("%q became %q", want, out)
		}
		for written := range strings.Lines(out) {
			written = strings.TrimSuffix(written, "\n")
			if uniseg.StringWidth(written) > width && strings.Contains(strings.TrimSpace(written), " ") {
				t.Fatalf("wider than %d: %q", width, written)
			}
		}
	})
}

// TestTextTables wants every cell of a table to be shown at every width.
func TestTextTables(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		width := rapid.IntRange(narrowest, 120).Draw(t, "width")
		cells := rapid.SliceOfN(hostileText(), 3, 3).Draw(t, "cells")
		p := new(Page)
		p.table(table{head: []string{"first", "second", "third"}, numbers: []bool{false, true, false}, rows: [][]Span{
			{code(cells[0]), text("%s", cells[1]), {cells[2], Blocks}},
		}})
		out := render(t, p, Terminal{Width: width})
		for _, cell := range cells {
			for word := range strings.FieldsSeq(Visible(cell)) {
				if !strings.Contains(out, word) {
					t.Fatalf("%q of cell %q is not in %q", word, cell, out)
				}
			}
		}
		for line := range strings.Lines(out) {
			line = strings.TrimSuffix(line, "\n")
			if uniseg.StringWidth(line) > width && strings.Contains(strings.TrimSpace(line), " ") {
				t.Fatalf("wider than %d: %q", width, line)
			}
			if strings.HasSuffix(line, " ") {
				t.Fatalf("spaces at the end of %q", line)
			}
		}
	})
}

// TestTextObeysNobody wants no character in the output that a terminal obeys, but
// line ends and, where colors are on, our own.
func TestTextObeysNobody(t *testing.T) {
	ours := regexp.MustCompile(`\x1b\[(1|2|31|32|36|1;31|1;32|1;33|1;34)m([^\x1b]*)\x1b\[0m`)
	rapid.Check(t, func(t *rapid.T) {
		p := hostilePage().Draw(t, "page")
		plain := render(t, p, Terminal{})
		if hiddenIn(plain, "") {
			t.Fatalf("it holds what does not show: %q", plain)
		}
		colored := render(t, p, Terminal{Color: true})
		if got := ours.ReplaceAllString(colored, "$2"); got != plain {
			t.Fatalf("with its colors taken out it is\n%q, want\n%q", got, plain)
		}
	})
}

func render(t rapid.TB, p *Page, terminal Terminal) string {
	t.Helper()
	var out bytes.Buffer
	if err := Text(&out, p, terminal); err != nil {
		t.Fatal(err)
	}
	return out.String()
}

// TestTextTableFits shows a table that fits, one whose widest column is wrapped,
// and one for which no column would be left.
func TestTextTableFits(t *testing.T) {
	p := new(Page)
	p.table(table{head: []string{"setting", "value", "n"}, numbers: []bool{false, false, true}, rows: [][]Span{
		{code("slot 1"), text("nation statewide tri-county emergency"), text("12")},
		{code("label"), text("Ridge"), text("")},
	}})
	for width, want := range map[int]string{
		80: "setting  value                                   n\nslot 1   nation statewide tri-county emergency  12\nlabel    Ridge\n",
		40: "setting  value                         n\nslot 1   nation statewide tri-county  12\n         emergency\nlabel    Ridge\n",
		// 30 columns leave 17 for the value.
		30: "setting  value               n\nslot 1   nation statewide   12\n         tri-county\n         emergency\nlabel    Ridge\n",
	} {
		if got := render(t, p, Terminal{Width: width}); got != want {
			t.Errorf("at %d columns:\n%s\nwant\n%s", width, got, want)
		}
	}
	narrow := new(Page)
	narrow.table(table{head: []string{"memory", "used", "most in"}, numbers: []bool{false, true, false}, rows: [][]Span{
		{text("groups per receive list"), text("7"), code("channel ridge/1/nation")},
	}})
	if got, want := render(t, narrow, Terminal{Width: 30}), "groups per receive list: used\n  7, most in channel\n  ridge/1/nation\n"; got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

// TestTextLayout shows what an evening's reader sees: air around headings and
// around points with details, none within a list.
func TestTextLayout(t *testing.T) {
	p := new(Page)
	p.heading(1, text("Title"))
	p.item(0, text("a short point"))
	p.item(0, text("another"))
	p.item(0, text("a point with details"))
	p.detail(0, "why", text("because it is so"))
	p.detail(1, "", text("deeper"))
	p.item(0, text("one more"))
	p.paragraph(text("A paragraph that is too long for one line of thirty."))
	p.table(table{head: []string{"radio", "used"}, numbers: []bool{false, true}, rows: [][]Span{{text("漢字"), text("7")}, {text("pocket"), text("120")}}})
	p.heading(2, text("Example"))
	p.fence("yaml", "a:  1\nb: 2\n")
	const want = `Title

a short point
another
a point with details
  why: because it is so
    deeper

one more

A paragraph that is too long
for one line of thirty.

radio   used
漢字       7
pocket   120

Example

    a:  1
    b: 2
`
	if got := render(t, p, Terminal{Width: 30}); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}
