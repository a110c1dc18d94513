package plan_test

import (
	"bytes"
	"reflect"
	"slices"
	"testing"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/plan/plantest"
	"pgregory.net/rapid"
)

// A failer is a test of either sort.
type failer interface {
	Helper()
	Fatalf(string, ...any)
}

// amendsAlike holds Amend against ParseFile: the same plan, places and problems. It gives
// the amended file.
func amendsAlike(t failer, name string, f *plan.File, old, new []byte) *plan.File {
	t.Helper()
	got, want := f.Amend(new), plan.ParseFile(name, new)
	amended, read := plan.Compose(nil, got), plan.Compose(nil, want)
	if thing, differ := plan.WordingsDiffer(amended, read); differ {
		t.Fatalf("amended, %s is worded otherwise:\nfrom\n%s\nto\n%s", thing, old, new)
	}
	if !reflect.DeepEqual(amended, read) {
		t.Fatalf("amended, the file says something else: %s\n%s\n%v\n%v\nfrom\n%s\nto\n%s", name,
			plantest.Equal(amended, read), amended.Problems, read.Problems, old, new)
	}
	var a, b plan.Assembly
	a.Put(f)
	a.Put(got)
	b.Put(want)
	if got.Size() != want.Size() || a.Sound() != b.Sound() || !reflect.DeepEqual(a.Totals(), b.Totals()) || !reflect.DeepEqual(a.Mentions(), b.Mentions()) {
		t.Fatalf("amended, the file counts otherwise: %v and %v\nfrom\n%s\nto\n%s", a.Totals(), b.Totals(), old, new)
	}
	partsAlike(t, f, got, plan.ParseFile(name, old), want)
	return got
}

// partsAlike holds the parts of two versions of a file against their wholes: each record
// stands in them as in the whole, and none is missing that differs.
func partsAlike(t failer, was, now, wasWhole, nowWhole *plan.File) {
	t.Helper()
	gone, came := plan.Parts(was, now)
	for _, side := range []struct{ part, whole, other *plan.File }{{gone, wasWhole, nowWhole}, {came, nowWhole, wasWhole}} {
		part, whole, other := plan.Compose(nil, side.part), plan.Compose(nil, side.whole), plan.Compose(nil, side.other)
		for _, s := range plan.Sections() {
			for _, r := range s.All(whole) {
				p, given := s.Find(part, r.Thing().Key)
				o, stays := s.Find(other, r.Thing().Key)
				switch {
				case s.Kind == plan.KindPlan:
				case given && !alike(p, r):
					t.Fatalf("as a part, a record is another:\n%+v\n%+v", p, r)
				case !given && (!stays || !sameFields(s, r, o)):
					t.Fatalf("%s differs and is in no part", r.Thing())
				}
			}
		}
	}
}

// alike holds two records against each other, wordings aside: not every way of reading knows them.
func alike(p, r plan.Record) bool {
	var one, other plan.Plan
	return one.Add(p) == nil && other.Add(r) == nil && !differently(&one, &other) && reflect.DeepEqual(p, r)
}

func differently(p, q *plan.Plan) bool {
	_, differ := plan.WordingsDiffer(p, q)
	return differ
}

func sameFields(s *plan.Section, a, b plan.Record) bool {
	for i := range s.Fields {
		if !s.Fields[i].Same(a, b) {
			return false
		}
	}
	return true
}

// Any edit of any plan is amended to what is read anew, one version after the other.
func TestAmendIsParse(t *testing.T) {
	amended := 0
	rapid.Check(t, func(t *rapid.T) {
		files := written(t, plantest.Plan(t))
		old := files[plan.RootFile]
		f := plan.ParseFile(plan.RootFile, old)
		for range rapid.IntRange(1, 4).Draw(t, "versions") {
			new := old
			for range rapid.SampledFrom([]int{1, 1, 2, 3}).Draw(t, "edits") {
				if rapid.Bool().Draw(t, "whole lines") {
					new = reordered(t, new)
				} else {
					new = spoiledSomewhere(t, new)
				}
			}
			if f.Amends(new) {
				amended++
			}
			f, old = amendsAlike(t, plan.RootFile, f, old, new), new
		}
	})
	if amended < 10 && !testing.Short() { // which draws a fifth as often
		t.Errorf("%d versions could be read apart", amended)
	}
}

