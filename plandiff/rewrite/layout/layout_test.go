package layout

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// texts are written in every form that a plan may have.
var texts = []struct{ name, why, text string }{
	{"empty", "a file may hold nothing yet", ""},
	{"comment alone", "or only what it will be for", "# zones of the north\n"},
	{"one key", "the smallest plan", "plan: A\n"},
	{"no final newline", "some editors leave it out", "plan: A\nzones: {}"},
	{"line ends of two signs", "some editors write them", "plan: A\r\n\r\nzones:\r\n  v: {label: V} # c\r\n"},
	{"byte order mark", "some editors put one in front", "\uFEFFplan: A\n"},
	{"document marks", "YAML knows them", "---\n# c\nplan: A\n...\n"},
	{"block list", "one entry a line", "zones:\n  v:\n    channels:\n      - a # first\n      # above b\n      - b\n\n  w: {}\n"},
	{"list in its key's column", "YAML allows it", "channels:\n- a\n- b\nnext: 1\n"},
	{"list of mappings", "the acceptances", "accept:\n  - rule: a\n    at: b\n  - {rule: c, at: d}\n  -\n    rule: e\n    at: f\n"},
	{"flow over lines", "long lists are broken", "limits: {a: 1, b: 2,\n         c: 3,\n}\nx: [ a , b # c\n  , d]\n"},
	{"quotes", "texts with signs", "a: 'it''s'\nb: \"say \\\"x\\\"\"\n\"c\" : d\n"},
	{"texts of several lines", "notes", "a: |\n  one\n\n  two\nb: >-\n  three\n   four\n\n\nc: five\n  six\n"},
	{"anchors", "kept, though not changed", "a: &x {b: 1}\nc: *x\nd: &y\n  e: 1\nf: &z g\n"},
	{"empty values", "nothing there yet", "a:\nb: ~ # c\nc: {d: , e}\nd:\n  # nothing\n"},
	{"tabs in comments", "a tab is a blank there", "a: 1\t# b\tc\n"},
	{"no latin", "columns count characters", "a: {é: x, 日本: [y, 'ü']}\n"},
}

func TestBytesAreKept(t *testing.T) {
	for _, test := range texts {
		d, err := Parse([]byte(test.text))
		if err != nil {
			t.Errorf("%s (%s): %v", test.name, test.why, err)
			continue
		}
		if got := string(d.Bytes()); got != test.text {
			t.Errorf("%s (%s):\n%q\nbecame\n%q", test.name, test.why, test.text, got)
		}
	}
}

func TestRealPlansAreKept(t *testing.T) {
	n := 0
	for _, pattern := range []string{"../../demo/data/*/*.yaml", "../../start/data/*.yaml"} {
		names, err := filepath.Glob(pattern)
		if err != nil {
			t.Fatal(err)
		}
		for _, name := range names {
			text, err := os.ReadFile(name)
			if err != nil {
				t.Fatal(err)
			}
			if d, err := Parse(text); err != nil {
				t.Errorf("%s: %v", name, err)
			} else if d.Root == nil || len(d.Root.Entries) == 0 {
				t.Errorf("%s: nothing was read", name)
			}
			n++
		}
	}
	if n < 20 {
		t.Errorf("only %d plans were found", n)
	}
}

// A file may be one line: its length must not count twice.
func TestLongLineIsReadOnce(t *testing.T) {
	for _, text := range []string{
		"a: [" + strings.Repeat("é, ", 200_000) + "x]\n",
		"a: {" + strings.Repeat("é, ", 200_000) + "x: y}\n",
	} {
		begin := time.Now()
		d, err := Parse([]byte(text))
		if err != nil || string(d.Bytes()) != text {
			t.Fatalf("a long line is not kept: %v", err)
		}
		if took := time.Since(begin); took > 20*time.Second { // quadratic, it would be minutes
			t.Errorf("it took %s", took)
		}
	}
}

func FuzzParse(f *testing.F) {
	for _, test := range texts {
		f.Add(test.text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		d, err := Parse([]byte(text))
		if err != nil {
			return
		}
		if got := string(d.Bytes()); got != text {
			t.Errorf("%q became %q", text, got)
		}
		if d.Root != nil && strings.Trim(d.Root.String(), " \t\r\n") == "" {
			t.Errorf("%q: the root is empty", text)
		}
	})
}
