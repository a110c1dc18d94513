package report

import (
	"fmt"
	"slices"
)

// A Page is a report for people, as a list of blocks from top to bottom.
type Page struct {
	blocks []block
}

// A Style says what a piece of text is, so that each form can show it its way.
type Style uint8

// The styles.
const (
	Plain Style = iota
	Strong
	Code // a key, a value or a name from a plan or for a command line
	Faint
	At // a place in a file
	Old
	New
	Blocks
	Warns
	Notes
	Good
)

// A Span is a piece of text in one style.
type Span struct {
	Text  string
	Style Style
}

// A Line is spans that follow each other.
type Line []Span

// and gives the line with more behind it.
func (l Line) and(more ...Span) Line { return append(slices.Clip(l), more...) }

func text(format string, args ...any) Span { return Span{fmt.Sprintf(format, args...), Plain} }
func code(s string) Span                   { return Span{s, Code} }
func faint(format string, args ...any) Span {
	return Span{fmt.Sprintf(format, args...), Faint}
}

// at puts a place in brackets behind what stands there.
func at(place string) Line { return Line{faint(" ("), Span{place, At}, faint(")")} }

// wasAt is at for what is gone.
func wasAt(place string) Line { return Line{faint(" (was at "), Span{place, At}, faint(")")} }

func strong(s string) Span { return Span{s, Strong} }

type block interface{ isBlock() }

// heading begins a part of the page; level 1 is its title.
type heading struct {
	level int
	line  Line
}

// paragraph is running text.
type paragraph struct{ line Line }

// item is a point of a list; depth 0 is the outermost. Text shows the mark of a
// point only where it is asked for: what is listed mostly shows it by itself.
type item struct {
	depth  int
	marked bool
	line   Line
}

// detail is a line that belongs to the item before it, with a word of what it is.
type detail struct {
	depth int
	label string
	line  Line
}

// table has a head and rows; numbers tells which columns hold numbers.
type table struct {
	head    []string
	numbers []bool
	rows    [][]Span
}

// fence is text that must stay as it is.
type fence struct {
	language string
	text     string
}

func (heading) isBlock()   {}
func (paragraph) isBlock() {}
func (item) isBlock()      {}
func (detail) isBlock()    {}
func (table) isBlock()     {}
func (fence) isBlock()     {}

func (p *Page) heading(level int, spans ...Span) {
	p.blocks = append(p.blocks, heading{level, spans})
}
func (p *Page) paragraph(spans ...Span) { p.blocks = append(p.blocks, paragraph{spans}) }
func (p *Page) item(depth int, spans ...Span) {
	p.blocks = append(p.blocks, item{depth: depth, line: spans})
}
func (p *Page) point(spans ...Span) {
	p.blocks = append(p.blocks, item{marked: true, line: spans})
}
func (p *Page) detail(depth int, label string, spans ...Span) {
	p.blocks = append(p.blocks, detail{depth, label, spans})
}
func (p *Page) table(t table)               { p.blocks = append(p.blocks, t) }
func (p *Page) fence(language, text string) { p.blocks = append(p.blocks, fence{language, text}) }