// reordered moves, takes away or repeats some lines.
func reordered(t *rapid.T, data []byte) []byte {
	lines := bytes.SplitAfter(data, []byte("\n"))
	from := rapid.IntRange(0, len(lines)-1).Draw(t, "from line")
	to := rapid.IntRange(from, min(len(lines), from+6)).Draw(t, "to line")
	some := slices.Clone(lines[from:to])
	if rapid.IntRange(0, 3).Draw(t, "kept") > 0 {
		lines = slices.Delete(lines, from, to)
	}
	if rapid.IntRange(0, 3).Draw(t, "elsewhere") > 0 {
		lines = slices.Insert(lines, rapid.IntRange(0, len(lines)).Draw(t, "line"), some...)
	}
	return bytes.Join(lines, nil)
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
		apart               bool // the records are read apart
	}{
		{"a value", "the usual edit", "groups:\n  a: {id: 1}\n  b: {id: 2}\n", "groups:\n  a: {id: 1}\n  b: {id: 37}\n", true},
		{"a value in block style", "the record has several lines", "groups:\n  a:\n    id: 1\n    label: A\n  b: {id: 2}\n", "groups:\n  a:\n    id: 1\n    label: B\n  b: {id: 2}\n", true},
		{"before a comment", "what is behind the record stays", "groups:\n  a: {id: 1}\n# b\n  b: {id: 2}\n", "groups:\n  a: {id: 7}\n# b\n  b: {id: 2}\n", true},
		{"around a comment", "the record goes on behind it", "groups:\n  a:\n    id: 1\n# b\n    label: A\n", "groups:\n  a:\n    id: 2\n# b\n    label: A\n", true},
		{"a comment alone", "a record may begin below it", "groups:\n  # one\n  a: {id: 1}\n", "groups:\n  # one\n  # and only\n  a: {id: 1}\n", true},
		{"a text that goes on in a comment", "it is no comment then", "groups:\n  a:\n    id: 1\n    note: one\n\n      # two\n  b: {id: 2}\n", "groups:\n  a:\n    id: 1\n    note: |\n      one\n\n      # two\n  b: {id: 2}\n", true},
		{"a key", "it could be one that is there", "groups:\n  a: {id: 1}\n  b: {id: 2}\n", "groups:\n  a: {id: 1}\n  a: {id: 2}\n", false},
		{"another key", "the record has another name", "groups:\n  a: {id: 1}\n  b: {id: 2}\n", "groups:\n  a: {id: 1}\n  c: {id: 2}\n", true},
		{"the same record twice", "its key is there", "groups:\n  a: {id: 1}\n  b: {id: 2}\n", "groups:\n  a: {id: 1}\n  a: {id: 1}\n  b: {id: 2}\n", false},
		{"the same key in another section", "it is another record", "groups:\n  a: {id: 1}\nzones:\n  b: {}\n", "groups:\n  a: {id: 1}\nzones:\n  b: {}\n  a: {}\n", true},
		{"a line more", "all places behind it differ", "groups:\n  a:\n    id: 1\n  b: {id: 2}\n", "groups:\n  a:\n    id: 1\n    label: A\n  b: {id: 2}\n", true},
		{"a record more", "the same", "groups:\n  a: {id: 1}\n  b: {id: 2}\nzones:\n  z: {}\n", "groups:\n  a: {id: 1}\n  c: {id: 3}\n  b: {id: 2}\nzones:\n  z: {}\n", true},
		{"a record less", "the same", "groups:\n  a: {id: 1}\n  b: {id: 2}\nzones:\n  z: {}\n", "groups:\n  b: {id: 2}\nzones:\n  z: {}\n", true},
		{"the last record less", "the section would be empty", "groups:\n  a: {id: 1}\nzones:\n  z: {}\n", "groups:\nzones:\n  z: {}\n", true},
		{"records in another order", "none is read", "groups:\n  a: {id: 1}\n  b:\n    id: 2\n  c: {id: 3}\n", "groups:\n  c: {id: 3}\n  a: {id: 1}\n  b:\n    id: 2\n", true},
		{"a section in flow style", "it is one piece", "messages: {\n  a: one,\n  b: two}\n", "messages: {\n  a: six,\n  b: two}\n", true},
		{"a section in flow style to the left", "the lines look like sections", "messages: {\na: one,\nb: two}\n", "messages: {\na: six,\nb: two}\n", false},
		{"a flow that goes on to the left", "the record ends there only", "groups:\n  a: {id: 1,\nlabel: A}\n", "groups:\n  a: {id: 2,\nlabel: A}\n", false},
		{"two records", "both are read", "groups:\n  a: {id: 1}\n  b: {id: 2}\n", "groups:\n  a: {id: 3}\n  b: {id: 4}\n", true},
		{"records further to the left", "none is where the first one says", "groups:\n  a: {id: 1}\n  b: {id: 2}\n", "groups:\n a: {id: 1}\n  b: {id: 2}\n", false},
		{"records further to the right", "the same", "groups:\n    a: {id: 1}\n", "groups:\n    a: {id: 1}\n  b: {id: 2}\n", false},
		{"four blanks", "that is a way to write it", "groups:\n    a: {id: 1}\n    b:\n        id: 2\n", "groups:\n    a: {id: 1}\n    c: {id: 3}\n    b:\n        id: 4\n", true},
		{"one blank in a section, and two in another", "each has its own", "groups:\n a: {id: 1}\nzones:\n  z: {}\n", "groups:\n a: {id: 1}\n b: {id: 2}\nzones:\n  y: {}\n", true},
		{"all further in", "the records say the same", "groups:\n  a: {id: 1}\n  b: {id: 2}\n", "groups:\n    a: {id: 1}\n    b: {id: 2}\n", true},
		{"a section more", "it may stand there twice", "groups:\n  a: {id: 1}\n", "groups:\n  a: {id: 1}\ngroups:\n  b: {id: 1}\n", false},
		{"an anchor", "others may stand for it", "groups:\n  a: &x {id: 1}\n  b: *x\n", "groups:\n  a: &x {id: 2}\n  b: *x\n", false},
		{"an anchor that comes", "it may be used elsewhere", "groups:\n  a: {id: 1}\n", "groups:\n  a: &x {id: 1}\n", false},
		{"no anchor", "it is within a word", "groups:\n  a: {id: 1, label: R&D}\n", "groups:\n  a: {id: 2, label: R&D}\n", true},
		{"a quote that is not closed", "it could swallow the rest", "messages:\n  a: 'one'\n  b: 'two'\n", "messages:\n  a: 'one \n  b: 'two'\n", false},
		{"a bad value", "its problem must be told", "groups:\n  a: {id: 1}\n", "groups:\n  a: {id: x}\n", false},
		{"a split to nowhere", "its problem is told when the plan is whole", "repeaters:\n  a: {output: 444.325, split: +5}\n", "repeaters:\n  a: {output: 444.325, split: -600}\n", false},
		{"policy", "it is a section within another, and one piece", "review:\n  severity:\n    a: warn\n", "review:\n  severity:\n    a: note\n", true},
		{"policy that moves", "its places differ", "groups:\n  a: {id: 1}\nreview:\n  severity:\n    a: warn\n", "groups:\n  a: {id: 1}\n  b: {id: 2}\nreview:\n  severity:\n    a: warn\n", true},
		{"another line end at the end", "the last record has none", "groups:\n  a: {id: 1}", "groups:\n  a: {id: 1}\n  b: {id: 2}", true},
		{"nothing", "the same text again", "groups:\n  a: {id: 1}\n", "groups:\n  a: {id: 1}\n", true},
		{"no record at all", "it is read as a whole", "groups:\n  a: {id: 1}\n", "", false},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			amendsAlike(t, "a.yaml", plan.ParseFile("a.yaml", []byte(tt.old)), []byte(tt.old), []byte(tt.new))
			if got := plan.ParseFile("a.yaml", []byte(tt.old)).Amends([]byte(tt.new)); got != tt.apart {
				t.Errorf("%s: records read apart: %v", tt.why, got)
			}
		})
	}
}

