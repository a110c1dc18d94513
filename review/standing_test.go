package review_test

import (
	"slices"
	"strings"
	"testing"
)

// hills has one finding of each rule but from-2027, and the finding of again twice.
const hills = `plan: Hills
edition: 2026
groups:
  wide: {id: 99931}
repeaters:
  ridge: {output: 444.325, split: +5, fm: {tone: 103.5}, dmr: {color_code: 4, slot1: [wide]}}
  knob: {callsign: N0QRV, output: 146.94, split: -0.6, fm: {tone: 103.5}}
channels:
  call: {simplex: 146.52, fm: {tone: 67.0}}
zones:
  valley: {channels: [call, knob/fm, call, call]}
`

const hillsStill = "still there block nameless ridge\nstill there note again valley call\nstill there note again valley call\nstill there warn toneless ridge/1/wide"

// TestStanding judges changes: what they bring, what was there, and what they mend.
func TestStanding(t *testing.T) {
	for _, c := range []struct {
		name, why string
		edits     []string // old, new, old, new, ...
		want      string
	}{
		{"nothing", "all of it was there", nil, hillsStill},
		{"lines shift", "a line is no part of a finding's identity",
			[]string{"groups:", "# a\n# b\n\ngroups:", "  call:", "  # the calling channel\n  call:"}, hillsStill},
		{"keys in another order", "the order of records means nothing",
			[]string{"  ridge: {output: 444.325, split: +5, fm: {tone: 103.5}, dmr: {color_code: 4, slot1: [wide]}}\n", "",
				"fm: {tone: 103.5}}\nchannels:", "fm: {tone: 103.5}}\n  ridge: {dmr: {slot1: [wide], color_code: 4}, split: +5, fm: {tone: 103.5}, output: 444.325}\nchannels:"}, hillsStill},
		{"other spellings", "two spellings of a frequency are one",
			[]string{"444.325, split: +5", "444.325000, input: 449.325"}, hillsStill},
		{"repeater renamed", "its channels, named by its key, are the same ones",
			[]string{"  ridge:", "  summit:"},
			strings.ReplaceAll(hillsStill, "ridge", "summit")},
		{"group renamed", "the name of a talk path has the group's key in it",
			[]string{"  wide:", "  statewide:", "[wide]", "[statewide]"}, strings.ReplaceAll(hillsStill, "/wide", "/statewide")},
		{"group and repeater renamed", "both parts of the name have changed",
			[]string{"  wide:", "  statewide:", "[wide]", "[statewide]", "  ridge:", "  summit:"},
			strings.NewReplacer("ridge/1/wide", "summit/1/statewide", "ridge", "summit").Replace(hillsStill)},
		{"zone renamed", "what stands twice in it still does",
			[]string{"  valley:", "  dale:"}, strings.ReplaceAll(hillsStill, "valley", "dale")},
		{"channel renamed", "the entries that name it follow",
			[]string{"  call:", "  calling:", "[call, knob/fm, call, call]", "[calling, knob/fm, calling, calling]"},
			strings.ReplaceAll(hillsStill, "valley call", "valley calling")},
		{"renamed and retuned", "another value is another finding; what is not about it stays",
			[]string{"  ridge:", "  summit:", "444.325", "444.350"},
			"gone warn toneless ridge/1/wide\nnew warn toneless summit/1/wide\nstill there block nameless summit\nstill there note again valley call\nstill there note again valley call"},
		{"mended", "what was there and is not any more is gone",
			[]string{"ridge: {output", "ridge: {callsign: N0QRW, output"},
			"gone block nameless ridge\nstill there note again valley call\nstill there note again valley call\nstill there warn toneless ridge/1/wide"},
		{"brought", "a change is blamed for what it brings",
			[]string{"callsign: N0QRV, ", ""}, "new block nameless knob\n" + hillsStill},
		{"one more of a kind", "findings that cannot be told apart are counted off",
			[]string{"call, call]", "call, call, call]"}, "new note again valley call\n" + hillsStill},
		{"two fewer of a kind", "and so are those that are gone",
			[]string{", call, call]", "]"},
			"gone note again valley call\ngone note again valley call\nstill there block nameless ridge\nstill there warn toneless ridge/1/wide"},
		{"taken out", "with the record its findings go",
			[]string{"  ridge: {output: 444.325, split: +5, fm: {tone: 103.5}, dmr: {color_code: 4, slot1: [wide]}}\n", ""},
			"gone block nameless ridge\ngone warn toneless ridge/1/wide\nstill there note again valley call\nstill there note again valley call"},
		{"one out, another in", "a record that is not like the old one is another",
			[]string{"  ridge: {output: 444.325, split: +5, fm: {tone: 103.5}, dmr: {color_code: 4, slot1: [wide]}}", "  moor: {output: 29.62, split: -0.1, fm: {}}"},
			"gone block nameless ridge\ngone warn toneless ridge/1/wide\nnew block nameless moor\nnew warn toneless moor/fm\nstill there note again valley call\nstill there note again valley call"},
		{"a value that cannot be read", "loading's faults are findings like the others",
			[]string{"146.52,", "146.52x,"},
			"new block bad-value\n" + hillsStill},
	} {
		t.Run(c.name, func(t *testing.T) {
			v := judge(t, someRules(), hills, edited(t, hills, c.edits))
			want := strings.Split(c.want, "\n")
			slices.Sort(want)
			if got := told(v); !slices.Equal(got, want) {
				t.Errorf("%s: got\n%s\nwant\n%s", c.why, strings.Join(got, "\n"), strings.Join(want, "\n"))
			}
			if !v.Change {
				t.Error("the verdict does not say that a change was judged")
			}
		})
	}
}

