package report_test

import (
	"bytes"
	"strings"
	"testing"
	"unicode"

	"passband.example/review/report"
)

// heeded reports whether a runner reads a command out of a log. It trims each line and
// looks for the two forms (GitHub's runner, ActionCommand, from memory).
func heeded(log string) bool {
	for _, line := range strings.FieldsFunc(log, func(r rune) bool { return r == '\n' || r == '\r' }) {
		if strings.HasPrefix(strings.TrimFunc(line, unicode.IsSpace), "::") || strings.Contains(line, "##[") {
			return true
		}
	}
	return false
}

func TestUnheeded(t *testing.T) {
	for _, c := range []struct{ name, why, in, want string }{
		{"plain", "nothing changes", "plan.yaml:3:4: block [off-band]: x\n  why: y\n", "plan.yaml:3:4: block [off-band]: x\n  why: y\n"},
		{"a command", "an annotation of the plan's own", "::error::all is well\n", ": :error::all is well\n"},
		{"after white space", "the runner trims it", " \t ::error::x\n", " \t : :error::x\n"},
		{"after a space that is not ASCII", "it trims that too", "\u3000::error::x\n", "\u3000: :error::x\n"},
		{"in a line", "it is none there", "a ::error::x\n", "a ::error::x\n"},
		{"the older form", "which may begin anywhere", "a ##[error]x\n", "a ## [error]x\n"},
		{"on the second line", "each line is read", "a\n::error::x\n##[group]b", "a\n: :error::x\n## [group]b"},
		{"after a carriage return", "that ends a line as well", "a\r::error::x\n", "a\r: :error::x\n"},
		{"colons with a space", "no command", ": ::x\n", ": : :x\n"},
		{"many colons", "none is left", ":::::x\n", ": ::::x\n"},
		{"many number signs", "none is left", "####[x", "#### [x"},
	} {
		var out bytes.Buffer
		if n, err := report.Unheeded(&out).Write([]byte(c.in)); n != len(c.in) || err != nil || out.String() != c.want {
			t.Errorf("%s: %s: %q, %d, %v", c.name, c.why, out.String(), n, err)
		}
	}
}

// FuzzUnheeded writes a text in two parts and wants no command in it, and nothing changed
// but for spaces.
func FuzzUnheeded(f *testing.F) {
	for _, s := range []string{"::error::x", "a\n ::x", "##[x", "#:#[", ": ::\r::", "\u2003::x", "\x85::a"} {
		f.Add(s, len(s)/2)
	}
	f.Fuzz(func(t *testing.T, in string, cut int) {
		cut = min(max(cut, 0), len(in))
		var out, whole bytes.Buffer
		w := report.Unheeded(&out)
		for _, part := range []string{in[:cut], in[cut:]} {
			if n, err := w.Write([]byte(part)); n != len(part) || err != nil {
				t.Fatal(n, err)
			}
		}
		_, _ = report.Unheeded(&whole).Write([]byte(in))
		if got := out.String(); heeded(got) || got != whole.String() {
			t.Errorf("%q becomes %q, and in one part %q", in, got, whole.String())
		}
		if bare := func(s string) string { return strings.ReplaceAll(s, " ", "") }; bare(out.String()) != bare(in) {
			t.Errorf("%q becomes %q", in, out.String())
		}
	})
}
