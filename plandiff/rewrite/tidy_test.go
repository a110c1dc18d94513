package rewrite_test

import (
	"maps"
	"testing"

	"passband.example/plandiff"
	"passband.example/plandiff/plan"
	"passband.example/plandiff/plan/plantest"
	"passband.example/plandiff/rewrite"
	"pgregory.net/rapid"
)

// Tidying means nothing, loses no comment, and is done after one time.
func TestTidy(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		files, old, _ := drawn(t)
		texts, err := rewrite.Tidy(files, old)
		if err != nil {
			t.Fatalf("%v\n%s", err, show(files))
		}
		now := maps.Clone(files)
		maps.Copy(now, texts)
		p := plantest.Load(t, now)
		if diff := plantest.Equal(old, p); diff != "" {
			t.Fatalf("%s\n%s\nbecame\n%s", diff, show(files), show(texts))
		}
		if c := plandiff.Compare(plan.Expand(old), plan.Expand(p)); !c.Empty() {
			t.Fatalf("%v", c.Changes[0])
		}
		again, err := rewrite.Tidy(now, p)
		if err != nil {
			t.Fatalf("%v\n%s\nbecame\n%s", err, show(files), show(texts))
		}
		for name, text := range again {
			t.Fatalf("%s is tidied twice:\n%s\nbecame\n%s\nbecame\n%s", name, files[name], texts[name], text)
		}
	})
}

const untidy = "\uFEFFzones: {}\r\n\r\n\r\nplan:   A   # the name\r\n# The hill.\r\nrepeaters:\r\n    ridge:\r\n        output:   444.3250 # MHz\r\n        label: 'Ridge'\r\n        note: |\r\n            one\r\n              two\r\n        split: \"+5.00\"\r\nchannels:\r\n  a: {simplex: 146.520, label: A,fm: {  } }\r\n  longer: {label: L,   # here\r\n    simplex: 146.55 , fm: {}}\r\nradios: {pocket: {label: Pocket, limits: {channels: 1000, zones: 150, channels_per_zone: 16, groups: 256, messages: 32, message_length: 140}}}"

const tidied = `plan: A  # the name

# The hill.
repeaters:
  ridge:
    label: 'Ridge'
    output: 444.325  # MHz
    split: "+5"
    note: |
      one
        two

channels:
  a:      {label: A, simplex: 146.520, fm: {}}
  longer: {
            label: L,  # here
            simplex: 146.550,
            fm: {},
          }

zones: {}

radios: {pocket: {label: Pocket,
                  limits: {channels: 1000, zones: 150, channels_per_zone: 16, groups: 256,
                           messages: 32, message_length: 140}}}
`

func TestTidyCase(t *testing.T) {
	files := map[string][]byte{"plan.yaml": []byte(untidy)}
	p, err := rewrite.Load(files)
	if err != nil || len(p.Problems) > 0 {
		t.Fatal(err, p.Problems)
	}
	texts, err := rewrite.Tidy(files, p)
	if got := string(texts["plan.yaml"]); err != nil || got != tidied {
		t.Errorf("%v, got\n%s\nwant\n%s", err, got, tidied)
	}
}

// A text that is a plan is laid out so that it means the same and stays so, or is left alone.
func FuzzTidy(f *testing.F) {
	for _, seed := range []string{untidy, tidied, "a: &x {b: c}\nzones: {v: {channels: *x}}\n", "plan: |\n  a\n  b\n# end", "? plan\n: x\n", "---\nplan: x\n...\n", "messages: {a: \"b\\n\"}\n", "plan: 'it''s' # x\n\n\n# y\n"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		files := map[string][]byte{plan.RootFile: []byte(text)}
		old, err := rewrite.Load(files)
		if err != nil || len(old.Problems) > 0 {
			return
		}
		texts, err := rewrite.Tidy(files, old)
		if err != nil {
			if texts != nil {
				t.Errorf("an error, and %d files", len(texts))
			}
			return
		}
		now := maps.Clone(files)
		maps.Copy(now, texts)
		p := plantest.Load(t, now)
		if diff := plantest.Equal(old, p); diff != "" {
			t.Fatalf("%s\n%s", diff, now[plan.RootFile])
		}
		if again, err := rewrite.Tidy(now, p); err != nil || len(again) > 0 {
			t.Errorf("tidied twice, it is another text (%v):\n%s\nand\n%s", err, now[plan.RootFile], again[plan.RootFile])
		}
	})
}
