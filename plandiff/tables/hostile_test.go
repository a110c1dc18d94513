package tables

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"passband.example/plandiff"
	"passband.example/plandiff/plan"
	"passband.example/plandiff/plan/plantest"
	"pgregory.net/rapid"
)

// hostile are texts that a plan may hold and a table must not be changed by. The first
// are those of the OWASP page on CSV injection.
var hostile = []string{
	`=1+1`, `=cmd|' /C calc'!A0`, `+1+1`, `-2+3+cmd|' /C calc'!D2`, `@SUM(1+1)*cmd|' /C calc'!A0`, `=1+2";=1+2`, `=1+2'" ;,=1+2`, ` =1+1`, "\u00a0=1+1", `＝1+1`, `＋1`, `－1`, `＠SUM`,
	`'`, `''`, `'=1`, `''=1`, `'x`, `' =1`, `"`, `""`, `a"b`, `,`, `;`, `a,b`, `|`, `¦`, `x `, ` x`, `Zoë`, `日本`, `1e3`, `007`, `0x1F`, `2024-03-01`, `TRUE`, `#REF!`, `\`, `\n`, `%s`, `-`, `--`, `+`, `@`, `=`,
}

// TestHostile puts hostile texts into every field of every record that holds a text, and
// wants them as they were, and no cell with a text that a spreadsheet program works out.
func TestHostile(t *testing.T) {
	l := everything(t, whole)
	p := new(plan.Plan)
	for _, s := range plan.Sections() {
		if !slices.ContainsFunc(sources(), func(o *source) bool { return o.kind == s.Kind }) {
			continue
		}
		for i, text := range hostile {
			fill(t, p, s, i, text)
		}
	}
	files, err := plan.Files(p)
	if err != nil {
		t.Fatal(err)
	}
	files["plan.yaml"] = append([]byte("plan: Hostile\n"), files["plan.yaml"]...)
	x := plan.Expand(plantest.Load(t, files))
	if len(x.Plan.Problems) > 0 {
		t.Fatal(x.Plan.Problems[0])
	}
	out, err := Write(x, "", l)
	if err != nil {
		t.Fatal(err)
	}
	cells := 0
	for n, f := range out.Files {
		records, err := strict(string(f.Data), ',')
		if err != nil {
			t.Fatalf("%s: %v", f.Name, err)
		}
		cells += harmless(t, l.Tables[n], records)
	}
	if cells < 1000 {
		t.Errorf("%d cells were looked at", cells)
	}
	in, err := Read(x, "", l, out.Files)
	if err != nil || len(in.Problems) > 0 {
		t.Fatal(err, in.Problems)
	}
	if c := plandiff.Compare(x, plan.Expand(in.Plan)); !c.Empty() {
		t.Errorf("%s: %v", c.Changes[0].Thing, c.Changes[0].Edits)
	}
}

// fill adds a record whose texts are all hostile.
func fill(t *testing.T, p *plan.Plan, s *plan.Section, i int, text string) {
	key := fmt.Sprintf("%s-%d", slug(s.Kind.String()), i)
	if s.Kind == plan.KindShortcut {
		if i > 9 {
			return
		}
		key = fmt.Sprint(i)
	}
	r, err := plan.NewRecord(plan.Thing{Kind: s.Kind, Key: key})
	if err != nil {
		t.Fatal(err)
	}
	for j := range s.Fields {
		if f := &s.Fields[j]; f.Form == plan.Scalar && f.Name != "characters" {
			_ = f.Set(r, []string{text}) // fields that hold no text refuse it
		}
	}
	for field, value := range map[string]string{"output": "146.94", "simplex": "146.52", "fm": "yes", "id": "999", "callsign": "N0QRV"} {
		if f := s.Field(field); f != nil {
			if err := f.Set(r, []string{value}); err != nil {
				t.Fatal(err)
			}
		}
	}
	if err := p.Add(r); err != nil {
		t.Fatal(err)
	}
}

// harmless wants no cell that begins like a formula, but for numbers.
func harmless(t *testing.T, table *Table, records [][]string) int {
	for _, record := range records {
		if len(record) != len(table.Columns) {
			t.Errorf("%s: a record has %d fields: %q", table.File, len(record), record)
			continue
		}
		for i, cell := range record {
			if isFormula(cell) && (table.Columns[i].value.kind == words || !isNumber(cell)) {
				t.Errorf("%s, column %s: a spreadsheet program works out %q", table.File, table.Columns[i].Header, cell)
			}
		}
	}
	return len(records) * len(table.Columns)
}

// TestGuardIsReversible guards any text and takes the guard away.
func TestGuardIsReversible(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.OneOf(rapid.SampledFrom(hostile), rapid.StringOf(rapid.RuneFrom([]rune("'=+-@\t\r\n ＝a\u00a0")))).Draw(t, "text")
		safe := guarded(text)
		if isFormula(safe) {
			t.Fatalf("%q is guarded as %q, which is worked out", text, safe)
		}
		if back := unguarded(safe); back != text {
			t.Fatalf("%q comes back as %q", text, back)
		}
		if !isFormula(strings.TrimLeft(text, "'")) && safe != text {
			t.Fatalf("%q is harmless and was changed to %q", text, safe)
		}
	})
}

// TestStrict wants the strict reader itself to refuse what RFC 4180 does not have.
func TestStrict(t *testing.T) {
	for _, c := range []struct {
		name, why, text string
		want            []string // of the first record; nil: refused
	}{
		{"plain", "RFC 4180 2.1", "aaa,bbb,ccc\r\n", []string{"aaa", "bbb", "ccc"}},
		{"quotes", "RFC 4180 2.5", "\"aaa\",\"bbb\",\"ccc\"\r\n", []string{"aaa", "bbb", "ccc"}},
		{"line end inside", "RFC 4180 2.6", "\"aaa\",\"b\r\nbb\",\"ccc\"\r\n", []string{"aaa", "b\r\nbb", "ccc"}},
		{"quote inside", "RFC 4180 2.7", "\"aaa\",\"b\"\"bb\",\"ccc\"\r\n", []string{"aaa", `b"bb`, "ccc"}},
		{"bare quote", "TEXTDATA has no DQUOTE", "a\"b\r\n", nil},
		{"line feed alone", "a record ends in CRLF", "a\nb\r\n", nil},
		{"open", "a DQUOTE closes", "\"a\r\n", nil},
	} {
		got, err := strict(c.text, ',')
		if (err != nil) != (c.want == nil) || c.want != nil && !slices.Equal(got[0], c.want) {
			t.Errorf("%s (%s): %q, %v", c.name, c.why, got, err)
		}
	}
}
