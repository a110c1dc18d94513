package tree

import (
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
)

// The scanner must know what plans are written in, or it is of no use.
var scanned = []struct{ name, why, text string }{
	{"nothing", "a new file", ""},
	{"comments", "a file that is all comment", "# one\n\n  # two"},
	{"block", "the usual form", "repeaters:\n  ridge:\n    label: Ridge\n    output: 444.325\n"},
	{"deeper back", "records end where the next begins", "a:\n  b:\n    c:\n      d: 1\ne: 2"},
	{"flow", "one record a line", "groups:\n  local: {id: 99931, label: State}\n"},
	{"flow inside", "a side of a channel", "a: {b: {c: 103.5, d: [x, y]}, e: []}"},
	{"flow over lines", "long lists", "a: [b,\n  c, d\n]\nb:\n  {c: 1,\nd: 2 }\n"},
	{"empty", "sections with nothing in them", "a:\nb: {}\nc: []\nd: ~\ne: null\nf:   # none\n"},
	{"list", "policy", "accept:\n  - rule: a\n    at: b\n  - {rule: c}\n  - d\n  -\n"},
	{"list in the key's column", "as many write it", "a:\n- b\n- c: 1\n  d: 2\n-\n  e\nf: g\n"},
	{"list of lists", "no plan has it", "-\n  - a\n  -\n    - b\n- c"},
	{"quotes", "texts with signs", "a: \"b: c # d\"\n'e': '*/*/f'\ng: [\"h\", 'i, j']\n"},
	{"signs inside", "entries and splits", "a: [zone:b, r/1/*, -5, +5]\nb: c#d e:f [g] ?\nc: -104.2\n"},
	{"comments behind", "what a line is for", "a: b # c\nd: {e: f} # g\n  # h\ni: # j\n  k: l #\n"},
	{"other scripts", "columns count characters", "é: {ü: ä, ß: \"日本\"} # ö\n"},
	{"one value", "no plan, but YAML", "  just a text  \n"},
}

func TestScannerReads(t *testing.T) {
	for _, c := range scanned {
		t.Run(c.name, func(t *testing.T) {
			if !same(t, c.text) {
				t.Errorf("(%s) the scanner does not read\n%s", c.why, c.text)
			}
		})
	}
}

// The plans that everybody starts from must not take the slow way.
func TestScannerReadsOurPlans(t *testing.T) {
	files := 0
	for _, pattern := range []string{"../../start/data/*.yaml", "../../demo/data/*/*.yaml"} {
		names, err := filepath.Glob(pattern)
		if err != nil {
			t.Fatal(err)
		}
		for _, name := range names {
			text, err := os.ReadFile(name)
			if err != nil {
				t.Fatal(err)
			}
			if !same(t, string(text)) {
				t.Errorf("the scanner does not read %s", name)
			}
			files++
		}
	}
	if files < 10 {
		t.Errorf("%d files were found", files)
	}
}

// What the scanner leaves to yaml.v3: other YAML, and mistakes.
var handedOver = []struct {
	name, why, text string
	wrong           bool // yaml.v3 refuses it
}{
	{"anchor", "it names a value", "a: &b c", false},
	{"alias", "it stands for another value", "a: &b c\nd: *b", false},
	{"tag", "it changes a value", "a: !!str b", false},
	{"merge", "it adds keys", "a: {<<: b}", false},
	{"literal", "a text of several lines", "a: |\n  b\n  c\n", false},
	{"folded", "a text of several lines", "a: >-\n  b\n  c\n", false},
	{"text over lines", "yaml.v3 joins them", "a: b\n  c\n", false},
	{"quotes over lines", "yaml.v3 joins them", "a: \"b\n  c\"\n", false},
	{"flow text over lines", "yaml.v3 joins them", "a: [b\n c]", false},
	{"backslash", "the next sign has a meaning of its own", `a: "b\tc"`, false},
	{"doubled quote", "it is one", "a: 'b''c'", false},
	{"tab", "where it may stand is hard to say", "a:\tb", false},
	{"carriage return", "a line end of two signs", "a: b\r\nc: d\r\n", false},
	{"documents", "a plan has one", "---\na: b\n---\nc: d\n", false},
	{"end of a document", "it divides documents", "a: b\n...\nc: d\n", true},
	{"divided in brackets", "yaml.v3 refuses it", "a: [b,\n---\n, c]", true},
	{"directive", "an instruction to the reader", "%YAML 1.1\n---\na: b", false},
	{"explicit key", "keys that are no words", "? a\n: b", false},
	{"pair in a list", "a mapping without brackets", "[a: b]", false},
	{"key alone in brackets", "it has no value", "{a, b}", false},
	{"comment in brackets", "yaml.v3 has ways of its own with them", "a: [b, # c\n d]", false},
	{"comma at the end", "YAML allows it", "a: [b, ]", false},
	{"lists on one line", "yaml.v3 knows it", "- - a", false},
	{"bracket left open", "a mistake", "a: [b, c\n", true},
	{"quote left open", "a mistake", "a: 'b\n", true},
	{"text behind quotes", "a mistake", "a: 'b' c\n", true},
	{"text behind brackets", "a mistake", "a: [b] c\n", true},
	{"two colons", "a mistake", "a: b: c\n", true},
	{"list behind a key", "a mistake", "a: - b\n", true},
	{"no colon", "a mistake", "a: b\nc\n", true},
	{"indented too far", "a mistake", "a: b\n  c: d\n", true},
	{"indented too little", "a mistake", "a:\n    b: c\n  d: e\n", true},
	{"list among keys", "a mistake", "a: b\n- c\n", true},
	{"reserved", "a mistake", "a: @b\n", true},
	{"control character", "no text", "a: b\x01\n", true},
	{"not UTF-8", "no text", "a: \xff\n", true},
	{"line end of Unicode", "yaml.v3 ends a line there", "a: b # c\u2028d\n", true},
	{"long key", "yaml.v3 refuses one", strings.Repeat("k", 1025) + ": v\n", true},
	{"deep", "more than the scanner follows", strings.Repeat("[", 60) + strings.Repeat("]", 60), false},
}

