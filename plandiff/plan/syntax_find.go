package plan

import "strings"

// A finder walks a text that is not YAML and looks for the faults that people
// make: quotes and brackets that are not closed, and tabs. It knows just enough
// of YAML for that, and is asked only about a text that the parser has refused.
type finder struct {
	text   string
	pos    int
	open   []opened // brackets not yet closed
	indent int      // of the line
	start  bool     // a value may begin here
	last   byte     // the last sign that was no blank
}

// deepest is how many brackets a text that is refused anyway may have inside one
// another before that is taken for the fault.
const deepest = 100

type opened struct {
	offset, indent int
	sign           byte
}

// findFault gives the first fault up to the offset that the parser reached.
func findFault(data []byte, reached int) (fault, bool) {
	f := &finder{text: string(data)}
	for f.pos < len(f.text) && f.pos <= reached {
		if found, ok := f.line(); ok {
			return found, found.offset <= reached
		}
	}
	if n := len(f.open); n > 0 && f.pos >= len(f.text) {
		return f.open[n-1].fault(), true
	}
	return fault{}, false
}

func (o opened) fault() fault {
	return fault{o.offset, "the bracket " + string(o.sign) + " that opens here is not closed", "close it with " + string(closing(o.sign))}
}

func closing(sign byte) byte {
	if sign == '[' {
		return ']'
	}
	return '}'
}

// line reads one line, or more where a quote goes on.
func (f *finder) line() (fault, bool) {
	rest := f.rest()
	f.indent = len(rest) - len(strings.TrimLeft(rest, " "))
	f.start = true
	if tab := strings.IndexByte(rest, '\t'); tab >= 0 && strings.TrimSpace(rest[:tab]) == "" && strings.TrimSpace(rest) != "" {
		return fault{f.pos + tab, "there is a tab at the beginning of the line", "indent with spaces"}, true
	}
	if isConflict(rest) {
		return fault{f.pos, "this is a mark that git leaves where it could not merge", "choose one of the two versions, and take out the lines that begin with <<<<<<<, ======= and >>>>>>>"}, true
	}
	if n := len(f.open); n > 0 && f.indent <= f.open[n-1].indent && looksLikeKey(rest) {
		return f.open[n-1].fault(), true
	}
	for f.pos < len(f.text) && f.text[f.pos] != '\n' {
		if found, ok := f.sign(); ok {
			return found, true
		}
	}
	f.pos++
	return fault{}, false
}

// rest gives the rest of the line.
func (f *finder) rest() string {
	line, _, _ := strings.Cut(f.text[f.pos:], "\n")
	return line
}

func isConflict(line string) bool {
	return strings.HasPrefix(line, "<<<<<<< ") || strings.HasPrefix(line, ">>>>>>> ") || strings.TrimRight(line, "\r") == "======="
}

func looksLikeKey(line string) bool {
	key, _, ok := strings.Cut(strings.TrimSpace(line), ":")
	return ok && key != "" && !strings.ContainsAny(key, ",[]{}\"'")
}

// sign reads one sign, a quoted text, a comment or a block of text.
func (f *finder) sign() (fault, bool) {
	c := f.text[f.pos]
	switch {
	case c == '#' && (f.pos == 0 || isBlank(f.text[f.pos-1])):
		f.pos += len(f.rest())
		return fault{}, false
	case f.start && (c == '"' || c == '\''):
		return f.quoted(c)
	case f.start && (c == '|' || c == '>') && len(f.open) == 0:
		f.skipBlock()
		return fault{}, false
	case f.start && f.reserved():
		return fault{f.pos, "a text cannot begin with " + string(c) + ", which means something to YAML", "put quotes around the text"}, true
	case f.start && (c == '[' || c == '{'):
		if len(f.open) == deepest {
			what, fix := plainWords("exceeded max depth")
			return fault{f.pos, what, fix}, true
		}
		f.open = append(f.open, opened{f.pos, f.indent, c})
	case len(f.open) > 0 && (c == ']' || c == '}'):
		if last := f.open[len(f.open)-1]; c != closing(last.sign) {
			return fault{f.pos, "the bracket " + string(c) + " does not close " + string(last.sign), "brackets close in the order in which they open"}, true
		}
		f.open = f.open[:len(f.open)-1]
	}
	if c == ',' && len(f.open) > 0 && strings.IndexByte(",[{", f.last) >= 0 {
		return fault{f.pos, "no value stands before this comma", "write one, or take the comma out"}, true
	}
	if !isBlank(c) {
		f.last = c
	}
	f.start = f.begins(c)
	f.pos++
	return fault{}, false
}

// reserved reports whether no value can begin here. A * may repeat another value
// and a & may name one, but not where no name follows.
func (f *finder) reserved() bool {
	switch f.text[f.pos] {
	case '@', '`':
		return true
	case '%':
		return f.indent > 0 || len(f.open) > 0
	case '*', '&':
		next := strings.TrimLeft(f.text[f.pos+1:min(f.pos+2, len(f.text))], "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789_-")
		return next != "" || f.pos+1 == len(f.text)
	}
	return false
}

// begins reports whether a value may begin behind the sign c.
func (f *finder) begins(c byte) bool {
	if c == ' ' {
		return f.start
	}
	spaced := f.pos+1 < len(f.text) && isBlank(f.text[f.pos+1])
	switch c {
	case ':', '?':
		return spaced
	case '-':
		return spaced && f.start
	case '[', '{':
		return f.start
	case ',':
		return len(f.open) > 0
	}
	return false
}

// quoted reads a text between quotes. One that goes over several lines and has
// more text behind it was most likely not closed where it should have been.
func (f *finder) quoted(quote byte) (fault, bool) {
	begin := f.pos
	lines := 0
	for f.pos++; f.pos < len(f.text); f.pos++ {
		switch c := f.text[f.pos]; {
		case c == '\n':
			lines++
		case c == '\\' && quote == '"':
			f.pos++
		case c == quote && quote == '\'' && strings.HasPrefix(f.text[f.pos+1:], "'"):
			f.pos++
		case c == quote:
			f.pos++
			f.start, f.last = false, c
			return f.behind(begin, lines)
		}
	}
	return fault{begin, "the quote " + string(quote) + " that opens here is not closed", "close it"}, true
}

// behind looks at what follows a text between quotes.
func (f *finder) behind(begin, lines int) (fault, bool) {
	rest := strings.TrimLeft(f.rest(), " \t\r")
	fits := rest == "" || strings.ContainsRune(":#", rune(rest[0])) || len(f.open) > 0 && strings.ContainsRune(",]}", rune(rest[0]))
	switch {
	case fits && lines == 0:
		return fault{}, false
	case fits && !strings.HasPrefix(rest, ":"):
		return fault{}, false
	case lines > 0:
		return fault{begin, "the quote " + f.text[begin:begin+1] + " that opens here is not closed on its line", "close it"}, true
	}
	return fault{f.pos, "there is text behind the closing quote", `put quotes around all of it; write \" for a quote between double quotes, '' for one between single ones`}, true
}

// skipBlock skips the text under a | or >.
func (f *finder) skipBlock() {
	f.pos += len(f.rest())
	for f.pos < len(f.text) {
		line, _, _ := strings.Cut(f.text[f.pos+1:], "\n")
		if strings.TrimSpace(line) != "" && len(line)-len(strings.TrimLeft(line, " ")) <= f.indent {
			return
		}
		f.pos += 1 + len(line)
	}
}
