package rules

import (
	"strings"
	"sync"
	"unicode"

	"passband.example/plandiff/plan"
)

// plainer gives a text in the characters of a set, by the plain spellings that
// people use; "" where it cannot be written so.
func plainer(text string, set plan.Charset) string {
	var plain strings.Builder
	for _, c := range text {
		spelled := plainSpelling(c, set)
		if spelled == "" {
			return ""
		}
		plain.WriteString(spelled)
	}
	return plain.String()
}

// plainSpelling gives a character as a set has it: itself, a plain spelling, or
// the same in the other case.
func plainSpelling(c rune, set plan.Charset) string {
	for _, spelled := range []string{string(c), spellings()[c], string(unicode.ToUpper(c)), strings.ToUpper(spellings()[c]), string(unicode.ToLower(c))} {
		if spelled != "" && !strings.ContainsFunc(spelled, func(r rune) bool { return !set.Holds(r) }) {
			return spelled
		}
	}
	return ""
}

// spellings gives the plain spelling of letters and signs beyond ASCII.
// Common practice, no source.
var spellings = sync.OnceValue(func() map[rune]string {
	all := map[rune]string{
		'ä': "ae", 'ö': "oe", 'ü': "ue", 'Ä': "Ae", 'Ö': "Oe", 'Ü': "Ue", 'ß': "ss",
		'æ': "ae", 'Æ': "Ae", 'œ': "oe", 'Œ': "Oe", 'ø': "o", 'Ø': "O", 'å': "a", 'Å': "A",
		'ł': "l", 'Ł': "L", 'đ': "d", 'Đ': "D", 'ð': "d", 'Ð': "D", 'þ': "th", 'Þ': "Th",
		'…': "...", '€': "EUR", '°': "deg", 'µ': "u", '×': "x",
	}
	for plain, letters := range map[string]string{
		"a": "áàâãāă", "c": "çćč", "e": "éèêëēęě", "i": "íìîïī", "n": "ñńň", "o": "óòôõőō", "s": "śšş", "u": "úùûűūů", "y": "ýÿ", "z": "źżž",
		"A": "ÁÀÂÃĀĂ", "C": "ÇĆČ", "E": "ÉÈÊËĒĘĚ", "I": "ÍÌÎÏĪ", "N": "ÑŃŇ", "O": "ÓÒÔÕŐŌ", "S": "ŚŠŞ", "U": "ÚÙÛŰŪŮ", "Y": "Ý", "Z": "ŹŻŽ",
		"-": "‐‑‒–—−", "'": "‘’", `"`: "“”„", " ": "\u00A0\u2009\u202F",
	} {
		for _, letter := range letters {
			all[letter] = plain
		}
	}
	return all
})
