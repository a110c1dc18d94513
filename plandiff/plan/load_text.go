package plan

import (
	"bytes"
	"fmt"
	"unicode/utf8"
)

// byteOrderMark is what some editors put in front of UTF-8 text.
const byteOrderMark = "\uFEFF"

// clean gives the text of a file without its byte order mark, or false after
// noting why it is not text that passband takes. It counts what could be a
// value, because a reader of YAML or CSV needs far more memory for a value than
// the two bytes that it may take in a file.
func (l *loader) clean(data []byte) ([]byte, bool) {
	data = bytes.TrimPrefix(data, []byte(byteOrderMark))
	if bytes.HasPrefix(data, []byte{0xFF, 0xFE}) || bytes.HasPrefix(data, []byte{0xFE, 0xFF}) {
		l.unreadable(1, 1, "the text is UTF-16", "save the file as UTF-8")
		return nil, false
	}
	line, start := 1, 0
	for i := 0; i < len(data); {
		c := data[i]
		if usual[c] {
			i++
			continue
		}
		switch {
		case c == '\n':
			line, start = line+1, i+1
			l.values++
		case c == ',' || c == ':':
			l.values++
		default:
			size, what, fix := strange(data[i:])
			if what != "" {
				l.unreadable(line, 1+utf8.RuneCount(data[start:i]), what, fix)
				return nil, false
			}
			i += size
			continue
		}
		i++
	}
	if l.values > MaxValues {
		l.tooManyValues(l.file)
		return nil, false
	}
	return data, true
}

// usual holds the bytes that stand in a text and mean nothing to clean.
var usual = func() (is [256]bool) {
	for c := byte(' '); c < 0x7F; c++ {
		is[c] = c != ',' && c != ':'
	}
	is['\t'] = true
	return is
}()

// tooManyValues refuses a file with which the plan has more values than passband reads.
func (l *loader) tooManyValues(name string) {
	l.refuse(name, fmt.Sprintf("the plan has more than %d values", MaxValues), "this file and those after it are not read, so that no plan can exhaust the computer", "split the plan in two")
	l.stop = true
}

// strange looks at a character that is not plain ASCII: its size, and what is
// wrong with it where it has no place in a text file.
func strange(data []byte) (size int, what, fix string) {
	r, size := utf8.DecodeRune(data)
	switch {
	case r == utf8.RuneError && size == 1:
		return size, fmt.Sprintf("the byte %#02x is not UTF-8 text", data[0]), "save the file as UTF-8"
	case r == '\r' && len(data) > 1 && data[1] == '\n':
	case r == '\r':
		return size, "a carriage return stands alone", "save the file with ordinary line ends"
	case r == '\u0085' || r == '\u2028' || r == '\u2029':
		return size, fmt.Sprintf("there is an invisible line separator (%U)", r), "put an ordinary line end there"
	case r < ' ' || 0x7F <= r && r < 0xA0 || r == 0xFEFF || r == 0xFFFE || r == 0xFFFF:
		return size, fmt.Sprintf("there is a control character (%U)", r), "take it out; if the file is not text, take the file out"
	}
	return size, "", ""
}

func (l *loader) unreadable(line, col int, what, fix string) {
	l.problem(BadSyntax, Place{l.file, int32(line), int32(col)}, what, "nothing in this file can be used until it is mended", fix)
}
