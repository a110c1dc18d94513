package tables

import "strings"

// A spreadsheet program takes a cell that begins with one of these for a formula and
// works it out. Source: OWASP, "CSV Injection", which names =, +, -, @, tab, carriage
// return, line feed and the wide forms of the first four.
const starters = "=+-@\t\r\n＝＋－＠"

// guarded makes a text that a spreadsheet program would work out one that it shows:
// it puts an apostrophe before it. A text that already looks guarded gets one more,
// so that unguarded gives every text back as it was. Blanks before a starter don't
// make it safe: some programs take them away first.
func guarded(text string) string {
	if isFormula(strings.TrimLeft(text, "'")) {
		return "'" + text
	}
	return text
}

// unguarded takes the apostrophe of guarded away.
func unguarded(text string) string {
	if rest, ok := strings.CutPrefix(text, "'"); ok && isFormula(strings.TrimLeft(rest, "'")) {
		return rest
	}
	return text
}

// isFormula reports whether a text begins like a formula, blanks aside.
func isFormula(text string) bool {
	text = strings.TrimLeft(text, " \u00a0")
	return text != "" && strings.IndexAny(text, starters) == 0
}
