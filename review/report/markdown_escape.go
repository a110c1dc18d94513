package report

import (
	"regexp"
	"strings"
	"sync"
)

// markdownLine writes a line of running text. What it begins with makes no list,
// heading or rule of it.
func markdownLine(line Line) string {
	var b strings.Builder
	for _, s := range joined(line) {
		b.WriteString(markdownSpan(s))
	}
	return blockStart().ReplaceAllString(strings.TrimSpace(b.String()), `$1\$2`)
}

// blockStart finds what would begin a list, a rule or an underlined heading.
var blockStart = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^(\d*)([-+=.)])`) })

// joined puts neighbours that are code into one: two code spans that touch would
// read as one run of backticks.
func joined(line Line) Line {
	var out Line
	for _, s := range line {
		if n := len(out); n > 0 && isCode(s.Style) && isCode(out[n-1].Style) {
			out[n-1] = Span{out[n-1].Text + s.Text, Code}
			continue
		}
		if s.Text != "" {
			out = append(out, s)
		}
	}
	return out
}

func isCode(s Style) bool { return s == Code || s == At || s == Old || s == New }

func markdownSpan(s Span) string {
	shown := Visible(s.Text)
	words := strings.TrimSpace(shown)
	switch {
	case words == "":
		return shown
	case isCode(s.Style):
		return codeSpan(shown)
	case s.Style == Strong || s.Style == Blocks || s.Style == Warns || s.Style == Notes || s.Style == Good:
		// Spaces go outside: "** so **" is no emphasis.
		before, after, _ := strings.Cut(shown, words)
		return before + "**" + escapeMarkdown(words) + "**" + after
	}
	return escapeMarkdown(shown)
}

// codeSpan puts a text between more backticks than it holds; nothing in a code
// span is a mention, a link or HTML.
func codeSpan(s string) string {
	marks := strings.Repeat("`", longestRun(s, '`')+1)
	pad := ""
	if strings.HasPrefix(s, "`") || strings.HasSuffix(s, "`") {
		pad = " "
	}
	return marks + pad + s + pad + marks
}

func longestRun(s string, r rune) int {
	longest, run := 0, 0
	for _, c := range s {
		if c != r {
			run = 0
			continue
		}
		run++
		longest = max(longest, run)
	}
	return longest
}

// zeroWidth stops a forge from reading a name, number or address as a link.
const zeroWidth = "\u200B"

// escapeMarkdown makes running text mean nothing but itself. Backticks and bars
// become entities, since a backslash before one is read differently by readers
// that look for code or for tables first. A backslash does not stop a mention, a
// reference to an issue, or an address that forges link on their own: a
// zero-width space within does.
func escapeMarkdown(s string) string {
	var b strings.Builder
	for _, r := range linkStart().ReplaceAllString(s, "$1$3$5$7"+zeroWidth+"$2$4$6$8") {
		switch r {
		case '`':
			b.WriteString("&#96;")
		case '|':
			b.WriteString("&#124;")
		case '\\', '*', '_', '{', '}', '[', ']', '<', '>', '~', '&', '$':
			b.WriteByte('\\')
			b.WriteRune(r)
		case '!':
			b.WriteString(`\!` + zeroWidth)
		case '@', '#':
			b.WriteRune(r)
			b.WriteString(zeroWidth)
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}

// linkStart finds what forges turn into something else by themselves: addresses
// with a scheme or www (GitHub Flavored Markdown, 6.9), GH-1 for an issue, and
// the :name: of a picture.
var linkStart = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`(?i)(:)(//)|(www)(\.)|(\bgh)(-\d)|(:)([a-z+-][\w+-]*:)`)
})
