package rewrite_test

import (
	"errors"
	"strings"
	"testing"

	"passband.example/plandiff"
	"passband.example/plandiff/plan"
	"passband.example/plandiff/rewrite"
)

// cases are edits written by hand: the text, what it should say, and the text that
// a careful person would make of it.
var cases = []struct{ name, why, text, say, want string }{
	{
		"retune keeps the split", "the input follows from it",
		"repeaters:\n  ridge: {output: 444.325, split: +5} # on the hill\n",
		"repeaters: {ridge: {output: 444.35, input: 449.35}}",
		"repeaters:\n  ridge: {output: 444.350, split: +5} # on the hill\n",
	},
	{
		"input stays, output moves", "then the split is another one",
		"repeaters:\n  ridge:\n    output: 146.940   # note\n    split: -0.6\n",
		"repeaters: {ridge: {output: 146.93, input: 146.34}}",
		"repeaters:\n  ridge:\n    output: 146.930   # note\n    split: -0.59\n",
	},
	{
		"quotes stay", "they are the author's",
		"groups:\n  a: {id: 1, label: 'State'}\n  b: {id: 2, label: \"Local\"}\n",
		"groups: {a: {id: 1, label: It's}, b: {id: 2, label: 'Say \"x\"'}}",
		"groups:\n  a: {id: 1, label: 'It''s'}\n  b: {id: 2, label: \"Say \\\"x\\\"\"}\n",
	},
	{
		"a comment goes with its item", "it is about the item",
		"zones:\n  v:\n    channels:\n      # the hill\n      - ridge/fm # high\n      - knob/fm\n\n      - mill/fm  # low\n",
		"zones: {v: {channels: [knob/fm, mill/fm, ridge/fm, new/fm]}}",
		"zones:\n  v:\n    channels:\n      - knob/fm\n      - mill/fm  # low\n\n      # the hill\n      - ridge/fm # high\n      - new/fm\n",
	},
	{
		"items between brackets", "on several lines, with comments",
		"zones:\n  v:\n    channels: [a/fm, # first\n               b/fm, c/fm, # two\n               d/fm]\n",
		"zones: {v: {channels: [b/fm, d/fm, a/fm]}}",
		"zones:\n  v:\n    channels: [b/fm, # two\n               d/fm, a/fm # first\n               ]\n",
	},
	{
		"a new field stands where the model has it", "and in the style of its record",
		"repeaters:\n  ridge:\n    label: Ridge\n    dmr:\n      slot1: [a]  # all\n    note: x\nchannels:\n  c: {simplex: 146.52, fm: {}}\n",
		"repeaters: {ridge: {label: Ridge, output: 444.325, dmr: {color_code: 4, slot1: [a]}, note: x}}\nchannels: {c: {label: Call, simplex: 146.52, fm: {tone: 100}}}",
		"repeaters:\n  ridge:\n    label: Ridge\n    output: 444.325\n    dmr:\n      color_code: 4\n      slot1: [a]  # all\n    note: x\nchannels:\n  c: {label: Call, simplex: 146.52, fm: {tone: 100.0}}\n",
	},
	{
		"a new record looks like its neighbor", "columns too",
		"channels:\n  # calling\n  call-2m:   {label: Call 2m, simplex: 146.52, fm: {}}\n  call-70cm: {label: Call 70, simplex: 446, fm: {}}\n\n# zones\nzones: {}\n",
		"channels: {call-2m: {label: Call 2m, simplex: 146.52, fm: {}}, call-70cm: {label: Call 70, simplex: 446, fm: {}}, wx: {label: WX, receive: 162.55, fm: {}}}",
		"channels:\n  # calling\n  call-2m:   {label: Call 2m, simplex: 146.52, fm: {}}\n  call-70cm: {label: Call 70, simplex: 446, fm: {}}\n  wx:        {label: WX, receive: 162.550, fm: {}}\n\n# zones\nzones: {}\n",
	},
	{
		"a heading stays", "it is about those that follow too",
		"groups:\n  # what the valley hears\n  a: {id: 1}\n  b: {id: 2}\n",
		"groups: {b: {id: 2}}",
		"groups:\n  # what the valley hears\n  b: {id: 2}\n",
	},
	{
		"a record takes its comment along", "it would be told of the next one",
		"groups:\n  a: {id: 1}\n\n  # the old net\n  b: {id: 2} # until 2024\n\n  c: {id: 3}\n",
		"groups: {a: {id: 1}, c: {id: 3}}",
		"groups:\n  a: {id: 1}\n\n  c: {id: 3}\n",
	},
	{
		"a new key is written everywhere", "a talk path names it too",
		"repeaters:\n  ridge: {output: 444.325, fm: {}} # hill\nzones:\n  v: {channels: [ridge/fm, \"ridge/1/*\", zone:v]}\nreview:\n  accept:\n    - {rule: co-channel, at: ridge}\n",
		"repeaters: {north: {output: 444.325, fm: {}}}\nzones: {v: {channels: [north/fm, \"north/1/*\", zone:v]}}\nreview: {accept: [{rule: co-channel, at: north}]}",
		"repeaters:\n  north: {output: 444.325, fm: {}} # hill\nzones:\n  v: {channels: [north/fm, \"north/1/*\", zone:v]}\nreview:\n  accept:\n    - {rule: co-channel, at: north}\n",
	},
	{
		"the first section of a kind", "it stands behind the others",
		"# The plan of a club.\nplan: A\n\ngroups:\n  a: {id: 1}\n",
		"plan: A\ngroups: {a: {id: 1}}\nmessages: {late: Running late}\nreview: {accept: [{rule: x, at: a}]}",
		"# The plan of a club.\nplan: A\n\ngroups:\n  a: {id: 1}\n\nmessages:\n  late: Running late\n\nreview:\n  accept:\n    - {rule: x, at: a}\n",
	},
	{
		"what is left of a block", "a side without words of its own is still a side",
		"repeaters:\n  r:\n    fm: # analog\n      tone: 100\n    dmr:\n      color_code: 1\n",
		"repeaters: {r: {fm: {}}}",
		"repeaters:\n  r:\n    fm: {} # analog\n",
	},
	{
		"a note of several lines", "it keeps its form",
		"groups:\n  a:\n    id: 1\n    note: |\n      one\n      two\n    # end\n",
		"groups: {a: {id: 1, note: \"one\\nthree\"}}",
		"groups:\n  a:\n    id: 1\n    note: |-\n      one\n      three\n    # end\n",
	},
	{
		"no final newline", "it stays away",
		"messages:\n  a: x\n  b: y",
		"messages: {a: x, b: z, c: w}",
		"messages:\n  a: x\n  b: z\n  c: w",
	},
	{
		"line ends of two signs", "they stay",
		"messages:\r\n  a: x\r\n",
		"messages: {a: x, c: w}",
		"messages:\r\n  a: x\r\n  c: w\r\n",
	},
}

