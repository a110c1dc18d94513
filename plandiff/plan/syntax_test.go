package plan_test

import (
	"regexp"
	"strings"
	"testing"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/plan/plantest"
)

// Texts that are not YAML: the problem stands on the line that somebody has to
// mend or on the one below it, and is told in words for a volunteer.
func TestSyntaxErrors(t *testing.T) {
	head := "# first\nplan: P\nrepeaters:\n  ridge:\n"              // four lines
	tail := "  knob:\n    label: \"Knob\"\n    fm: {}\nzones: {}\n" // what follows must not hide the place
	for _, test := range []struct {
		name, why, text string
		line            int32 // in text, from 1
		want            string
	}{
		{"double quote not closed", "the next quote of the file closes it", "    label: \"Ridge\n    note: x\n", 1,
			`:5:12: the quote " that opens here is not closed on its line; .*; close it`},
		{"single quote not closed", "no other single quote follows", "    label: 'Ridge\n    note: x\n", 1,
			`:5:12: the quote ' that opens here is not closed; `},
		{"quote not closed in a list", "a bracket swallows it", "    dmr: {slot1: [\"a, b]}\n", 1,
			`:5:19: the quote " that opens here is not closed`},
		{"text behind a quote", "somebody quoted one word", "    note: \"Old\" mill\n", 1,
			`:5:16: there is text behind the closing quote; .*put quotes around all of it`},
		{"quote in a quote", "an inch sign", "    note: \"2\" pipe\"\n", 1,
			`:5:14: there is text behind the closing quote`},
		{"apostrophe", "it ends a text between single quotes", "    note: 'it's here'\n", 1,
			`:5:15: there is text behind the closing quote`},
		{"tab", "most editors indent with one", "\tlabel: Ridge\n", 1,
			`:5:1: there is a tab at the beginning of the line; .*; indent with spaces`},
		{"tab after blanks", "half of the indent is right", "    label: Ridge\n  \t note: x\n", 2,
			`:6:3: there is a tab at the beginning`},
		{"missing colon", "a key without its colon", "    label: Ridge\n    note\n    power: low\n", 2,
			`:6:5: there is no colon behind a key; .*; write "key: value"`},
		{"missing colon at the top", "a section without its colon", "    label: Ridge\ngroups\n  a: {id: 1}\n", 2, `:6:1: there is no colon`},
		{"missing blank behind a colon", "label:Ridge is one word", "    label:Ridge\n    note: x\n", 1, `colon`},
		{"indented less", "one blank is missing", "    label: Ridge\n   note: x\n", 2,
			`this does not fit the lines above; .*begin in one column`},
		{"indented more", "one blank too many", "    label: Ridge\n     note: x\n", 2,
			`there is a colon where none can stand; .*put quotes around a text with a colon and a space in it, and let the keys of a record begin in one column`},
		{"colon in a text", "it looks like a key inside a value", "    note: net: Monday\n", 1,
			`:5:5: there is a colon where none can stand`},
		{"bracket not closed", "the list goes on for YAML", "    dmr:\n      slot1: [a, b\n      slot2: [c]\n", 2,
			`:6:14: the bracket \[ that opens here is not closed; .*; close it with \]`},
		{"brace not closed", "the record goes on for YAML", "    fm: {tone: 103.5\n    note: x\n", 1,
			`:5:9: the bracket \{ that opens here is not closed; .*; close it with \}`},
		{"wrong bracket", "a list closed like a record", "    dmr: {slot1: [a, b}}\n", 1,
			`:5:23: the bracket \} does not close \[`},
		{"bracket too many", "a record closed twice", "    fm: {tone: 103.5}}\n    note: x\n", 1, `this does not fit the lines above`},
		{"comma too many", "a value was taken out and its comma stayed", "    dmr: {slot1: [a, , b]}\n", 1,
			`:5:22: no value stands before this comma; .*; write one, or take the comma out`},
		{"comma missing", "two values between brackets", "    site: {lat: 40.1 lon: -104.2}\n", 1, `colon|comma`},
		{"quoted comma missing", "two values between brackets", "    dmr: {slot1: [\"a\" \"b\"]}\n", 1, `text behind|comma or a closing bracket`},
		{"hyphen and key", "a list and keys mixed", "    - a\n    b: c\n", 2, `fit the lines above|no item of the list`},
		{"star", "a pattern without quotes is an alias", "zones:\n  v: {channels: [*/fm]}\n", 2,
			`:6:18: a text cannot begin with \*, which means something to YAML; .*; put quotes around the text`},
		{"star name", "an alias of nothing", "    label: *ridge\n", 1,
			`:5:12: this begins with \*, which in YAML repeats a value that was marked with &; .*; put quotes`},
		{"at sign", "YAML keeps it for later", "    note: @home\n", 1, `:5:11: a text cannot begin with @`},
		{"backtick", "YAML keeps it for later", "    note: `x`\n", 1, ":5:11: a text cannot begin with `"},
		{"percent", "YAML keeps it for instructions", "    note: %5\n", 1, `:5:11: a text cannot begin with %`},
		{"backslash", "a path between double quotes", "    note: \"C:\\plans\"\n", 1,
			`a backslash between double quotes has a meaning of its own`},
		{"hyphen list behind a key", "the list must stand below", "    dmr: - a\n", 1, `a hyphen cannot begin a list here; .*; put the list on the lines below`},
		{"conflict marks", "git leaves them after a merge", "<<<<<<< ours\n    label: Ridge\n=======\n    label: Rigde\n>>>>>>> theirs\n", 1, `this is a mark that git leaves where it could not merge`},
		{"too deep", "nothing in a plan stands so deep", "    dmr: " + strings.Repeat("[", 20000) + "\n", 1, `values stand inside one another too deep`},
		{"directive", "an instruction to a YAML reader", "%YAML 1.3\n", 1, `instruction|line that begins with %|colon`},
	} {
		t.Run(test.name, func(t *testing.T) {
			text := head + test.text + tail
			p := plantest.Load(t, map[string][]byte{"plan.yaml": []byte(text)})
			if len(p.Problems) != 1 {
				t.Fatalf("%s: want one problem, got %v", test.why, p.Problems)
			}
			got := p.Problems[0]
			if first := 4 + test.line; got.At.Line != first && got.At.Line != first+1 {
				t.Errorf("%s: the fault is in line %d\n%v", test.why, first, got)
			}
			if got.Rule != plan.BadSyntax || !regexp.MustCompile(test.want).MatchString(got.Error()) {
				t.Errorf("%s:\ngot  %v\nwant %s", test.why, got, test.want)
			}
			if words := regexp.MustCompile(`yaml:|did not find|token|scalar|mapping|node`).FindString(got.What + got.Why + got.Fix); words != "" {
				t.Errorf("%q is no word for a volunteer: %v", words, got)
			}
		})
	}
}
