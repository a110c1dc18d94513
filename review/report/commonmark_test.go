package report

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
)

// readInline reads a line of Markdown the way CommonMark 0.31.2 does, as far as
// our writer may use it: backslash escapes (2.4), numeric entities (2.5), code
// spans (6.1) and strong emphasis (6.2). It gives the text that a reader sees and
// the same with a zero byte for every code span and for the ends of emphasis: forges
// look for links in each text between them alone. Anything else that CommonMark or a forge
// would give a meaning is an error.
func readInline(line string) (seen, running string, err error) {
	strong := false
	for i := 0; i < len(line); {
		rest := line[i:]
		switch {
		case rest[0] == '\\' && len(rest) > 1 && isPunctuation(rest[1]):
			seen, running, i = seen+rest[1:2], running+rest[1:2], i+2
		case numeric.MatchString(rest):
			m := numeric.FindStringSubmatch(rest)
			n, _ := strconv.Atoi(m[1])
			seen, running, i = seen+string(rune(n)), running+string(rune(n)), i+len(m[0])
		case rest[0] == '`':
			code, length, ok := codeSpanAt(rest)
			if !ok {
				return "", "", fmt.Errorf("a code span has no end: %q", rest)
			}
			seen, running, i = seen+code, running+"\x00", i+length
		case strings.HasPrefix(rest, "**"):
			strong, running, i = !strong, running+"\x00", i+2
			if inner := line[i:]; strong && (inner == "" || inner[0] == ' ') || !strong && line[i-3] == ' ' {
				return "", "", fmt.Errorf("a space inside of emphasis: %q", line)
			}
		case strings.ContainsRune("\\*_[]<>~|{}$&!", rune(rest[0])):
			return "", "", fmt.Errorf("%q has a meaning at %q", rest[:1], rest)
		default:
			seen, running, i = seen+rest[:1], running+rest[:1], i+1
		}
	}
	if strong {
		err = fmt.Errorf("emphasis has no end: %q", line)
	}
	return seen, running, err
}

var numeric = regexp.MustCompile(`^&#(\d{1,7});`)

func isPunctuation(c byte) bool {
	return c >= '!' && c <= '/' || c >= ':' && c <= '@' || c >= '[' && c <= '`' || c >= '{' && c <= '~'
}

// codeSpanAt reads a code span at the beginning of s: it ends at the first run of
// backticks as long as the one that it begins with, and one space on either side
// is taken off where there is one on both and something between (6.1).
func codeSpanAt(s string) (code string, length int, ok bool) {
	run := len(s) - len(strings.TrimLeft(s, "`"))
	for at := run; at < len(s); {
		if s[at] != '`' {
			at++
			continue
		}
		next := len(s[at:]) - len(strings.TrimLeft(s[at:], "`"))
		if next == run {
			code = s[run:at]
			if len(code) > 1 && code[0] == ' ' && code[len(code)-1] == ' ' && strings.TrimSpace(code) != "" {
				code = code[1 : len(code)-1]
			}
			return code, at + run, true
		}
		at += next
	}
	return "", 0, false
}

// linked finds what a forge would make a link or a mention of, in running text:
// @name, #1, !1, GH-1, and what looks like an address (GitHub Flavored Markdown 6.9;
// the references are from memory).
var linked = regexp.MustCompile(`(?i)@[\pL\pN]|#\d|!\d|\bgh-\d|://|\bwww\.|:[a-z+-][a-z0-9_+-]*:`)

// begins finds what would begin another block than the one that we mean (CommonMark
// 4 and 5; the words behind a fence hold no backtick): a list, a quote, a heading, a rule, a fence, an indented text, HTML.
var begins = regexp.MustCompile("^( |[-+*] |\\d{1,9}[.)] |>|#{1,6}( |$)|(\\* *){3,}$|(- *){3,}$|(_ *){3,}$|=+ *$|-+ *$|```[^`]*$|~~~|<)")
