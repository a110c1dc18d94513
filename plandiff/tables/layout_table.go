package tables

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"unicode"

	"gopkg.in/yaml.v3"
	"passband.example/plandiff/plan"
)

func sorted(words []string) []string { return slices.Sorted(slices.Values(words)) }

// table reads one table of a layout.
func (p *parser) table(n *yaml.Node) {
	t := &Table{at: p.at(n)}
	var columns, each *yaml.Node
	p.keys(n, "a table", map[string]func(*yaml.Node){
		"file":    func(n *yaml.Node) { t.File = p.fileName(n) },
		"rows":    func(n *yaml.Node) { t.source = p.source(n) },
		"each":    func(n *yaml.Node) { each = n },
		"columns": func(n *yaml.Node) { columns = n },
	})
	switch {
	case n.Kind != yaml.MappingNode:
		return
	case !p.said(n, "file") || columns == nil || !p.said(n, "rows"):
		p.bad(t.at, "this table lacks its file, its rows or its columns", "write file:, rows: and columns:")
		return
	case t.source == nil:
		return
	case slices.ContainsFunc(p.layout.Tables, func(other *Table) bool { return strings.EqualFold(other.File, t.File) }):
		p.bad(t.at, fmt.Sprintf("two tables have the file %s", t.File), "give one of them another name")
	}
	if each != nil {
		t.each = p.each(each, t.source)
	}
	p.list(columns, "columns", MaxColumns, func(n *yaml.Node) { p.column(t, n) })
	if t.each != nil && !slices.ContainsFunc(t.Columns, t.spread) {
		p.bad(t.at, fmt.Sprintf("no column shows %s, which each row is to have one of", t.each.name), "give it a column, or take each: out")
	}
	p.layout.Tables = append(p.layout.Tables, t)
}

// fileName reads the name of a file that is put beside the others.
func (p *parser) fileName(n *yaml.Node) string {
	name := p.text(n, "file")
	if name == "" || len(name) > 100 || name[0] == '.' || strings.ContainsAny(name, `/\:*?"<>|`) || strings.ContainsFunc(name, func(r rune) bool { return !unicode.IsPrint(r) }) {
		p.bad(p.at(n), fmt.Sprintf("%q cannot be the name of a table's file", clip(name)), "write a name without folders, such as channels.csv")
	}
	if plan.MayMatter(name) {
		p.bad(p.at(n), fmt.Sprintf("%q is a name that a plan's own files have", clip(name)), "write another: tables in the folder of a plan would be read as part of it")
	}
	return name
}

func (p *parser) source(n *yaml.Node) *source {
	name := p.text(n, "rows")
	for _, s := range sources() {
		if s.name == name {
			return s
		}
	}
	p.bad(p.at(n), fmt.Sprintf("%q is nothing that rows can be", clip(name)), hint(name, sourceNames()))
	return nil
}

func (p *parser) each(n *yaml.Node, s *source) *value {
	name := p.text(n, "each")
	if v := s.find(name); v != nil && v.many && s.name != "channels" {
		return v
	}
	var lists []string
	for _, v := range s.values {
		if v.many && s.name != "channels" {
			lists = append(lists, v.name)
		}
	}
	if len(lists) == 0 {
		p.bad(p.at(n), s.name+" have no list to give each item of a row", "take each: out")
	} else {
		p.bad(p.at(n), fmt.Sprintf("%q is no list of %s", clip(name), s.name), hint(name, lists))
	}
	return nil
}

// column reads one column of a table.
func (p *parser) column(t *Table, n *yaml.Node) {
	c := &Column{at: p.at(n)}
	var text, format, blank, words *yaml.Node
	p.keys(n, "a column", map[string]func(*yaml.Node){
		"header": func(n *yaml.Node) { c.Header = p.written(n, "header") },
		"value":  func(n *yaml.Node) { c.value = p.value(n, t) },
		"text":   func(n *yaml.Node) { text, c.text = n, p.written(n, "text") },
		"format": func(n *yaml.Node) { format = n },
		"blank":  func(n *yaml.Node) { blank = n },
		"none":   func(n *yaml.Node) { c.none = p.written(n, "none") },
		"map":    func(n *yaml.Node) { words = n },
		"join":   func(n *yaml.Node) { c.join = p.text(n, "join") },
	})
	if n.Kind != yaml.MappingNode {
		return
	}
	switch {
	case c.Header == "":
		p.bad(c.at, "this column has no header", "write header: and the text of its first row")
	case slices.ContainsFunc(t.Columns, func(o *Column) bool { return strings.EqualFold(o.Header, c.Header) }):
		p.bad(c.at, fmt.Sprintf("two columns of %s have the header %q", t.File, c.Header), "give one of them another")
	case c.value == nil && text == nil && !p.said(n, "value"):
		p.bad(c.at, "this column shows nothing", "write value: and a value, or text: and what always stands there")
	}
	if c.value != nil {
		p.details(t, c, format, blank, words)
	} else if extra := firstOf(format, blank, words); extra != nil {
		p.bad(p.at(extra), "a column without a value has nothing to write in another form", "take this key out")
	}
	t.Columns = append(t.Columns, c)
}

