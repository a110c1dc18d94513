package rewrite_test

import (
	"maps"
	"strings"
	"testing"

	"passband.example/plandiff"
	"passband.example/plandiff/plan"
	"passband.example/plandiff/plan/plantest"
	"passband.example/plandiff/rewrite"
	"passband.example/plandiff/rewrite/layout"
	"passband.example/plandiff/rewrite/styletest"
	"pgregory.net/rapid"
)

// drawn gives the files of a random plan in a random style, and an edited plan.
func drawn(t *rapid.T) (files map[string][]byte, old, edited *plan.Plan) {
	p := plantest.Plan(t)
	edited = plantest.Edit(t, p)
	files = styletest.Files(t, p)
	old = plantest.Load(t, files)
	if len(old.Problems) > 0 {
		t.Fatalf("the stylist wrote what is not read: %v\n%s", old.Problems[0], files[old.Problems[0].At.File])
	}
	if diff := plantest.Equal(p, old); diff != "" {
		t.Fatalf("the stylist wrote another plan: %s", diff)
	}
	return files, old, edited
}

func show(files map[string][]byte) string {
	var b strings.Builder
	for name, text := range files {
		b.WriteString("-- " + name + " --\n" + string(text))
	}
	return b.String()
}

// The text that Apply writes says what the changes say.
func TestAppliedTextIsTheNewPlan(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		files, old, edited := drawn(t)
		c := plandiff.Compare(plan.Expand(old), plan.Expand(edited))
		texts, err := rewrite.Apply(files, old, c.Changes)
		if err != nil {
			t.Fatalf("%v\n%s", err, show(files))
		}
		now := maps.Clone(files)
		maps.Copy(now, texts)
		if diff := plantest.Equal(edited, plantest.Load(t, now)); diff != "" {
			t.Fatalf("%s\n%s\nbecame\n%s", diff, show(files), show(texts))
		}
		if c.Empty() && len(texts) > 0 {
			t.Fatalf("nothing changed, and %d files are written", len(texts))
		}
		for name, text := range texts {
			if string(files[name]) == string(text) {
				t.Fatalf("%s did not change, and is written", name)
			}
		}
	})
}

// The inverse of the changes leads back to the old plan.
func TestInverseLeadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		files, old, edited := drawn(t)
		changes := plandiff.Compare(plan.Expand(old), plan.Expand(edited)).Changes
		texts, err := rewrite.Apply(files, old, changes)
		if err != nil {
			t.Fatal(err)
		}
		now := maps.Clone(files)
		maps.Copy(now, texts)
		p := plantest.Load(t, now)
		back := plandiff.Compare(plan.Expand(p), plan.Expand(old)).Changes
		again, err := rewrite.Apply(now, p, back)
		if err != nil {
			t.Fatalf("%v\n%s", err, show(now))
		}
		maps.Copy(now, again)
		if diff := plantest.Equal(old, plantest.Load(t, now)); diff != "" {
			t.Fatal(diff)
		}
	})
}

// One changed scalar changes one line, or one value of a line.
func TestOneValueChangesItsLineAlone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		files, old, _ := drawn(t)
		groups := old.Groups.All()
		if len(groups) == 0 {
			t.Skip("no group to change")
		}
		g := rapid.SampledFrom(groups).Draw(t, "group")
		if !g.ID.IsSet() {
			t.Skip("no ID to change")
		}
		change := plandiff.Change{Op: plandiff.Changed, Thing: g.Thing(), Was: g.Thing(), Edits: []plandiff.Edit{{
			Field: "id", Form: plan.Scalar, Old: []string{g.ID.V.String()}, New: []string{"9997777"},
		}}}
		texts, err := rewrite.Apply(files, old, []plandiff.Change{change})
		if err != nil {
			t.Fatal(err)
		}
		if g.ID.V.String() == "9997777" {
			return
		}
		if len(texts) != 1 {
			t.Fatalf("%d files changed", len(texts))
		}
		for name, text := range texts {
			before, after := strings.Split(string(files[name]), "\n"), strings.Split(string(text), "\n")
			if len(before) != len(after) {
				t.Fatalf("there are %d lines, and were %d", len(after), len(before))
			}
			for i := range before {
				same := before[i] == after[i]
				if changed := int32(i+1) == g.ID.At.Line; changed == same {
					t.Fatalf("line %d: %q became %q", i+1, before[i], after[i])
				}
			}
		}
	})
}

