package report

import (
	"bytes"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"pgregory.net/rapid"
)

// hostile are pieces of text that mean something to a terminal, to Markdown or to
// a forge.
var hostile = []string{
	"\x1b[31m", "\x1b]8;;http://x.example\x07", "\x07", "\r", "\n", "\n\n# ", "\t", "\x00", "\x9b31m", "\u202e", "\u2066", "\u200b", "\u200d", "\ufeff", "\u3164", "\u00ad",
	"\u2028", "\xff", "\xc3\x28", "`", "``", "```", "\\", "\\`", "*", "**", "_", "~~", "[x](javascript:1)", "![x](//y)", "[^1]", "<img src=x onerror=1>", "<!--", "-->",
	"</details>", "&amp;", "&#64;", "&#96;", "@admin", "@org/team", "#1", "GH-1", "gh-2", "!3", "a/b#4", "http://x.example", "HTTPS://x.example", "www.x.example", "WWW.", "a@b.example",
	"mailto:a@b.example", "|", "\\|", "| --- |", "- ", "+ ", "1. ", "12) ", "> ", "# ", "---", "===", "    ", ":boom:", ":+1:", "$x$", "{{", "}}", "::error::", "%0A", "é", "e\u0301", "漢字", "🛰", " ", "a", "Ridge",
}

func hostileText() *rapid.Generator[string] {
	return rapid.Custom(func(t *rapid.T) string {
		parts := rapid.SliceOfN(rapid.OneOf(rapid.SampledFrom(hostile), rapid.SampledFrom(hostile), rapid.StringN(0, 6, -1)), 0, 8).Draw(t, "parts")
		return strings.Join(parts, "")
	})
}

func hostileLine() *rapid.Generator[Line] {
	return rapid.Custom(func(t *rapid.T) Line {
		var line Line
		for range rapid.IntRange(0, 5).Draw(t, "spans") {
			line = append(line, Span{hostileText().Draw(t, "text"), Style(rapid.IntRange(int(Plain), int(Good)).Draw(t, "style"))})
		}
		return line
	})
}

func hostilePage() *rapid.Generator[*Page] {
	return rapid.Custom(func(t *rapid.T) *Page {
		p := new(Page)
		for range rapid.IntRange(1, 6).Draw(t, "blocks") {
			line := hostileLine().Draw(t, "line")
			switch rapid.IntRange(0, 4).Draw(t, "block") {
			case 0:
				p.heading(rapid.IntRange(1, 2).Draw(t, "level"), line...)
			case 1:
				p.paragraph(line.and(text("x"))...)
			case 2:
				p.item(0, line...)
				p.detail(0, "why", line...)
				p.detail(1, "", line...)
			case 3:
				p.table(table{head: []string{"a", "b"}, numbers: []bool{true, false}, rows: [][]Span{
					{{hostileText().Draw(t, "cell"), Code}, {hostileText().Draw(t, "cell"), Plain}},
				}})
			case 4:
				p.fence("yaml", hostileText().Draw(t, "fence"))
			}
		}
		return p
	})
}

// TestMarkdownMeansItself reads what was written as CommonMark does: a reader sees
// exactly the text that was meant, and nothing in it has become anything else.
func TestMarkdownMeansItself(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		line := hostileLine().Draw(t, "line")
		checkMarkdownLine(t, line)
	})
}

func checkMarkdownLine(t rapid.TB, line Line) {
	t.Helper()
	out := markdownLine(line)
	if strings.ContainsAny(out, "\n\r") {
		t.Fatalf("a line became two: %q", out)
	}
	if begins.MatchString(out) {
		t.Fatalf("it begins another block: %q", out)
	}
	seen, running, err := readInline(out)
	if err != nil {
		t.Fatalf("%v in %q", err, out)
	}
	if found := linked.FindString(running); found != "" {
		t.Fatalf("%q would be linked, in %q", found, out)
	}
	want := ""
	for _, s := range line {
		want += Visible(s.Text)
	}
	if squeezed(seen) != squeezed(want) {
		t.Fatalf("a reader sees %q, want %q, written %q", seen, want, out)
	}
}

// squeezed takes out what may differ: spaces, and the zero-width spaces against links.
func squeezed(s string) string {
	return strings.Join(strings.Fields(strings.ReplaceAll(s, zeroWidth, "")), "")
}

// TestMarkdownTables wants every row to keep its cells, whatever they hold. A table
// is cut at each bar that has no backslash before it (GitHub Flavored Markdown 4.10).
func TestMarkdownTables(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cells := []Span{{hostileText().Draw(t, "a"), Code}, {hostileText().Draw(t, "b"), Plain}, {hostileText().Draw(t, "c"), Blocks}}
		p := new(Page)
		p.table(table{head: []string{"a", "b", "c"}, numbers: make([]bool, 3), rows: [][]Span{cells}})
		var out bytes.Buffer
		if err := Markdown(&out, p); err != nil {
			t.Fatal(err)
		}
		lines := strings.Split(strings.TrimSuffix(out.String(), "\n"), "\n")
		if len(lines) != 3 {
			t.Fatalf("%d lines: %q", len(lines), out.String())
		}
		if bars := strings.Count(lines[2], "|"); bars != 4 {
			t.Fatalf("%d bars, want 4: %q", bars, lines[2])
		}
		for i, cell := range strings.Split(strings.Trim(lines[2], "|"), "|") {
			seen, _, err := readInline(cell)
			if want := Visible(cells[i].Text); err != nil || squeezed(seen) != squeezed(want) {
				t.Fatalf("cell %q shows %q, want %q (%v)", cell, seen, want, err)
			}
		}
	})
}

