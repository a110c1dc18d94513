package rules

import (
	"testing"

	"passband.example/plandiff/plan"
)

func TestPlainer(t *testing.T) {
	for _, c := range []struct {
		name, why string
		text      string
		set       plan.Charset
		want      string
	}{
		{"within", "nothing to change", "Call 2m", "ascii", "Call 2m"},
		{"accents", "the letter without its mark", "Café Ñandú", "ascii", "Cafe Nandu"},
		{"umlauts", "German spells them with an e", "Größe Ä", "ascii", "Groesse Ae"},
		{"quotes and dashes", "what an editor puts in by itself", "“Net” – 8…", "ascii", `"Net" - 8...`},
		{"latin-1 keeps its own", "only what the set lacks is changed", "Café–Łódź", "latin-1", "Café-Lódz"},
		{"upper case", "a set without small letters", "Ridge", "A-Z0-9 /-", "RIDGE"},
		{"upper case and spelled", "both at once", "Größe", "A-Z", "GROESSE"},
		{"lower case", "a set without capitals", "Ridge", "a-z", "ridge"},
		{"no spelling", "a sign that no letters stand for", "♥", "ascii", ""},
		{"spelling outside of the set", "the dot is not there either", "…", "A-Z", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := plainer(c.text, c.set); got != c.want {
				t.Errorf("%q in %s is %q, want %q: %s", c.text, c.set, got, c.want, c.why)
			}
		})
	}
}

// TestSpellings wants every plain spelling to be ASCII, and of what is not.
func TestSpellings(t *testing.T) {
	for letter, plain := range spellings() {
		if letter < 0x80 || plain == "" {
			t.Errorf("%q is spelled %q", letter, plain)
		}
		for _, r := range plain {
			if !plan.Charset("ascii").Holds(r) {
				t.Errorf("%q is spelled %q, which is not ASCII", letter, plain)
			}
		}
	}
}