func TestCases(t *testing.T) {
	seen := map[string]bool{}
	for _, test := range cases {
		if seen[test.name] || test.why == "" {
			t.Errorf("%s: a name twice, or no why", test.name)
		}
		seen[test.name] = true
		got, err := become(t, test.text, test.say)
		if err != nil {
			t.Errorf("%s (%s): %v", test.name, test.why, err)
			continue
		}
		if got != test.want {
			t.Errorf("%s (%s): got\n%s\nwant\n%s", test.name, test.why, got, test.want)
		}
	}
}

// become gives a text the changes that make it say what another one says.
func become(t *testing.T, text, say string) (string, error) {
	t.Helper()
	files := map[string][]byte{"plan.yaml": []byte(text)}
	old, err := rewrite.Load(files)
	if err != nil {
		t.Fatal(err)
	}
	now, err := rewrite.Load(map[string][]byte{"plan.yaml": []byte(say)})
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range append(old.Problems, now.Problems...) {
		t.Errorf("%v", p)
	}
	texts, err := rewrite.Apply(files, old, plandiff.Compare(plan.Expand(old), plan.Expand(now)).Changes)
	return string(texts["plan.yaml"]), err
}

// What could change another place too is for a person, who is told where.
func TestUnsafe(t *testing.T) {
	for _, test := range []struct{ name, why, text, say, at string }{
		{"an anchored value", "its alias would change too", "groups:\n  a: {id: 1, label: &l X}\n  b: {id: 2, label: *l}\n", "groups: {a: {id: 1, label: Y}, b: {id: 2, label: X}}", "plan.yaml:2:"},
		{"a repeated value", "it has no text of its own", "groups:\n  a: {id: 1, label: &l X}\n  b: {id: 2, label: *l}\n", "groups: {a: {id: 1, label: X}, b: {id: 2, label: Y}}", "plan.yaml:"},
		{"an anchored record that goes", "its alias would lead nowhere", "groups:\n  a: &g {id: 1}\n  b: *g\n", "groups: {b: {id: 1}}", "plan.yaml:2:"},
		{"a field of a repeated record", "it stands in another record", "groups:\n  a: &g {id: 1}\n  b: *g\n", "groups: {a: {id: 1}, b: {id: 2}}", "plan.yaml:"},
	} {
		got, err := become(t, test.text, test.say)
		var unsafe *rewrite.Unsafe
		if !errors.As(err, &unsafe) || !strings.HasPrefix(err.Error(), test.at) || got != "" {
			t.Errorf("%s (%s): %v, %q", test.name, test.why, err, got)
		}
	}
}

