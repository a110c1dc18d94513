package layout

import (
	"fmt"
	"strings"

	"gopkg.in/yaml.v3"
)

// Quote writes a text of one or more lines so that YAML reads it back as it is:
// plain where that can be, else between double quotes. In a flow collection more
// signs need quotes.
func Quote(text string, flow bool) string {
	if isPlain(text, flow) {
		return text
	}
	return doubleQuoted(text)
}

// isPlain reports whether a text means itself without quotes. What YAML would
// take for nothing, for yes or no or for a merge key gets quotes.
func isPlain(text string, flow bool) bool {
	if isWord(text) {
		return true
	}
	if text == "" || strings.ContainsAny(text, "\n\t\\\"") || strings.TrimSpace(text) != text {
		return false
	}
	if strings.ContainsAny(text[:1], "!&*-?|>@`%#,[]{}'=<~.:") && !isNumber(text) || strings.Contains(text, ": ") || strings.Contains(text, " #") || strings.HasSuffix(text, ":") {
		return false
	}
	if flow && strings.ContainsAny(text, ",[]{}") {
		return false
	}
	var n yaml.Node
	source := "k: " + text
	if flow {
		source = "{k: " + text + ", l: m}"
	}
	if yaml.Unmarshal([]byte(source), &n) != nil || len(n.Content) != 1 || n.Content[0].Kind != yaml.MappingNode {
		return false
	}
	pairs := n.Content[0].Content
	if flow && len(pairs) != 4 || !flow && len(pairs) != 2 {
		return false
	}
	v := pairs[1]
	return v.Kind == yaml.ScalarNode && v.Value == text && v.Tag != "!!null" && v.Tag != "!!merge" && v.Tag != "!!bool"
}

// isWord reports whether a text is a key of the usual form, and too long for one of
// the words by which YAML means yes, no and nothing.
func isWord(text string) bool {
	return len(text) > len("false") && 'a' <= text[0] && text[0] <= 'z' &&
		strings.Trim(text, "abcdefghijklmnopqrstuvwxyz0123456789-") == ""
}

// isNumber lets -104.2 and .5 stand as they are.
func isNumber(text string) bool {
	digits := strings.TrimLeft(text, "+-.")
	return digits != "" && strings.Trim(digits, "0123456789.") == "" && len(text)-len(digits) <= 2
}

// doubleQuoted writes a text between double quotes, with the escapes of YAML 1.2,
// section 5.7.
func doubleQuoted(text string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range text {
		switch {
		case r == '"' || r == '\\':
			b.WriteByte('\\')
			b.WriteRune(r)
		case r == '\n':
			b.WriteString(`\n`)
		case r == '\t':
			b.WriteString(`\t`)
		case r < ' ' || r == 0x7F:
			fmt.Fprintf(&b, `\x%02x`, r)
		case 0x80 <= r && r < 0xA1 || r == 0x2028 || r == 0x2029 || r == 0xFEFF:
			fmt.Fprintf(&b, `\u%04x`, r)
		default:
			b.WriteRune(r)
		}
	}
	b.WriteByte('"')
	return b.String()
}

// singleQuoted writes a text between single quotes, where that can be.
func singleQuoted(text string) (string, bool) {
	for _, r := range text {
		if r < ' ' || 0x7F <= r && r < 0xA1 || r == 0x2028 || r == 0x2029 || r == 0xFEFF {
			return "", false
		}
	}
	return "'" + strings.ReplaceAll(text, "'", "''") + "'", true
}

// literal writes a text under |, each line behind indent, where that can be: no
// blanks at the edges of a line, no line that could be taken for something else.
func literal(text, indent, eol string) (string, bool) {
	if !strings.Contains(text, "\n") || strings.TrimSpace(text) != text || indent == "" {
		return "", false
	}
	var b strings.Builder
	b.WriteString("|-" + eol)
	for line := range strings.SplitSeq(text, "\n") {
		if strings.TrimSpace(line) != line || strings.ContainsFunc(line, func(r rune) bool {
			return r < ' ' || 0x7F <= r && r < 0xA1 || r == 0x2028 || r == 0x2029 || r == 0xFEFF
		}) {
			return "", false
		}
		if line != "" {
			b.WriteString(indent + line)
		}
		b.WriteString(eol)
	}
	return b.String(), true
}
