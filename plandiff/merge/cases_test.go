package merge_test

import (
	"slices"
	"strings"
	"testing"

	"passband.example/plandiff/merge"
)

const ridge = `# The hill.
repeaters:
  ridge:
    label: Ridge          # on the display
    output: 444.3250
    split: +5
    dmr:
      color_code: 4
      slot1: [statewide, local]

  knob: {label: Knob, output: 146.94, split: -0.6, fm: {tone: 103.5}}
groups:
  statewide: {id: 99931, label: State}
  local:     {id: 9999, label: Local}

zones:
  valley:
    channels:
      - ridge/1/*   # the hill
      - knob/fm
      - ridge/1/local
`

// edits makes a text of ridge by replacing pairs of texts.
func edits(pairs ...string) string {
	text := ridge
	for i := 0; i < len(pairs); i += 2 {
		if !strings.Contains(text, pairs[i]) {
			return "the text " + pairs[i] + " is missing"
		}
		text = strings.Replace(text, pairs[i], pairs[i+1], 1)
	}
	return text
}

// cases are what two volunteers do in one week. Where want is empty, the case is a
// conflict, and marks is what stands in the file.
var cases = []struct {
	name, why, ours, theirs, want string
	conflict, marks               string
}{
	{
		name: "different fields of one repeater", why: "they say different things",
		ours: edits("label: Ridge ", "label: High "), theirs: edits("color_code: 4", "color_code: 7 # new"),
		want: edits("label: Ridge ", "label: High ", "color_code: 4", "color_code: 7 # new"),
	},
	{
		name: "different fields of one line", why: "a merge of lines cannot",
		ours: edits("label: Knob", "label: Hill"), theirs: edits("tone: 103.5", "tone: 110.9"),
		want: edits("label: Knob", "label: Hill", "tone: 103.5", "tone: 110.9"),
	},
	{
		name: "two new records at one place", why: "both are wanted",
		ours:   edits("  local:  ", "  net:       {id: 9991}\n  local:  "),
		theirs: edits("  local:  ", "  youth:     {id: 9992} # kids\n  local:  "),
		want:   edits("  local:  ", "  net:       {id: 9991}\n  youth:     {id: 9992} # kids\n  local:  "),
	},
	{
		name: "a new order and an edit", why: "the order is one thing and the tone another",
		ours:   edits("      - ridge/1/*   # the hill\n      - knob/fm\n", "      - knob/fm\n      - ridge/1/*   # the hill\n"),
		theirs: edits("      - ridge/1/local\n", "      - ridge/1/local\n      - mill/fm\n"),
		want: edits("      - ridge/1/*   # the hill\n      - knob/fm\n", "      - knob/fm\n      - ridge/1/*   # the hill\n",
			"      - ridge/1/local\n", "      - ridge/1/local\n      - mill/fm\n"),
	},
	{
		name: "a new key and an edit", why: "the edit is of the same repeater",
		ours:   strings.ReplaceAll(ridge, "ridge", "north"),
		theirs: edits("444.3250", "444.3500", "      - knob/fm\n", "      - knob/fm\n      - ridge/1/statewide\n"),
		want:   strings.ReplaceAll(edits("444.3250", "444.3500", "      - knob/fm\n", "      - knob/fm\n      - ridge/1/statewide\n"), "ridge", "north"),
	},
	{
		name: "a stated new key, all else changed, and an edit", why: "the edit is of the same repeater, since the plan says so",
		ours:   edits("  knob: {label: Knob, output: 146.94, split: -0.6, fm: {tone: 103.5}}\n", "  peak: {was: knob, output: 53.05, split: -1, dmr: {color_code: 3}}\n", "      - knob/fm\n", ""),
		theirs: edits("label: Knob, output", "label: Knob, callsign: N0QRV, output"),
		want:   edits("  knob: {label: Knob, output: 146.94, split: -0.6, fm: {tone: 103.5}}\n", "  peak: {was: knob, callsign: N0QRV, output: 53.05, split: -1, dmr: {color_code: 3}}\n", "      - knob/fm\n", ""),
	},
	{
		name: "lists on both sides", why: "each item is its own",
		ours: edits("[statewide, local]", "[local]"), theirs: edits("[statewide, local]", "[statewide, local, statewide]"),
		want: edits("[statewide, local]", "[local, statewide]"),
	},
	{
		name: "another layout and an edit", why: "a person laid it out so",
		ours:   edits("  knob: {label: Knob, output: 146.94, split: -0.6, fm: {tone: 103.5}}\n", "  knob:\n    label: Knob\n    output: 146.940\n    split: -0.6\n    fm: {tone: 103.5}\n"),
		theirs: edits("tone: 103.5", "tone: 110.9"),
		want:   edits("  knob: {label: Knob, output: 146.94, split: -0.6, fm: {tone: 103.5}}\n", "  knob:\n    label: Knob\n    output: 146.940\n    split: -0.6\n    fm: {tone: 110.9}\n"),
	},
	{
		name: "a comment on each side", why: "comments are somebody's words",
		ours: edits("# The hill.\n", "# The hill.\n# Coordinated.\n"), theirs: edits("+5\n", "+5 # upwards\n"),
		want: edits("# The hill.\n", "# The hill.\n# Coordinated.\n", "+5\n", "+5 # upwards\n"),
	},
	{
		name: "one field, two values", why: "nobody but the coordinator knows which",
		ours: edits("444.3250", "444.3500"), theirs: edits("444.3250", "444.3750 # letter"),
		conflict: "repeater ridge, output and input: ours output 444.350, input 449.350 (plan.yaml:5:13); theirs output 444.375, input 449.375 (plan.yaml:5:13)",
		marks:    "<<<<<<< ours\n    output: 444.3500\n=======\n    output: 444.3750 # letter\n>>>>>>> theirs\n",
	},
	{
		name: "one field of a line, two values", why: "the rest of the line still merges",
		ours: edits("label: Knob", "label: Hill", "103.5", "100.0"), theirs: edits("103.5", "110.9"),
		conflict: "repeater knob, fm.tone.send: ours says 100.0 (plan.yaml:11:63); theirs says 110.9 (plan.yaml:11:63)",
		marks:    "<<<<<<< ours\n  knob: {label: Hill, output: 146.94, split: -0.6, fm: {tone: 100.0}}\n=======\n  knob: {label: Hill, output: 146.94, split: -0.6, fm: {tone: 110.9}}\n>>>>>>> theirs\n",
	},
	{
		name: "the split and the output", why: "no frequency may come out that nobody wrote",
		ours: edits("444.3250", "444.3500"), theirs: edits("split: +5", "split: -5"),
		conflict: "repeater ridge, output and input: ours output 444.350, input 449.350 (plan.yaml:5:13); theirs output 444.325, input 439.325 (plan.yaml:5:13)",
		marks:    "<<<<<<< ours\n    output: 444.3500\n    split: +5\n=======\n    output: 444.325\n    split: -5\n>>>>>>> theirs\n",
	},
	{
		name: "removed and edited", why: "was the edit made because it is still on the air?",
		ours:     edits("  knob: {label: Knob, output: 146.94, split: -0.6, fm: {tone: 103.5}}\n", "", "      - knob/fm\n", ""),
		theirs:   edits("103.5", "110.9"),
		conflict: "repeater knob: ours removes it; theirs changes its fm.tone.send (plan.yaml:11:3)",
		marks:    "<<<<<<< ours\n=======\n  knob: {label: Knob, output: 146.94, split: -0.6, fm: {tone: 110.9}}\n\n>>>>>>> theirs\n",
	},
	{
		name: "moves that no order serves", why: "each wants another first",
		ours:     edits("      - ridge/1/*   # the hill\n      - knob/fm\n      - ridge/1/local\n", "      - knob/fm\n      - ridge/1/*   # the hill\n      - ridge/1/local\n"),
		theirs:   edits("      - ridge/1/*   # the hill\n      - knob/fm\n      - ridge/1/local\n", "      - ridge/1/*   # the hill\n      - ridge/1/local\n      - knob/fm\n"),
		conflict: "zone valley, channels: ours says knob/fm, ridge/1/*, ridge/1/local (plan.yaml:19:9); theirs says ridge/1/*, ridge/1/local, knob/fm (plan.yaml:19:9)",
		marks:    "<<<<<<< ours\n      - knob/fm\n=======\n>>>>>>> theirs\n      - ridge/1/*   # the hill\n      - ridge/1/local\n<<<<<<< ours\n=======\n      - knob/fm\n>>>>>>> theirs\n",
	},
	{
		name: "two new keys", why: "a repeater has one",
		ours: strings.ReplaceAll(ridge, "knob", "hill"), theirs: strings.ReplaceAll(ridge, "knob", "mill"),
		conflict: "repeater knob, key: ours calls it hill (plan.yaml:11:3); theirs calls it mill (plan.yaml:11:3)",
		marks:    "<<<<<<< ours\n  hill: {label: Knob, output: 146.94, split: -0.6, fm: {tone: 103.5}}\n=======\n  mill: {",
	},
	{
		name: "one comment, two versions", why: "both are somebody's words",
		ours: edits("# The hill.", "# The high hill."), theirs: edits("# The hill.", "# The low hill."),
		conflict: "plan, a comment in plan.yaml: ours writes it one way; theirs writes it another way",
		marks:    "<<<<<<< ours\n# The high hill.\n=======\n# The low hill.\n>>>>>>> theirs\n",
	},
}