func TestTables(t *testing.T) {
	for _, test := range []struct{ name, why, text, say, want string }{
		{"one cell", "the other bytes stay", "id,callsign,name\n9990001, N0QRA ,\"Lena\"\n9990002,N0QRB,Tobin\n", "id,callsign,name\n9990001,N0QRC,\"Lena\"\n9990002,N0QRB,Tobin\n", "id,callsign,name\n9990001, N0QRC ,\"Lena\"\n9990002,N0QRB,Tobin\n"},
		{"sorted rows", "a new one stands where its ID belongs", "id,callsign\n9990001,N0QRA\n9990003,N0QRC\n", "id,callsign\n9990001,N0QRA\n9990002,N0QRB\n9990003,N0QRC\n", "id,callsign\n9990001,N0QRA\n9990002,N0QRB\n9990003,N0QRC\n"},
		{"a name where there was none", "the table gets the column", "id,callsign\r\n9990003,N0QRC\r\n9990001,N0QRA", "id,callsign,name\n9990001,N0QRA,\n9990003,N0QRC,\"Ines, C\"\n", "id,callsign,name\r\n9990003,N0QRC,\"Ines, C\"\r\n9990001,N0QRA,"},
		{"a row goes", "with its line", "callsign,id\nN0QRA,9990001\n\nN0QRB,9990002\n", "id,callsign\n9990002,N0QRB\n", "callsign,id\n\nN0QRB,9990002\n"},
	} {
		files := map[string][]byte{"plan.yaml": nil, "operators.csv": []byte(test.text)}
		old, err := rewrite.Load(files)
		if err != nil {
			t.Fatal(err)
		}
		now, err := rewrite.Load(map[string][]byte{"plan.yaml": nil, "operators.csv": []byte(test.say)})
		if err != nil {
			t.Fatal(err)
		}
		texts, err := rewrite.Apply(files, old, plandiff.Compare(plan.Expand(old), plan.Expand(now)).Changes)
		if got := string(texts["operators.csv"]); err != nil || got != test.want {
			t.Errorf("%s (%s): %v, got\n%q\nwant\n%q", test.name, test.why, err, got, test.want)
		}
	}
}
