package plan

import (
	"encoding/json"
	"slices"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/rangetable"
)

// A Spelling says which texts a field takes, for editors that complete and check while
// somebody types. The parsers decide; a test holds every spelling to its parser.
type Spelling struct {
	Name    string   // one word for it, such as frequency
	Words   []string // the words that it may be, in letters of any case
	Pattern string   // of the whole text where it is no word, for ECMA 262 and for package regexp; "" none
	Longest int      // the most characters of such a text; 0 any
	Number  *Range   // the numbers, where YAML reads its texts as one; nil none
	Truth   bool     // YAML reads some of its texts as true or false
}

// A Range is of numbers, both ends included, in decimal digits; an empty end is open.
type Range struct {
	Low, High json.Number
	Whole     bool
}

// Spelling tells which texts the field takes; those of each item, where it is a list. A
// flag has none, and neither has a field of a table in CSV.
func (f *Field) Spelling() (Spelling, bool) {
	if f.spelling == nil {
		return Spelling{}, false
	}
	return f.spelling(), true
}

// spelled says how the texts of a codec are spelled.
func (c codec[T]) spelled(spelling func() Spelling) codec[T] {
	c.spelling = spelling
	return c
}

// worded is the spelling of a closed list of words.
func worded(name string, words ...string) func() Spelling {
	return func() Spelling { return Spelling{Name: name, Words: words} }
}

// patterned is the spelling of a text with a form of its own.
func patterned(name, pattern string, longest int, number *Range) func() Spelling {
	return func() Spelling {
		return Spelling{Name: name, Pattern: "^(?:" + pattern + ")$", Longest: longest, Number: number}
	}
}

// The forms of keys and of what is made of keys.
const (
	keyForm   = `[a-z0-9](?:[a-z0-9-]{0,62}[a-z0-9])?`
	partForm  = `(?:` + keyForm + `|\*)`
	pathForm  = keyForm + `(?:/` + keyForm + `){0,2}`
	entryForm = `zone:` + keyForm + `|` + keyForm + `|` + partForm + `(?:/` + partForm + `){1,2}`
)

// wholeKeys are the keys that YAML reads as a number.
var wholeKeys = &Range{Low: "0", Whole: true}

// keySpelling is that of a reference by key, which YAML may read as a number or a truth.
func keySpelling(name, form string) func() Spelling {
	return func() Spelling {
		s := patterned(name, form, 0, wholeKeys)()
		s.Truth = true
		return s
	}
}

// shown is the spelling of what parseText and parseNote read: not blank, and without what
// nobody sees.
func shown(name string, longest int, lines bool) func() Spelling {
	return func() Spelling {
		refused, blank := hiddenClass(lines), blankClass(lines)
		return Spelling{
			Name: name, Pattern: "^[" + blank + "]*[^" + refused + blank + "][^" + refused + "]*$", Longest: longest,
			Number: &Range{}, Truth: true,
		}
	}
}

// hiddenClass lists what visible refuses, as ranges for a class of characters.
func hiddenClass(lines bool) string {
	return classOf(func(r rune) bool {
		return r == unicode.ReplacementChar || (unicode.IsControl(r) && !(lines && r == '\n')) || unicode.Is(unicode.Bidi_Control, r) || unseen(r)
	})
}

// blankClass lists what counts as blank and is not refused.
func blankClass(lines bool) string {
	return classOf(func(r rune) bool {
		return unicode.IsSpace(r) && !unseen(r) && (!unicode.IsControl(r) || lines && r == '\n')
	})
}

// classOf gives the ranges of the characters that are meant, written as themselves but
// for those below a blank, which JSON and JavaScript escape differently.
func classOf(meant func(rune) bool) string {
	var b strings.Builder
	write := func(r rune) {
		if r < ' ' || r == 0x7f {
			b.WriteString(`\x` + string("0123456789abcdef"[r>>4]) + string("0123456789abcdef"[r&15]))
			return
		}
		b.WriteRune(r)
	}
	for in := candidates(meant); len(in) > 0; {
		n := 1
		for n < len(in) && in[n] == in[0]+rune(n) {
			n++
		}
		write(in[0])
		if n > 1 {
			b.WriteByte('-')
			write(in[n-1])
		}
		in = in[n:]
	}
	return b.String()
}

// candidates gives the characters that are meant, sorted, of those that could be. To ask of every
// character took a second for a schema.
func candidates(meant func(rune) bool) []rune {
	in := []rune{unicode.ReplacementChar}
	for _, table := range []*unicode.RangeTable{unicode.Cc, unicode.Cf, unicode.Zl, unicode.Zp, unicode.Bidi_Control, unicode.White_Space} {
		rangetable.Visit(table, func(r rune) { in = append(in, r) })
	}
	slices.Sort(in)
	return slices.DeleteFunc(slices.Compact(in), func(r rune) bool { return !meant(r) })
}