func TestScannerLeaves(t *testing.T) {
	for _, c := range handedOver {
		t.Run(c.name, func(t *testing.T) {
			if same(t, c.text) {
				t.Errorf("(%s) the scanner reads\n%s", c.why, c.text)
			}
			if _, err := Parse(c.text, 1); (err != nil) != c.wrong {
				t.Errorf("(%s) yaml.v3 says %v", c.why, err)
			}
		})
	}
}

// What the scanner reads, yaml.v3 reads as the same tree, with the same lines and
// columns; and neither panics.
func FuzzParse(f *testing.F) {
	for _, c := range scanned {
		f.Add(c.text)
	}
	for _, c := range handedOver {
		f.Add(c.text)
	}
	f.Fuzz(func(t *testing.T, text string) { same(t, text) })
}

// same holds what both readers make of a text against each other, and reports
// whether the scanner read it.
func same(t *testing.T, text string) bool {
	t.Helper()
	got, ok := scan(text, 1)
	want, err := slow(text, 1)
	if !ok {
		return false
	}
	if err != nil {
		t.Fatalf("the scanner reads what yaml.v3 refuses (%v):\n%s", err, text)
	}
	if want.second.Line > 0 || len(want.tags) > 0 || len(want.targets) > 0 {
		t.Fatalf("the scanner reads a second document, a tag or an alias:\n%s", text)
	}
	for i := range max(len(got.nodes), len(want.nodes)) {
		if i >= len(got.nodes) || i >= len(want.nodes) || !reflect.DeepEqual(got.nodes[i], want.nodes[i]) {
			t.Fatalf("node %d differs: the scanner reads\n%+v\nand yaml.v3\n%+v\nin\n%s", i, got.nodes, want.nodes, text)
		}
	}
	if len(got.nodes) > 0 {
		sourcesTell(t, got.Root(), make(map[[2]string]string))
	}
	return true
}

// sourcesTell wants the same of all values in a tree whose keys and sources are the same.
func sourcesTell(t *testing.T, n Node, known map[[2]string]string) {
	t.Helper()
	switch n.Kind() {
	case Sequence:
		for item := range n.Items() {
			sourcesTell(t, item, known)
		}
	case Mapping:
		for key, value := range n.Pairs() {
			sourcesTell(t, value, known)
			source := n.Source(key)
			if source == "" {
				continue
			}
			what := saying(value)
			if other, ok := known[[2]string{key.Value(), source}]; ok && other != what {
				t.Fatalf("%q says once %s and once %s", source, what, other)
			}
			known[[2]string{key.Value(), source}] = what
		}
	}
}

// saying writes out what a node says, without its place.
func saying(n Node) string {
	switch n.Kind() {
	case Sequence:
		text := "["
		for item := range n.Items() {
			text += saying(item) + ","
		}
		return text + "]"
	case Mapping:
		text := "{"
		for key, value := range n.Pairs() {
			text += saying(key) + ":" + saying(value) + ","
		}
		return text + "}"
	}
	return fmt.Sprintf("%q %v", n.Value(), n.IsNull())
}

func TestSource(t *testing.T) {
	for _, c := range []struct{ name, why, text, want string }{
		{"one line", "up to its end", "s:\n  a: {b: c}\n  d: e\n", "a: {b: c}"},
		{"several lines", "all that are further in", "s:\n  a:\n    b: c\n    d: e\n  f: g\n", "a:\n    b: c\n    d: e"},
		{"the last", "the text ends", "s:\n  a:\n    b: c\n\n", "a:\n    b: c"},
		{"the last of a section", "the next key is further out", "s:\n  a: b\nt:\n  c: d\n", "a: b"},
		{"comment behind", "it may be of the next", "s:\n  a: b\n\n  # of c\n  c: d\n", "a: b"},
		{"comment on the line", "it is part of it", "s:\n  a: b # why\n  # of c\n  c: d\n", "a: b # why"},
		{"comment inside", "it is part of it", "s:\n  a:\n    # why\n    b: c\n", "a:\n    # why\n    b: c"},
		{"quotes", "a blank at the end counts", "s:\n  'a': 'b '\n  'c': d\n", "a': 'b '"},
		{"between brackets", "where it ends is another thing there", "s: {a: b,\n  c: d}\n", ""},
		{"read by yaml.v3", "it tells no places in bytes", "s:\n  a: &x b\n  c: d\n", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			tree, err := Parse(c.text, 1)
			if err != nil {
				t.Fatal(err)
			}
			for _, section := range tree.Root().Pairs() {
				for key := range section.Pairs() {
					if got := section.Source(key); got != c.want {
						t.Errorf("(%s) the source of %s is %q, not %q", c.why, key.Value(), got, c.want)
					}
					return
				}
			}
		})
	}
}