// edited replaces texts, each of which must be there once.
func edited(t *testing.T, text string, edits []string) string {
	t.Helper()
	for i := 0; i < len(edits); i += 2 {
		if n := strings.Count(text, edits[i]); n != 1 {
			t.Fatalf("%q stands there %d times", edits[i], n)
		}
		text = strings.Replace(text, edits[i], edits[i+1], 1)
	}
	return text
}

// TestStandingOfProblems judges changes to plans that could not be read in part:
// what loading says is known again wherever it stands.
func TestStandingOfProblems(t *testing.T) {
	old := "-- plan.yaml --\nplan: Hills\nedition: 2026\n-- a.yaml --\nrepeaters:\n  ridge: {output: high}\n  knob: {outputs: 146.94}\n  knob: {}\n-- b.yaml --\n"
	for _, c := range []struct {
		name, why string
		new       string
		want      []string
	}{
		{"lines shift", "the other place of a key written twice is no part of its identity",
			strings.Replace(old, "repeaters:", "# one\n# two\nrepeaters:", 1),
			[]string{"still there block bad-value", "still there block duplicate-key", "still there block unknown-key"}},
		{"in another file", "the records were moved as they are",
			"-- plan.yaml --\nplan: Hills\nedition: 2026\n-- a.yaml --\n-- b.yaml --\nrepeaters:\n  ridge: {output: high}\n  knob: {outputs: 146.94}\n  knob: {}\n",
			[]string{"still there block bad-value", "still there block duplicate-key", "still there block unknown-key"}},
		{"mended in part", "what is mended is gone",
			strings.Replace(old, "high", "444.325", 1),
			[]string{"gone block bad-value", "still there block duplicate-key", "still there block unknown-key"}},
		{"another one", "a second value that cannot be read is new",
			strings.Replace(old, "output: high", "output: high, split: up", 1),
			[]string{"new block bad-value", "still there block bad-value", "still there block duplicate-key", "still there block unknown-key"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			v := judge(t, someRules(), old, c.new)
			got := slices.DeleteFunc(told(v), func(s string) bool { return strings.HasPrefix(s, "still there block nameless") })
			if !slices.Equal(got, c.want) {
				t.Errorf("%s: got %q, want %q", c.why, got, c.want)
			}
		})
	}
}

// TestSkipped judges changes of which one side could not be read at all in part:
// nothing may be called gone that was not looked for.
func TestSkipped(t *testing.T) {
	broken := "-- plan.yaml --\n" + hills + "-- x.yaml --\nchannels: {\n"
	for _, c := range []struct {
		name, why string
		old, new  string
		want      []string
		skipped   bool
	}{
		{"cannot be read now", "the rules did not run, so what stood there is neither gone nor still there",
			hills, broken, []string{"new block bad-syntax"}, true},
		{"the policy cannot be read now", "it seems to be gone, and nobody has taken it out",
			policed("2026", "nameless: off"), "review: {severity: [\n" + policed("2026", "nameless: off"), []string{"new block bad-syntax"}, true},
		{"never could", "the fault of the file stood there before, and nothing else is known",
			broken, broken, []string{"still there block bad-syntax"}, true},
		{"could not be read before", "nobody knows what was there, so the change must answer for it; the fault of the file is gone",
			broken, hills, append([]string{"gone block bad-syntax"}, strings.Split(strings.ReplaceAll(hillsStill, "still there", "new"), "\n")...), false},
	} {
		t.Run(c.name, func(t *testing.T) {
			v := judge(t, someRules(), c.old, c.new)
			if got := told(v); !slices.Equal(got, c.want) {
				t.Errorf("%s: got %q, want %q", c.why, got, c.want)
			}
			if (v.Skipped != "") != c.skipped || c.skipped && (v.Rules != 0 || !strings.Contains(v.Skipped, ".yaml")) {
				t.Errorf("%d rules ran, and it says %q", v.Rules, v.Skipped)
			}
		})
	}
}
