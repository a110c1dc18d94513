package tables

import (
	"bytes"
	"fmt"
	"unicode/utf8"

	"golang.org/x/text/encoding"
	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"
)

// An Encoding is how the characters of a file are bytes.
type Encoding string

// The encodings. Latin1 is Windows-1252, which has all printable characters of ISO
// 8859-1 and is what a file that calls itself either mostly holds (WHATWG Encoding
// Standard, "names and labels").
const (
	UTF8    Encoding = "utf-8"
	UTF8BOM Encoding = "utf-8-bom"
	UTF16LE Encoding = "utf-16le"
	UTF16BE Encoding = "utf-16be"
	Latin1  Encoding = "latin-1"
)

var encodings = []string{string(UTF8), string(UTF8BOM), string(UTF16LE), string(UTF16BE), string(Latin1)}

// The marks that a text may begin with (The Unicode Standard, section 23.8).
const (
	mark8    = "\xEF\xBB\xBF"
	mark16LE = "\xFF\xFE"
	mark16BE = "\xFE\xFF"
)

// holds reports whether the encoding has the character.
func (e Encoding) holds(r rune) bool {
	if e != Latin1 {
		return true
	}
	_, ok := charmap.Windows1252.EncodeRune(r)
	return ok
}

func (e Encoding) form() encoding.Encoding {
	switch e {
	case UTF16LE:
		return unicode.UTF16(unicode.LittleEndian, unicode.UseBOM)
	case UTF16BE:
		return unicode.UTF16(unicode.BigEndian, unicode.UseBOM)
	case Latin1:
		return charmap.Windows1252
	case UTF8BOM:
		return unicode.UTF8BOM
	}
	return encoding.Nop
}

// encode gives the bytes of a text, whose characters the encoding has.
func (e Encoding) encode(text []byte) ([]byte, error) { return e.form().NewEncoder().Bytes(text) }

// detect tells which encoding the bytes are in. A mark at their beginning is sure;
// stated is what the layout says, or "".
func detect(data []byte, stated Encoding) Encoding {
	switch {
	case bytes.HasPrefix(data, []byte(mark8)):
		return UTF8BOM
	case bytes.HasPrefix(data, []byte(mark16LE)):
		return UTF16LE
	case bytes.HasPrefix(data, []byte(mark16BE)):
		return UTF16BE
	}
	if e := halves(data); e != "" {
		return e
	}
	switch {
	case stated == Latin1:
		return Latin1
	case utf8.Valid(data):
		return UTF8
	}
	return Latin1
}

// halves tells UTF-16 without a mark by the zero bytes of its ASCII characters, the
// separators and digits, which are on one side alone.
func halves(data []byte) Encoding {
	sample := data[:min(len(data), 4096)&^1]
	var even, odd int
	for i, b := range sample {
		if b == 0 {
			if i%2 == 0 {
				even++
			} else {
				odd++
			}
		}
	}
	switch {
	case odd > len(sample)/4 && even == 0:
		return UTF16LE
	case even > len(sample)/4 && odd == 0:
		return UTF16BE
	}
	return ""
}

// decode gives the text of a file and the encoding it was found to be in.
func decode(data []byte, stated Encoding) ([]byte, Encoding, error) {
	e := detect(data, stated)
	var text []byte
	var err error
	switch e {
	case UTF8, UTF8BOM:
		text = bytes.TrimPrefix(data, []byte(mark8))
	case UTF16LE, UTF16BE:
		endian := unicode.LittleEndian
		if e == UTF16BE {
			endian = unicode.BigEndian
		}
		text, err = unicode.UTF16(endian, unicode.IgnoreBOM).NewDecoder().Bytes(data)
		text = bytes.TrimPrefix(text, []byte(mark8))
	default:
		text, err = e.form().NewDecoder().Bytes(data)
	}
	if err == nil && !utf8.Valid(text) {
		err = fmt.Errorf("it is not whole text in %s", e)
	}
	return text, e, err
}
