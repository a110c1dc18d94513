package review_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"passband.example/review"
)

const page = "# off-band\n\nA channel sends\noutside the band.\n\n## What is wrong\n\nOne.\n\nTwo.\n\n## Why it matters\n\nWhy.\n\n## What to do\n\nDo.\n\n" +
	"## What it rests on\n\nA table.\n\n## Fails\n\n```yaml\na: 1\n```\n\n## Passes\n\n```yaml\na: 2\n# ## no heading\n```\n"

func TestParsePage(t *testing.T) {
	got, err := review.ParsePage(page)
	if err != nil {
		t.Fatal(err)
	}
	want := review.Page{ID: "off-band", Title: "A channel sends outside the band.", What: "One.\n\nTwo.", Why: "Why.", Fix: "Do.",
		Source: "A table.", Fails: "a: 1\n", Passes: "a: 2\n# ## no heading\n"}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
}

// TestParsePageFaults wants each fault of a page named.
func TestParsePageFaults(t *testing.T) {
	for _, c := range []struct {
		name, why, old, new string
		want                string
	}{
		{"nothing", "an embedded file that is empty", page, "", "begins with"},
		{"no hash", "the first line is a heading", "# off-band", "off-band", "begins with"},
		{"no name", "a heading without a name", "# off-band", "# ", "begins with"},
		{"two words", "a name is one word, as a policy writes it", "# off-band", "# off band", "begins with"},
		{"no sentence", "a list of rules would have an empty line", "A channel sends\noutside the band.\n", "", "begins with"},
		{"heading missing", "each part is needed", "## Why it matters\n\nWhy.\n\n", "", `"Why it matters" is missing`},
		{"heading misspelled", "it would be shown under the one before", "## What to do", "## What To Do", `"What to do" is missing`},
		{"out of order", "pages read alike", "## Why it matters\n\nWhy.\n\n## What to do\n\nDo.\n\n", "## What to do\n\nDo.\n\n## Why it matters\n\nWhy.\n\n", `"Why it matters" is missing or out of order`},
		{"empty part", "a heading with nothing under it", "Why.\n", "", `nothing stands under "Why it matters"`},
		{"one more heading", "nobody would see it", "```\n\n## Passes", "```\n\n## Notes\n\nx\n\n## Passes", `"Passes" is missing`},
		{"more behind the end", "nobody would see it", "no heading\n```\n", "no heading\n```\n\n## Notes\n\nx\n", "more than the headings"},
		{"example without a fence", "it is shown as code", "```yaml\na: 1\n```", "a: 1", "an example is"},
		{"example that is not closed", "the rest would be code", "a: 1\n```\n", "a: 1\n", "an example is"},
		{"example closed on its line", "that closes nothing", "a: 1\n```", "a: 1```", "an example is"},
		{"example of nothing", "it shows nothing", "a: 1\n", "", "an example is"},
		{"words behind the example", "they would be part of it", "a: 1\n```\n", "a: 1\n```\n\nAnd so on.\n", "an example is"},
	} {
		t.Run(c.name, func(t *testing.T) {
			text := strings.Replace(page, c.old, c.new, 1)
			if text == page {
				t.Fatal("nothing is replaced")
			}
			if _, err := review.ParsePage(text); err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("%s: got %v, want %q", c.why, err, c.want)
			}
		})
	}
}

// FuzzParsePage wants no text to make it panic, and a page that was read to have
// all of its parts.
func FuzzParsePage(f *testing.F) {
	f.Add(page)
	f.Add("# x\n")
	f.Fuzz(func(t *testing.T, text string) {
		p, err := review.ParsePage(text)
		if err == nil && (p.ID == "" || p.Title == "" || p.What == "" || p.Why == "" || p.Fix == "" || p.Source == "" || p.Fails == "" || p.Passes == "") {
			t.Errorf("a part is empty: %+v", p)
		}
	})
}
