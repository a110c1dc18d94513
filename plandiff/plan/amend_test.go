package plan_test

import (
	"bytes"
	"reflect"
	"testing"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/plan/plantest"
	"pgregory.net/rapid"
)

// amendsAlike holds Amend against ParseFile: the same plan, places and problems.
func amendsAlike(t interface {
	Helper()
	Fatalf(string, ...any)
}, name string, old, new []byte) {
	t.Helper()
	got := plan.ParseFile(name, old).Amend(new)
	want := plan.ParseFile(name, new)
	if !reflect.DeepEqual(plan.Compose(nil, got), plan.Compose(nil, want)) {
		t.Fatalf("amended, the file says something else: %s\n%s\n%v\n%v\nfrom\n%s\nto\n%s", name,
			plantest.Equal(plan.Compose(nil, got), plan.Compose(nil, want)), plan.Compose(nil, got).Problems, plan.Compose(nil, want).Problems, old, new)
	}
	var a, b plan.Assembly
	a.Put(got)
	b.Put(want)
	if got.Size() != want.Size() || a.Sound() != b.Sound() || !reflect.DeepEqual(a.Totals(), b.Totals()) {
		t.Fatalf("amended, the file counts otherwise: %v and %v\nfrom\n%s\nto\n%s", a.Totals(), b.Totals(), old, new)
	}
}

// Any edit of any plan is amended to what is read anew.
func TestAmendIsParse(t *testing.T) {
	amended := 0
	rapid.Check(t, func(t *rapid.T) {
		files := written(t, plantest.Plan(t))
		old := files[plan.RootFile]
		for range rapid.IntRange(1, 4).Draw(t, "versions") {
			new := spoiledSomewhere(t, old)
			amendsAlike(t, plan.RootFile, old, new)
			if plan.ParseFile(plan.RootFile, old).Amends(new) {
				amended++
			}
			old = new
		}
	})
	if amended == 0 { // 15 of 250 are, give or take 5
		t.Error("no edit was within one record")
	}
}

// spoiledSomewhere puts another character, or a part of the text itself, in the
// place of some characters.
func spoiledSomewhere(t *rapid.T, data []byte) []byte {
	if i := bytes.IndexAny(data, "123456789"); i >= 0 && rapid.Bool().Draw(t, "another digit") {
		new := bytes.Clone(data)
		for range rapid.IntRange(0, 40).Draw(t, "digits before") {
			if n := bytes.IndexAny(data[i+1:], "123456789"); n >= 0 {
				i += 1 + n
			}
		}
		new[i] = byte('1' + rapid.IntRange(0, 8).Draw(t, "digit"))
		return new
	}
	at := rapid.IntRange(0, len(data)).Draw(t, "at")
	end := min(len(data), at+rapid.SampledFrom([]int{0, 0, 1, 1, 1, 5, 40}).Draw(t, "length"))
	what := rapid.SampledFrom([]string{"", "0", "1", "7", "x", " ", "\n", ",", ":", "}", "{", "[", "]", "#", "'", "\"", "&a ", "*a", "|", ">", "- ", "  ", "\n  ", "\n    ", "---\n", "\x00", "é"}).Draw(t, "what")
	return bytes.Join([][]byte{data[:at], []byte(what), data[end:]}, nil)
}

func TestAmend(t *testing.T) {
	tests := []struct {
		name, why, old, new string
		alone               bool // one record is read alone
	}{
		{"a value", "the usual edit", "groups:\n  a: {id: 1}\n  b: {id: 2}\n", "groups:\n  a: {id: 1}\n  b: {id: 37}\n", true},
		{"a value in block style", "the record has several lines", "groups:\n  a:\n    id: 1\n    label: A\n  b: {id: 2}\n", "groups:\n  a:\n    id: 1\n    label: B\n  b: {id: 2}\n", true},
		{"before a comment", "what is behind the record stays", "groups:\n  a: {id: 1}\n# b\n  b: {id: 2}\n", "groups:\n  a: {id: 7}\n# b\n  b: {id: 2}\n", true},
		{"around a comment", "the record goes on behind it", "groups:\n  a:\n    id: 1\n# b\n    label: A\n", "groups:\n  a:\n    id: 2\n# b\n    label: A\n", false},
		{"a key", "it could be one that is there", "groups:\n  a: {id: 1}\n  b: {id: 2}\n", "groups:\n  a: {id: 1}\n  a: {id: 2}\n", false},
		{"a line more", "all places behind it differ", "groups:\n  a:\n    id: 1\n  b: {id: 2}\n", "groups:\n  a:\n    id: 1\n    label: A\n  b: {id: 2}\n", false},
		{"a section in flow style", "a comma ends the value there", "messages: {\n  a: one,\n  b: two}\n", "messages: {\n  a: six,\n  b: two}\n", false},
		{"two records", "both must be read", "groups:\n  a: {id: 1}\n  b: {id: 2}\n", "groups:\n  a: {id: 3}\n  b: {id: 4}\n", false},
		{"an anchor", "others may stand for it", "groups:\n  a: &x {id: 1}\n  b: *x\n", "groups:\n  a: &x {id: 2}\n  b: *x\n", false},
		{"an anchor that comes", "it may be used elsewhere", "groups:\n  a: {id: 1}\n", "groups:\n  a: &x {id: 1}\n", true},
		{"a quote that is not closed", "it could swallow the rest", "messages:\n  a: 'one'\n  b: 'two'\n", "messages:\n  a: 'one \n  b: 'two'\n", false},
		{"a bad value", "its problem must be told", "groups:\n  a: {id: 1}\n", "groups:\n  a: {id: x}\n", false},
		{"a split to nowhere", "its problem is told when the plan is whole", "repeaters:\n  a: {output: 444.325, split: +5}\n", "repeaters:\n  a: {output: 444.325, split: -600}\n", false},
		{"policy", "it is a section within another", "review:\n  severity:\n    a: warn\n", "review:\n  severity:\n    a: note\n", false},
		{"nothing", "the same text again, of which the last record is read", "groups:\n  a: {id: 1}\n", "groups:\n  a: {id: 1}\n", true},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			amendsAlike(t, "a.yaml", []byte(tt.old), []byte(tt.new))
			if got := plan.ParseFile("a.yaml", []byte(tt.old)).Amends([]byte(tt.new)); got != tt.alone {
				t.Errorf("%s: one record alone: %v", tt.why, got)
			}
		})
	}
}

// FuzzAmend holds Amend against ParseFile on any two texts.
func FuzzAmend(f *testing.F) {
	f.Add([]byte("groups:\n  a: {id: 1}\n  b: {id: 2}\n"), 15, 2, "7")
	f.Add([]byte("messages: {\n  a: one,\n  b: two}\n"), 16, 3, "x, y")
	f.Add([]byte("messages:\n  a: one\n   two\n  b: 'x'\n"), 16, 3, "|\n   x")
	f.Add([]byte("channels:\n  a:\n    label: \"x\n\n      y\"\n    fm: {}\n"), 16, 3, "\\\n")
	f.Fuzz(func(t *testing.T, old []byte, at, n int, what string) {
		if at < 0 || n < 0 || at > len(old) || n > len(old)-at || len(old) > 1<<12 {
			return
		}
		amendsAlike(t, "a.yaml", old, bytes.Join([][]byte{old[:at], []byte(what), old[at+n:]}, nil))
	})
}
