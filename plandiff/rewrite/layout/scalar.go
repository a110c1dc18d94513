package layout

import (
	"strings"

	"passband.example/plandiff/plan/tree"
)

// scalar finds the end of a scalar that begins at pos, or behind its anchor.
func (p *parser) scalar(n *Node, y tree.Node, pos int) (int, error) {
	n.Kind, n.Value = Scalar, y.Value()
	at := p.behindAnchor(y, pos)
	end := -1
	switch p.byteAt(at) { // a plain value begins with none of these
	case '"':
		end = p.doubleQuoted(at)
	case '\'':
		end = p.singleQuoted(at)
	case '|', '>':
		end = p.blockScalar(at)
	default:
		end = p.plain(at, y.Value())
	}
	if end < 0 {
		return 0, p.odd(pos, "the end of this value is not found")
	}
	n.Text = p.text[pos:end]
	return end, nil
}

// behindAnchor skips an anchor, so that the value alone is left to be read.
func (p *parser) behindAnchor(y tree.Node, pos int) int {
	if !y.IsAnchored() {
		return pos
	}
	return p.blanks(p.word(pos))
}

// word gives the end of a run of signs that are neither blank nor part of a flow
// collection.
func (p *parser) word(pos int) int {
	for pos < len(p.text) && !strings.ContainsRune(" \t\r\n,[]{}", rune(p.text[pos])) {
		pos++
	}
	return pos
}

// blanks skips blanks within a line.
func (p *parser) blanks(pos int) int {
	for pos < len(p.text) && (p.text[pos] == ' ' || p.text[pos] == '\t') {
		pos++
	}
	return pos
}

// isText reports whether a scalar under | or > begins at an offset.
func (p *parser) isText(at int) bool { return p.byteAt(at) == '|' || p.byteAt(at) == '>' }

// byteAt gives the byte at an offset, or a line end at the end of the text.
func (p *parser) byteAt(at int) byte {
	if at < len(p.text) {
		return p.text[at]
	}
	return '\n'
}

func (p *parser) doubleQuoted(at int) int {
	for at++; at < len(p.text); at++ {
		switch p.text[at] {
		case '\\':
			at++
		case '"':
			return at + 1
		}
	}
	return -1
}

func (p *parser) singleQuoted(at int) int {
	for at++; at < len(p.text); at++ {
		if p.text[at] != '\'' {
			continue
		}
		if !strings.HasPrefix(p.text[at+1:], "'") {
			return at + 1
		}
		at++
	}
	return -1
}

// plain follows the signs of a value through the text, in which it may be broken
// over lines where the value has blanks.
func (p *parser) plain(at int, value string) int {
	for _, word := range strings.FieldsFunc(value, isBlank) {
		for at < len(p.text) && isBlank(rune(p.text[at])) {
			at++
		}
		if !strings.HasPrefix(p.text[at:], word) {
			return -1
		}
		at += len(word)
	}
	return at
}

func isBlank(r rune) bool { return r == ' ' || r == '\t' || r == '\r' || r == '\n' }

// blockScalar gives the end of a text under | or >: the lines that are indented
// as its first one is, or deeper, without the blank lines behind them.
func (p *parser) blockScalar(at int) int {
	end := p.lineEnd(at)
	indicated := strings.ContainsAny(strings.SplitN(p.text[at:end], "#", 2)[0], "123456789")
	indent := 0
	for pos := end; pos < len(p.text); {
		next := p.lineEnd(pos)
		line := strings.TrimRight(p.text[pos:next], "\r\n")
		depth := len(line) - len(strings.TrimLeft(line, " "))
		switch {
		case strings.Trim(line, " ") == "":
			pos = next
			continue
		case indicated:
			return -1
		case indent == 0 && depth > p.depthOfLine(at):
			indent = depth
		case indent == 0 || depth < indent:
			return end
		}
		pos, end = next, next
	}
	return end
}

// depthOfLine gives the indentation of the line that holds at.
func (p *parser) depthOfLine(at int) int {
	line := p.text[strings.LastIndexByte(p.text[:at], '\n')+1 : at]
	return len(line) - len(strings.TrimLeft(line, " "))
}

// lineEnd gives the offset behind the line end of the line that holds at.
func (p *parser) lineEnd(at int) int {
	if i := strings.IndexByte(p.text[at:], '\n'); i >= 0 {
		return at + i + 1
	}
	return len(p.text)
}
