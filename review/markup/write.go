package markup

import (
	"bufio"
	"errors"
	"fmt"
	"html"
	"io"
	"strings"
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
const void = " area base br col embed hr img input link meta source track wbr "

func (p *printer) element(n *Node) {
	p.WriteByte('<')
	p.WriteString(n.name)
	p.attributes(n.inside)
	p.WriteByte('>')
	if strings.Contains(void, " "+n.name+" ") {
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
		case n.kind == group:
			p.attributes(n.inside)
		case n.kind == attribute:
			if mayAct(n.name, n.text) {
				p.fail(fmt.Errorf("the attribute %s=%q would run, fetch or follow something", n.name, n.text))
			}
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

// acting are the attributes by which a page runs, fetches or sends something (WHATWG, HTML, section
// "Attributes"; SVG 2, section 16.1), beside those that begin with "on".
const acting = " action archive background cite classid codebase data formaction imagesrcset longdesc manifest ping poster profile src srcdoc srcset style usemap xlink:href xml:base "

// mayAct reports whether a browser would do something by an attribute. A link within the page is
// no such thing.
func mayAct(name, value string) bool {
	name = strings.ToLower(name)
	if name == "href" {
		return !strings.HasPrefix(value, "#")
	}
	return strings.HasPrefix(name, "on") || strings.Contains(acting, " "+name+" ")
}
