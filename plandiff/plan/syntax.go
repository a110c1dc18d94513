package plan

import (
	"bytes"
	"io"
	"strings"
	"unicode/utf8"

	"gopkg.in/yaml.v3"
)

// A fault is what keeps a text from being YAML, told for a person.
type fault struct {
	offset    int
	what, fix string
}

// explain finds the fault in a text that yaml.v3 refused with message. What
// yaml.v3 says of the line is often the line where a block began, or the last
// one of the file; so the text is read once more, byte by byte, to see how far
// the parser came, and what stands before is searched for what people get wrong.
func explain(data []byte, message string) fault {
	reached := parsed(data)
	if _, name, ok := strings.Cut(message, "unknown anchor '"); ok {
		name = strings.TrimSuffix(name, "' referenced")
		if i := bytes.Index(data, []byte("*"+name)); i >= 0 {
			return fault{i, "this begins with *, which in YAML repeats a value that was marked with &", "put quotes around a text that begins with *"}
		}
	}
	if f, ok := findFault(data, reached+ahead); ok {
		return f
	}
	f := fault{offset: lineOf(data, reached)}
	if strings.Contains(message, noColon) {
		f.offset = keyWithout(data, f.offset)
	}
	f.what, f.fix = plainWords(message)
	return f
}

// noColon is in what yaml.v3 says of a key without a colon, one line late.
const noColon = "could not find expected ':'"

// keyWithout gives the offset of the key that has no colon: the line at offset,
// or if that has one the nearest line above that says anything.
func keyWithout(data []byte, offset int) int {
	for at := offset; ; {
		line, _, _ := bytes.Cut(data[at:], []byte("\n"))
		text, _, _ := bytes.Cut(line, []byte(" #"))
		text = bytes.TrimSpace(text)
		if len(text) > 0 && text[0] != '#' && !bytes.Contains(text, []byte(": ")) && !bytes.HasSuffix(text, []byte(":")) {
			return at
		}
		above := bytes.LastIndexByte(data[:at], '\n')
		if above <= 0 || at != offset && len(text) > 0 && text[0] != '#' {
			return offset
		}
		at = lineOf(data, above)
	}
}

// ahead is how many bytes the scanner of yaml.v3 looks ahead.
const ahead = 4

// parsed tells the offset of the last sign that yaml.v3 looked at before it gave up.
func parsed(data []byte) int {
	r := &byteReader{data: data}
	func() {
		defer func() { _ = recover() }() // the caller knows already that the text is refused
		dec := yaml.NewDecoder(r)
		for dec.Decode(new(yaml.Node)) == nil {
		}
	}()
	i := max(r.read-ahead, 0)
	for i > 0 && (i >= len(data) || isBlank(data[i])) {
		i--
	}
	return i
}

// lineOf gives the offset of the first sign in the line of an offset.
func lineOf(data []byte, offset int) int {
	i := 1 + bytes.LastIndexByte(data[:offset], '\n')
	for i < offset && isBlank(data[i]) {
		i++
	}
	return i
}

// byteReader gives one byte at a time and so shows how far its reader came.
type byteReader struct {
	data []byte
	read int
}

// Read gives the next byte.
func (r *byteReader) Read(p []byte) (int, error) {
	if r.read == len(r.data) {
		return 0, io.EOF
	}
	p[0] = r.data[r.read]
	r.read++
	return 1, nil
}

func isBlank(c byte) bool { return c == ' ' || c == '\t' || c == '\r' || c == '\n' }

// at gives the place of an offset in a file.
func (l *loader) at(data []byte, offset int) Place {
	before := data[:min(offset, len(data))]
	line := 1 + bytes.Count(before, []byte("\n"))
	col := 1 + utf8.RuneCount(before[bytes.LastIndexByte(before, '\n')+1:])
	return Place{l.file, int32(line), int32(col)}
}

// plainWords says what a message of yaml.v3 means for somebody who writes a plan.
func plainWords(message string) (what, fix string) {
	for _, m := range [...]struct{ part, what, fix string }{
		{"exceeded max depth", "values stand inside one another too deep", "a plan needs no more than five levels; look for brackets or hyphens that are not closed or too many"},
		{"mapping values are not allowed", "there is a colon where none can stand", "put quotes around a text with a colon and a space in it, and let the keys of a record begin in one column"},
		{noColon, "there is no colon behind a key", `write "key: value"`},
		{"did not find expected key", "this does not fit the lines above", "let the keys of a record begin in one column, and put quotes around a text that begins with a quote or a bracket"},
		{"did not find expected '-'", "this is no item of the list above", "begin each item with a hyphen, in one column"},
		{"block sequence entries", "a hyphen cannot begin a list here", "put the list on the lines below its key"},
		{"did not find expected ',' or", "a comma or a closing bracket is missing", "put a comma between values, and close the bracket"},
		{"did not find expected node content", "a value is missing", "look for a comma or a bracket too many"},
		{"cannot start any token", "no value can begin with this sign", "put quotes around the text"},
		{"alphabetic or numeric", "a name is missing behind & or *", "put quotes around a text that begins with & or *"},
		{"tab character", "there is a tab where spaces belong", "put spaces there"},
		{"escape", "a backslash between double quotes has a meaning of its own, and not before this sign", "write two of them, or use single quotes"},
		{"<document start>", "this stands outside of what was begun above", "let the sections of a file begin in the first column"},
		{"directive", "a line that begins with % is an instruction to a YAML reader", "take it out"},
		{"incompatible YAML", "the text says that it is another version of YAML", "take out the line that begins with %"},
		{"indentation indicator", "the number behind | or > is not one from 1 to 9", "take it out"},
	} {
		if strings.Contains(message, m.part) {
			return m.what, m.fix
		}
	}
	return "the text is not YAML here", "look at this line and the one above it for a missing quote, colon, comma or bracket"
}