// FuzzAmend holds Amend against ParseFile on any two texts.
func FuzzAmend(f *testing.F) {
	f.Add([]byte("groups:\n  a: {id: 1}\n  b: {id: 2}\n"), 15, 2, "7")
	f.Add([]byte("messages: {\n  a: one,\n  b: two}\n"), 16, 3, "x, y")
	f.Add([]byte("messages:\n  a: one\n   two\n  b: 'x'\n"), 16, 3, "|\n   x")
	f.Add([]byte("groups:\n  a:\n    id: 1\n    note: one\n\n      # two\n  b: {id: 2}\n"), 31, 3, "|\n     x")
	f.Add([]byte("groups:\n  a: {id: 1,\nlabel: A}\n  b: {id: 2}\n"), 17, 1, "2")
	f.Add([]byte("groups:\n    a: {id: 1}\n    b: {id: 2}\nzones:\n z: {}\n"), 10, 4, "  ")
	f.Add([]byte("channels:\n  a:\n    label: \"x\n\n      y\"\n    fm: {}\n"), 16, 3, "\\\n")
	f.Fuzz(func(t *testing.T, old []byte, at, n int, what string) {
		if at < 0 || n < 0 || at > len(old) || n > len(old)-at || len(old) > 1<<12 {
			return
		}
		amendsAlike(t, "a.yaml", plan.ParseFile("a.yaml", old), old, bytes.Join([][]byte{old[:at], []byte(what), old[at+n:]}, nil))
	})
}
