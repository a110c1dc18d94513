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

// joined puts neighbours together that look the same: two code spans that touch
// would read as one run of backticks, and what forges link may begin in one text
// and end in the next. It makes the texts visible before they touch.
func joined(line Line) Line {
	var out Line
	for _, s := range line {
		s.Text = Visible(s.Text)
		switch {
		case s.Text == "":
			continue
		case isCode(s.Style):
			s.Style = Code
		case s.Style == Faint:
			s.Style = Plain
		}
		if n := len(out); n > 0 && s.Style == out[n-1].Style {
			out[n-1].Text += s.Text
			continue
		}
		out = append(out, s)
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
// reference to an issue, an address or the :name: of a picture, which forges look
// for after all else: a zero-width space within does.
func escapeMarkdown(s string) string {
	var b strings.Builder
	s = linkStart().ReplaceAllString(s, "$1"+zeroWidth+"$2")
	for i, r := range s {
		switch r {
		case '`':
			b.WriteString("&#96;")
		case '|':
			b.WriteString("&#124;")
		case '\\', '*', '_', '{', '}', '[', ']', '<', '>', '~', '&', '$':
			b.WriteString(`\` + string(r))
		case '!', '#':
			b.WriteString(`\` + string(r) + zeroWidth)
		case '@':
			b.WriteString("@" + zeroWidth)
		case ':':
			b.WriteByte(':')
			if next := s[i+1:]; next != "" && !strings.ContainsRune(" 0123456789", rune(next[0])) {
				b.WriteString(zeroWidth)
			}
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}

// linkStart finds what begins a link without a colon: www. (GitHub Flavored
// Markdown, 6.9), and GH-1 for an issue.
var linkStart = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`(?i)(www|\bgh)(\.|-\d)`)
})