func files(text string) merge.Files { return merge.Files{"plan.yaml": []byte(text)} }

func TestCases(t *testing.T) {
	seen := map[string]bool{}
	for _, test := range cases {
		if seen[test.name] || test.why == "" {
			t.Errorf("%s: a name twice, or no why", test.name)
		}
		seen[test.name] = true
		r, err := merge.Plans(files(ridge), files(test.ours), files(test.theirs), merge.Labels{})
		if err != nil {
			t.Errorf("%s: %v", test.name, err)
			continue
		}
		got := string(r.Files["plan.yaml"])
		if test.want != "" {
			if got != test.want || len(r.Conflicts) > 0 {
				t.Errorf("%s (%s): %v, got\n%s\nwant\n%s", test.name, test.why, r.Conflicts, got, test.want)
			}
			continue
		}
		if len(r.Conflicts) != 1 || r.Conflicts[0].String() != test.conflict {
			t.Errorf("%s (%s): conflicts\n%v\nwant\n%s", test.name, test.why, r.Conflicts, test.conflict)
		}
		if !strings.Contains(got, test.marks) || !slices.Equal(r.Marked, []string{"plan.yaml"}) {
			t.Errorf("%s (%s): got\n%s\nwant in it\n%s", test.name, test.why, got, test.marks)
		}
	}
}

