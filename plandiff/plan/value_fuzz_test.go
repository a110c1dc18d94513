package plan

import (
	"maps"
	"slices"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"
)

// FuzzValue reads any text as each sort of value that a plan has, those in tables too: what is
// taken is written so that it is read as the same, its spelling says so, and what is refused is
// refused in a line that can be shown.
func FuzzValue(f *testing.F) {
	type reader struct {
		f     *Field
		r     Record
		name  string
		takes func(string) bool
	}
	spelled := spelledFields(f)
	var readers []reader
	for _, name := range slices.Sorted(maps.Keys(spelled)) {
		spelling, _ := spelled[name].f.Spelling()
		readers = append(readers, reader{spelled[name].f, spelled[name].r, name, takes(spelling)})
	}
	for _, s := range sections() {
		for i := range s.Fields {
			if field := &s.Fields[i]; s.file != "" && field.Form != Flag {
				readers = append(readers, reader{field, s.create(), field.Name, nil})
			}
		}
	}
	for i, text := range nearMisses {
		f.Add(uint8(i), text)
		f.Add(uint8(i+7), text)
	}
	f.Fuzz(func(t *testing.T, n uint8, text string) {
		v := readers[int(n)%len(readers)]
		err := v.f.Set(v.r, []string{text})
		if utf8.ValidString(text) && v.takes != nil && v.takes(text) != (err == nil) && !patternCannotSay(v.name, text) {
			t.Errorf("%s %q: the spelling and the parser disagree: %v", v.name, text, err)
		}
		if err != nil {
			if said := err.Error(); len(said) > 500 || strings.ContainsFunc(said, func(r rune) bool { return !unicode.IsPrint(r) && r != ' ' }) {
				t.Errorf("%s %q is refused in a way that cannot be shown: %q", v.name, text, said)
			}
			return
		}
		once := v.f.Texts(v.r, nil)
		if err := v.f.Set(v.r, once); err != nil {
			t.Fatalf("%s %q is written as %q, which is refused: %v", v.name, text, once, err)
		}
		if again := v.f.Texts(v.r, nil); !slices.Equal(once, again) {
			t.Errorf("%s %q is written as %q, and then as %q", v.name, text, once, again)
		}
	})
}