// A record that is not concerned keeps every byte, and so do the comments: those
// that are gone stood on a record, a field or an item that is gone.
func TestCommentsStay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		files, old, edited := drawn(t)
		c := plandiff.Compare(plan.Expand(old), plan.Expand(edited))
		removal := false
		for _, change := range c.Changes {
			removal = removal || change.Op == plandiff.Removed
			for _, e := range change.Edits {
				removal = removal || len(e.New) < len(e.Old) || len(e.Steps) > 0
			}
		}
		if removal {
			t.Skip("something goes")
		}
		texts, err := rewrite.Apply(files, old, c.Changes)
		if err != nil {
			t.Fatal(err)
		}
		for name, text := range texts {
			if was, is := strings.Count(string(files[name]), "# note"), strings.Count(string(text), "# note"); was != is {
				t.Fatalf("%d comments became %d:\n%s\nbecame\n%s", was, is, files[name], text)
			}
		}
	})
}

// A record that no change is about keeps its text, byte for byte.
func TestOtherRecordsKeepTheirText(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		files, old, edited := drawn(t)
		c := plandiff.Compare(plan.Expand(old), plan.Expand(edited))
		if len(c.Renames) > 0 {
			return // references everywhere follow
		}
		texts, err := rewrite.Apply(files, old, c.Changes)
		if err != nil {
			t.Fatal(err)
		}
		concerned := map[plan.Thing]bool{}
		for _, change := range c.Changes {
			concerned[change.Thing], concerned[change.Was] = true, true
		}
		for name, text := range texts {
			if strings.HasSuffix(name, ".csv") {
				continue
			}
			before, after := records(t, files[name]), records(t, text)
			for thing, was := range before {
				if is := after[thing]; !concerned[thing] && is != was {
					t.Fatalf("%s: %q became %q\n%s\n%s", thing, was, is, files[name], text)
				}
			}
		}
	})
}

// records gives the text of each record that has a key, without what follows on its
// line: between braces a comment there may be about what went from the line.
func records(t *rapid.T, text []byte) map[plan.Thing]string {
	doc, err := layout.Parse(text)
	if err != nil {
		t.Fatal(err)
	}
	all := map[plan.Thing]string{}
	for _, s := range plan.Sections() {
		section := doc.Root.Find(s.Key)
		if section == nil || !s.HasOwnKeys() {
			continue
		}
		for _, e := range section.Value.Entries {
			all[plan.Thing{Kind: s.Kind, Key: e.Name()}] = e.Key.String() + e.Sep + e.Value.String()
		}
	}
	return all
}

func FuzzApply(f *testing.F) {
	f.Add("zones:\n  v: {label: V, channels: [a, b]} # c\n", "zones:\n  w: {label: W, channels: [b, a, c]}\n")
	f.Add("repeaters: {r: {output: 444.325, split: +5, fm: {tone: 103.5}}}", "repeaters:\n  r:\n    output: 444.4\n    split: +5\n    dmr: {slot1: [x]}\n")
	f.Add("review:\n  accept:\n    - rule: a\n      at: b\n    - {rule: c, at: d}\n", "review: {severity: {x: warn}}\nmessages: {a: b}")
	f.Add("groups: &g\n  a: {id: 1}\n", "groups: {b: {id: 2, note: \"x\\ny\"}}")
	f.Fuzz(func(t *testing.T, a, b string) {
		files := map[string][]byte{"plan.yaml": []byte(a)}
		old, err := rewrite.Load(files)
		if err != nil || len(old.Problems) > 0 {
			return
		}
		edited, err := rewrite.Load(map[string][]byte{"plan.yaml": []byte(b)})
		if err != nil || len(edited.Problems) > 0 {
			return
		}
		texts, err := rewrite.Apply(files, old, plandiff.Compare(plan.Expand(old), plan.Expand(edited)).Changes)
		if err != nil {
			if texts != nil {
				t.Errorf("an error, and %d files", len(texts))
			}
			return
		}
		if text, ok := texts["plan.yaml"]; ok {
			a = string(text)
		}
		if diff := plantest.Equal(edited, plantest.Load(t, map[string][]byte{"plan.yaml": []byte(a)})); diff != "" {
			t.Errorf("%s\n%s", diff, a)
		}
	})
}