func (p *parser) said(n *yaml.Node, key string) bool {
	return slices.ContainsFunc(n.Content, func(k *yaml.Node) bool { return k.Value == key })
}

func firstOf(nodes ...*yaml.Node) *yaml.Node {
	for _, n := range nodes {
		if n != nil {
			return n
		}
	}
	return nil
}

func (p *parser) value(n *yaml.Node, t *Table) *value {
	name := p.text(n, "value")
	if t.source == nil {
		return nil // told at rows
	}
	v := t.source.find(name)
	if v == nil {
		p.bad(p.at(n), fmt.Sprintf("%s have no value %q", t.source.name, clip(name)), hint(name, t.source.valueNames()))
	}
	return v
}

// written reads a text that passband will write into cells, which nothing may work out
// as a formula.
func (p *parser) written(n *yaml.Node, what string) string {
	text := p.text(n, what)
	if isFormula(text) && strings.Trim(text, "+-= ") != "" && !isNumber(text) {
		p.bad(p.at(n), fmt.Sprintf("%s: a spreadsheet program would work out %q as a formula", what, clip(text)), "let it begin with another sign")
	}
	if strings.ContainsFunc(text, unicode.IsControl) {
		p.bad(p.at(n), what+": it holds a control character", "take it out")
	}
	return text
}

// details reads how the value of a column is written.
func (p *parser) details(t *Table, c *Column, format, blank, words *yaml.Node) {
	c.normal = c.value.normal
	if format != nil {
		f, err := parseFormat(c.value.kind, p.text(format, "format"))
		if err != nil {
			what, fix := parted(err)
			p.bad(p.at(format), what, fix)
		}
		c.format = f
	}
	if words != nil {
		p.words(c, words)
	}
	if blank != nil {
		text, err := c.normal(p.text(blank, "blank"))
		if err != nil {
			what, fix := parted(err)
			p.bad(p.at(blank), "blank: "+what, fix)
		}
		c.blank = text
	}
	if c.value.many && c.join == "" && !t.spread(c) {
		fix := `write join: "|"`
		if t.source.name != "channels" {
			fix += ", or each: " + listOf(c.value.name) + " for one row an item"
		}
		p.bad(c.at, fmt.Sprintf("%s is a list, and nothing says what stands between its items", c.value.name), fix)
	}
	if !c.value.many && c.join != "" {
		p.bad(c.at, fmt.Sprintf("%s is one value and no list", c.value.name), "take join out")
	}
	if i := t.find(c.value.name); i >= 0 && t.source.name != "channels" {
		p.bad(c.at, fmt.Sprintf("%s stands in the column %q too", c.value.name, t.Columns[i].Header), "take one of them out")
	}
}

// words reads the words that a column has for values, and looks whether they can be
// read back.
func (p *parser) words(c *Column, n *yaml.Node) {
	c.words, c.means = map[string]string{}, map[string]string{}
	read := make(map[string]func(*yaml.Node))
	for i := 0; n.Kind == yaml.MappingNode && i+1 < len(n.Content); i += 2 {
		key := n.Content[i]
		text, err := c.normal(key.Value)
		if err != nil {
			what, fix := parted(err)
			p.bad(p.at(key), "map: "+what, fix)
			continue
		}
		read[key.Value] = func(n *yaml.Node) {
			word := p.written(n, "map")
			if c.words[text] = word; c.means[word] == "" {
				c.means[word] = text
			}
			if word == "" {
				p.bad(p.at(n), "map: an empty cell cannot stand for a value here", "write blank: and the value")
			}
		}
	}
	p.keys(n, "map", read)
	shared := make(map[string][]string)
	for _, text := range slices.Sorted(maps.Keys(c.words)) {
		word := c.words[text]
		shared[word] = append(shared[word], text)
	}
	for _, word := range slices.Sorted(maps.Keys(shared)) {
		if len(shared[word]) > 1 {
			p.layout.Notices = append(p.layout.Notices, fmt.Sprintf("%s: %q is written for %s, and read as %s", p.at(n), word, strings.Join(shared[word], " and "), c.means[word]))
		}
	}
	if _, ok := c.means[c.none]; ok && c.none != "" {
		p.bad(p.at(n), fmt.Sprintf("%q stands for a value and for none", clip(c.none)), "write another word for none")
	}
}