// TestMarkdownKeepsItsShape renders the same page with harmless texts: no text can
// add a line, leave its list or close a fence.
func TestMarkdownKeepsItsShape(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := hostilePage().Draw(t, "page")
		var out, tame bytes.Buffer
		if err := Markdown(&out, p); err != nil {
			t.Fatal(err)
		}
		if err := Markdown(&tame, tamed(p)); err != nil {
			t.Fatal(err)
		}
		if got, want := shape(out.String()), shape(tame.String()); got != want {
			t.Fatalf("shape %q, want %q:\n%q", got, want, out.String())
		}
		if hiddenIn(out.String(), zeroWidth) {
			t.Fatalf("it holds what does not show: %q", out.String())
		}
	})
}

// tamed is a page whose texts say nothing but their place.
func tamed(p *Page) *Page {
	tame := new(Page)
	word := Line{text("x")}
	for _, b := range p.blocks {
		switch b := b.(type) {
		case heading:
			b.line = word
			tame.blocks = append(tame.blocks, b)
		case paragraph:
			tame.paragraph(word...)
		case item:
			b.line = word
			tame.blocks = append(tame.blocks, b)
		case detail:
			b.line = word
			tame.blocks = append(tame.blocks, b)
		case table:
			b.rows = [][]Span{{text("x"), text("x")}}
			tame.table(b)
		case fence:
			tame.fence(b.language, strings.Repeat("x\n", strings.Count(strings.TrimRight(b.text, "\n"), "\n")+1))
		}
	}
	return tame
}

// shape is what each line of Markdown is, outside of fences, and how long each is.
func shape(s string) string {
	var b strings.Builder
	fenced := ""
	for line := range strings.Lines(s) {
		line = strings.TrimSuffix(line, "\n")
		marks := line[:len(line)-len(strings.TrimLeft(line, "`"))]
		switch {
		case fenced != "" && line == fenced:
			fenced = ""
			b.WriteString("F")
		case fenced != "":
			b.WriteString(".")
		case len(marks) >= 3 && line == marks+"yaml":
			fenced = marks
			b.WriteString("f")
		case line == "":
			b.WriteString("/")
		case strings.HasPrefix(line, "#"):
			b.WriteString("h")
		case strings.HasPrefix(strings.TrimLeft(line, " "), "- "):
			b.WriteString("-")
		case strings.HasPrefix(line, "| "):
			b.WriteString("|")
		default:
			b.WriteString("p")
		}
	}
	return b.String()
}

// hiddenIn reports whether a text holds a character that does not show, apart from
// line ends and those allowed.
func hiddenIn(s, allowed string) bool {
	return !utf8.ValidString(s) || strings.ContainsFunc(s, func(r rune) bool {
		return r != '\n' && !strings.ContainsRune(allowed, r) && (unicode.IsControl(r) || unicode.Is(unicode.Cf, r) || unicode.Is(unicode.Zl, r) || unicode.Is(unicode.Zp, r) || unicode.Is(unicode.Cs, r) || unicode.Is(unicode.Co, r))
	})
}

// FuzzMarkdown hands one text to every style of a line.
func FuzzMarkdown(f *testing.F) {
	for _, s := range hostile {
		f.Add(s, "a")
		f.Add(s, s)
	}
	f.Fuzz(func(t *testing.T, a, b string) {
		for style := Plain; style <= Good; style++ {
			checkMarkdownLine(t, Line{{a, style}, {b, Plain}, {a, Code}, {b, Old}, {a, New}})
		}
	})
}

// TestVisible gives the cases that a reader wants to see decided.
func TestVisible(t *testing.T) {
	for _, c := range []struct{ name, in, want, why string }{
		{"plain", "Ridge 1", "Ridge 1", "most labels are"},
		{"accents", "Höhe 漢字 🛰", "Höhe 漢字 🛰", "people write in their languages"},
		{"escape", "\x1b[31m", "<U+001B>[31m", "it would color a terminal, or worse"},
		{"C1", "\u009b31m", "<U+009B>31m", "some terminals read it as an escape (ECMA-48, 5.3)"},
		{"direction", "a\u202eb", "a<U+202E>b", "it would turn round what stands behind it (Unicode UAX 9)"},
		{"zero width", "a\u200bb", "a<U+200B>b", "two labels would look alike"},
		{"filler", "a\u3164b", "a<U+3164>b", "a letter that is drawn as nothing"},
		{"tag", "a\U000e0041b", "a<U+E0041>b", "invisible letters can carry a hidden text"},
		{"line end", "a\nb\tc", "a b c", "a text stays in its line"},
		{"return", "a\rb", "a<U+000D>b", "it would let the line be written over"},
		{"no text", "a\xffb", "a\uFFFDb", "bytes that are no UTF-8 are shown as such"},
		{"other space", "a\u00a0b", "a<U+00A0>b", "it looks like a space and is none"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := Visible(c.in); got != c.want {
				t.Errorf("Visible(%q) = %q, want %q: %s", c.in, got, c.want, c.why)
			}
		})
	}
}

// FuzzVisible wants nothing hidden, and nothing more to do a second time.
func FuzzVisible(f *testing.F) {
	for _, s := range hostile {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		got := Visible(s)
		if hiddenIn(got, "") || strings.Contains(got, "\n") {
			t.Errorf("Visible(%q) = %q", s, got)
		}
		if again := Visible(got); again != got {
			t.Errorf("Visible(%q) = %q", got, again)
		}
	})
}
