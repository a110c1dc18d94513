package rules_test

import (
	"fmt"
	"strings"
	"testing"

	"passband.example/review"
	"passband.example/review/rules"
)

// TestWords wants the parts of findings that cases cannot show: what they are
// about, what they name beside, and what to do.
func TestWords(t *testing.T) {
	for _, c := range []struct {
		name, why string
		rule      *review.Rule
		text      string
		want      []string
	}{
		{"circle", "every line of it is shown, the first of them as the place", rules.CircularReference,
			"zones:\n  b: {channels: [zone:c]}\n  a: {channels: [zone:b]}\n  c: {channels: [zone:a]}\n",
			[]string{"at a.yaml:3:18", "about zone a, zone b, zone c", "also a.yaml:2:18 zone b includes zone c", "also a.yaml:4:18 zone c includes zone a"}},
		{"empty through another", "the zones that it empties are told with it", rules.EmptyZone,
			"zones:\n  a: {channels: [zone:b]}\n  b: {channels: [zone:c]}\n  c: {channels: []}\n",
			[]string{"about zone c", "also a.yaml:3:3 zone b includes it and is empty too", "also a.yaml:2:3 zone a includes it and is empty too"}},
		{"twice", "the first place helps to choose", rules.TwiceInZone,
			"channels: {call: {simplex: 146.52, fm: {}}}\nzones:\n  a:\n    channels:\n      - call\n      - call\n",
			[]string{"about zone a, channel call", "also a.yaml:5:9 the first place"}},
		{"duplicates", "all of a set are named, in the order of their keys", rules.DuplicateChannel,
			"channels:\n  b: {simplex: 146.52, fm: {}}\n  a: {simplex: 146.52, fm: {}}\n",
			[]string{"at a.yaml:3:3", "about channel a, channel b", "also a.yaml:2:3 channel b"}},
		{"long group label", "the part to shorten is named, and by how much", rules.LabelTooLong,
			"groups: {g: {label: Statewide}}\nrepeaters: {r: {label: Ridge, output: 444.3, dmr: {slot1: [g]}}}\nzones: {z: {channels: [r/*]}}\nradios: {p: {label_length: 12}}\n",
			[]string{"at a.yaml:1:21", "about group g", "values Statewide", `fix make the label of group g ("Statewide") 3 shorter, or give the channel a label of its own`, `why members would see "Ridge Statew"`}},
		{"long own label", "there is one thing to shorten", rules.LabelTooLong,
			"channels: {c: {label: Calling here, simplex: 146.52, fm: {}}}\nzones: {z: {channels: [c]}}\nradios: {p: {label_length: 10}, q: {label_length: 8}}\n",
			[]string{"about channel c", "values Calling here", "fix make it 4 shorter", `why members would see "Calling"`}},
		{"hopeless label", "no part alone can be made short enough", rules.LabelTooLong,
			"groups: {g: {label: Mid}}\nrepeaters: {r: {label: Hill, output: 444.3, dmr: {slot1: [g]}}}\nzones: {z: {channels: [r/*]}}\nradios: {p: {label_length: 3}}\n",
			[]string{"fix shorten the labels that it is made of, or give the channel one of its own"}},
		{"key too long", "a key is no value: a renamed record is the same", rules.LabelTooLong,
			"channels: {calling-here: {simplex: 146.52, fm: {}}}\nzones: {z: {channels: [calling-here]}}\nradios: {p: {label_length: 8}}\n",
			[]string{"values "}},
		{"collision", "the other label and the zone are shown", rules.LabelCollision,
			"channels:\n  b: {label: Mill B, simplex: 146.52, fm: {}}\n  a: {label: Mill A, simplex: 146.55, fm: {}}\nzones: {z: {channels: [a, b]}}\nradios: {p: {label_length: 5}}\n",
			[]string{"at a.yaml:3:14", "about channel a, channel b", `also a.yaml:2:14 channel b is labelled "Mill B"`, "also a.yaml:4:9 zone z holds them"}},
		{"strange letter", "the plain spelling is proposed", rules.LabelCharacters,
			"channels: {c: {label: Café, simplex: 146.52, fm: {}}}\nzones: {z: {channels: [c]}}\nradios: {p: {}}\n",
			[]string{"about channel c", "values U+00E9", `fix write "Cafe", or state`}},
		{"strange letter for two", "a spelling that only one of them shows is none", rules.LabelCharacters,
			"channels: {c: {label: Ca–é, simplex: 146.52, fm: {}}}\nzones: {z: {label: Z, channels: [c]}}\nradios: {p: {characters: A-Z-}, q: {characters: latin-1}}\n",
			[]string{"fix write \"CA-E\", or state"}},
		{"strange sign", "there is no spelling to propose", rules.LabelCharacters,
			"channels: {c: {label: Ca♥, simplex: 146.52, fm: {}}}\nzones: {z: {channels: [c]}}\nradios: {p: {}}\n",
			[]string{"fix write it without, or state"}},
		{"empty radio", "three reasons are enough", rules.RadioHoldsNothing,
			"repeaters:\n  a: {output: 444.1, split: +5, fm: {}}\n  b: {output: 444.2, split: +5, fm: {}}\n  c: {output: 444.3, split: +5, fm: {}}\n  d: {output: 444.4, split: +5, fm: {}}\nzones: {z: {channels: ['*/*']}}\nradios: {p: {bands: [144-148]}}\n",
			[]string{"also a.yaml:2:33 channel a/fm: it does not tune 444.1", "and 1 more of its channels"}},
		{"zone without radio", "each class that carries it gives a reason", rules.ZoneFitsNoRadio,
			"channels: {c: {simplex: 146.52, fm: {}}, d: {simplex: 446, fm: {}}}\nzones: {y: {channels: [d]}, z: {channels: [c]}}\nradios: {p: {bands: [420-450]}}\n",
			[]string{"also a.yaml:3:10 radio p: it does not tune 146.52", "(channel c)"}},
		{"channel without radio", "each class that carries its zone gives a reason, once", rules.ChannelFitsNoRadio,
			"channels: {c: {simplex: 146.52, fm: {}}, d: {simplex: 446, fm: {}}}\nzones: {y: {channels: [d, c]}, z: {channels: [c, d]}}\nradios: {p: {bands: [420-450]}}\n",
			[]string{"also a.yaml:3:10 radio p: it does not tune 146.52"}},
		{"near rule", "a rule that does not run is known all the same", rules.UnknownRule,
			"review: {severity: {memory-ful: off}}\n", []string{"values memory-ful", "fix did you mean memory-full?"}},
		{"far rule", "nothing is proposed that nobody meant", rules.UnknownRule,
			"review: {severity: {no-such-thing-at-all: off}}\n", []string{"fix write the name of a rule as a finding shows it"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := findings(t, c.rule, map[string]string{"plan.yaml": header, "a.yaml": c.text})
			if len(got) != 1 {
				t.Fatalf("%d findings, want one: %+v", len(got), got)
			}
			text := described(got[0])
			for _, want := range c.want {
				if !strings.Contains(text, want) {
					t.Errorf("%q is not in\n%s%s", want, text, c.why)
				}
			}
		})
	}
}

// described writes out all parts of a finding, a line each.
func described(f review.Finding) string {
	var about []string
	for _, t := range f.About {
		about = append(about, t.String())
	}
	text := fmt.Sprintf("at %s\nabout %s\nvalues %s\nwhat %s\nwhy %s\nfix %s\n",
		f.At, strings.Join(about, ", "), strings.Join(f.Values, ", "), f.What, f.Why, f.Fix)
	for _, also := range f.Also {
		text += fmt.Sprintf("also %s %s\n", also.At, also.Text)
	}
	return text
}
