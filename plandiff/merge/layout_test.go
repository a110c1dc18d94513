package merge_test

import (
	"fmt"
	"maps"
	"strings"
	"testing"

	"passband.example/plandiff"
	"passband.example/plandiff/merge"
	"passband.example/plandiff/plan"
	"passband.example/plandiff/plan/plantest"
	"passband.example/plandiff/rewrite"
	"passband.example/plandiff/rewrite/styletest"
	"pgregory.net/rapid"
)

// commented puts a comment above some lines that begin a section, and one at the end,
// each told apart by who.
func commented(t *rapid.T, files merge.Files, who string) merge.Files {
	all := maps.Clone(files)
	for name, text := range files {
		if !strings.HasSuffix(name, "l") { // yaml, yml
			continue
		}
		eol := "\n"
		if strings.Contains(string(text), "\r\n") {
			eol = "\r\n"
		}
		lines := strings.SplitAfter(string(text), "\n")
		for i, line := range lines {
			section := line != "" && strings.Trim(line[:1], "abcdefghijklmnopqrstuvwxyz\"") == "" && strings.Contains(line, ":")
			if section && rapid.IntRange(0, 3).Draw(t, who) == 0 {
				lines[i] = fmt.Sprintf("# %s %d of %s%s", who, i, name, eol) + line
			}
		}
		all[name] = []byte(strings.Join(lines, ""))
	}
	return all
}

// Comments of both sides are in the merged text, but for those on what went.
func TestCommentsOfBothSidesStay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := plantest.Plan(t)
		base := styletest.Files(t, p)
		ours := commented(t, edited(t, base, plantest.Edit(t, p)), "ours")
		theirs := commented(t, base, "theirs") // comments alone
		if len(plantest.Load(t, ours).Problems)+len(plantest.Load(t, theirs).Problems) > 0 {
			t.Skip("a comment came to stand inside a text")
		}
		r := merged(t, base, ours, theirs)
		if len(r.Conflicts) > 0 {
			t.Fatalf("%v\n%s", r.Conflicts, show(r.Files))
		}
		got := show(r.Files)
		for _, text := range ours {
			for line := range strings.Lines(string(text)) {
				if strings.HasPrefix(line, "# ours") && !strings.Contains(got, strings.TrimSpace(line)) {
					t.Fatalf("%q is lost:\nbase\n%s\nours\n%s\ntheirs\n%s\nmerged\n%s", line, show(base), show(ours), show(theirs), got)
				}
			}
		}
		if c := plandiff.Compare(plan.Expand(plantest.Load(t, ours)), plan.Expand(plantest.Load(t, r.Files))); !c.Empty() {
			t.Fatalf("comments changed the plan: %v", c.Changes[0])
		}
	})
}

// One side lays the plan out anew and the other edits it: the layout stays, and so
// does the edit.
func TestLayoutOfOneSideStays(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := plantest.Plan(t)
		base := styletest.Files(t, p)
		texts, err := rewrite.Tidy(base, plantest.Load(t, base))
		if err != nil {
			t.Fatal(err)
		}
		theirs := maps.Clone(base)
		maps.Copy(theirs, texts)
		now := plantest.Edit(t, p)
		ours := edited(t, base, now)
		r := merged(t, base, ours, theirs)
		if len(r.Conflicts) > 0 {
			t.Fatalf("%v\nbase\n%s\nours\n%s\ntheirs\n%s\nmerged\n%s", r.Conflicts, show(base), show(ours), show(theirs), show(r.Files))
		}
		if diff := plantest.Equal(now, plantest.Load(t, r.Files)); diff != "" {
			t.Fatal(diff)
		}
	})
}

func FuzzPlans(f *testing.F) {
	for _, test := range cases {
		f.Add(ridge, test.ours, test.theirs)
	}
	f.Fuzz(func(t *testing.T, base, ours, theirs string) {
		r, err := merge.Plans(files(base), files(ours), files(theirs), merge.Labels{})
		if err != nil {
			return
		}
		p := plantest.Load(t, r.Files)
		if clean := len(r.Conflicts) == 0; clean && len(p.Problems) > 0 {
			t.Errorf("%v", p.Problems[0])
		}
		if len(r.Conflicts) > 0 != (len(r.Marked) > 0) {
			t.Errorf("conflicts %v, and marks in %v", r.Conflicts, r.Marked)
		}
	})
}
