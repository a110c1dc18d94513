package report

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"
)

// sentence begins a text with a capital.
func sentence(s string) string {
	first, size := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(first)) + s[size:]
}

// count says a number of things.
func count(n int, thing string) string { return fmt.Sprintf("%d %s", n, plural(n, thing)) }

func plural(n int, thing string) string {
	stem, endsInY := strings.CutSuffix(thing, "y")
	switch {
	case n == 1:
		return thing
	case endsInY:
		return stem + "ies"
	}
	return thing + "s"
}

// keys lists keys with commas.
func keys(all []string) Line {
	lines := make([]Line, len(all))
	for i, key := range all {
		lines[i] = Line{code(key)}
	}
	return listed(lines)
}

// listed puts commas between parts of a line.
func listed(parts []Line) Line {
	var line Line
	for i, part := range parts {
		if i > 0 {
			line = append(line, text(", "))
		}
		line = append(line, part...)
	}
	return line
}

// megahertz says a frequency.
func megahertz(f fmt.Stringer) string { return f.String() + " MHz" }