// What merges without a conflict and is wrong is told.
func TestAfter(t *testing.T) {
	radio := "radios:\n  pocket: {modes: [fm, dmr], bands: [100-500], limits: {groups: 3, zones: 2}}\n"
	for _, test := range []struct{ name, why, base, ours, theirs, want string }{
		{
			"one ID twice", "both took the next free number", ridge,
			edits("zones:", "  net: {id: 9991}\nzones:"), edits("  local: ", "  youth: {id: 9991}\n  local: "),
			"group net and group youth both have the ID 9991; a radio cannot tell them apart: give one another ID, or keep only one",
		},
		{
			"gone and used", "the other side did not know", ridge,
			edits("  knob: {label: Knob, output: 146.94, split: -0.6, fm: {tone: 103.5}}\n", "", "      - knob/fm\n", ""),
			edits("zones:\n", "zones:\n  hills: {channels: [knob/fm]}\n"),
			`zone hills refers to the talk path "knob/fm", which the other side removed or renamed; take the reference out, or put back what it needs`,
		},
		{
			"too many zones", "each side alone fits", ridge + radio,
			edits("zones:\n", "zones:\n  east: {channels: [knob/fm]}\n") + radio, edits("zones:\n", "zones:\n  west: {channels: [knob/fm]}\n") + radio,
			"radio pocket, zones: both sides together need 3, and 2 is the most it holds; take something out",
		},
		{
			"retuned by both", "nobody has seen the two frequencies together",
			strings.Replace(ridge, "split: +5", "input: 449.325", 1),
			strings.Replace(edits("444.3250", "444.3500"), "split: +5", "input: 449.325", 1), strings.Replace(ridge, "split: +5", "input: 439.325", 1),
			"repeater ridge: one side moved its output to 444.350 MHz and the other its input to 439.325 MHz; ask the frequency coordinator whether the two belong together",
		},
	} {
		r, err := merge.Plans(files(test.base), files(test.ours), files(test.theirs), merge.Labels{})
		if err != nil {
			t.Errorf("%s: %v", test.name, err)
			continue
		}
		if len(r.Conflicts) > 0 || !slices.Equal(r.After, []string{test.want}) {
			t.Errorf("%s (%s): conflicts %v, after\n%q\nwant\n%q", test.name, test.why, r.Conflicts, r.After, test.want)
		}
	}
}
