package markup

import (
	"bufio"
	"errors"
	"fmt"
	"html"
	"io"
)

// Write writes a document, whose root must be the element html.
func Write(w io.Writer, root *Node) error {
	p := printer{Writer: bufio.NewWriter(w)}
	p.WriteString("<!DOCTYPE html>\n")
	p.node(root)
	p.WriteByte('\n')
	if p.err != nil {
		return p.err
	}
	return p.Flush()
}

type printer struct {
	*bufio.Writer // remembers the first error of writing
	err           error
}

func (p *printer) node(n *Node) {
	if n == nil {
		return
	}
	switch n.kind {
	case group:
		p.nodes(n.inside)
	case element:
		p.element(n)
	case text:
		p.WriteString(html.EscapeString(n.text))
	case verbatim:
		p.WriteString(n.text)
	case failed:
		p.fail(errors.New(n.text))
	}
}

func (p *printer) nodes(all []*Node) {
	for _, n := range all {
		p.node(n)
	}
}

// void are the elements that have no end (WHATWG, HTML, section 13.1.2).
const void words = " area base br col embed hr img input link meta source track wbr "

func (p *printer) element(n *Node) {
	p.WriteByte('<')
	p.WriteString(n.name)
	p.attributes(n.inside)
	p.WriteByte('>')
	if void.has(n.name) {
		return
	}
	p.nodes(n.inside)
	p.WriteString("</")
	p.WriteString(n.name)
	p.WriteByte('>')
}

func (p *printer) attributes(inside []*Node) {
	for _, n := range inside {
		switch {
		case n == nil:
		case n.kind == failed:
			p.node(n)
		case n.kind == group:
			p.attributes(n.inside)
		case n.kind == attribute:
			p.WriteByte(' ')
			p.WriteString(n.name)
			p.WriteString(`="`)
			p.WriteString(html.EscapeString(n.text))
			p.WriteByte('"')
		}
	}
}

func (p *printer) fail(err error) {
	if p.err == nil {
		p.err = fmt.Errorf("the page cannot be written: %w", err)
	}
}
