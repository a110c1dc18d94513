package plan_test

import (
	"fmt"
	"strings"
	"testing"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/plan/plantest"
)

const goodRow = ",amateur,,,145.2,145.3,no,all,,,,our nets,decision of the club,2026-03,read,"

func TestLicenseRows(t *testing.T) {
	for _, test := range []struct {
		name, why string
		files     map[string]string
		rows      int
		want      string // of all problems, one a line
	}{
		{"rows", "comments are left out", map[string]string{"license.csv": "# ours\n" + plan.LicenseColumns + "\n" + goodRow + "\n"}, 1, `^$`},
		{"empty", "a file that says nothing yet", map[string]string{"license.csv": "# ours\n"}, 0, `^$`},
		{"other columns", "nothing can be told of them", map[string]string{"license.csv": "low,high\n1,2\n"}, 0, `^license.csv:1:1: the columns of this table are not`},
		{"too few cells", "one of them was forgotten", map[string]string{"license.csv": plan.LicenseColumns + "\n,amateur,1,2\n" + goodRow + "\n"}, 1, `^license.csv:2:1: this row has another number of columns`},
		{"twice", "an edit of one would do nothing", map[string]string{"license.csv": plan.LicenseColumns + "\n" + goodRow + "\n" + goodRow + "\n"}, 1, `^license.csv:3:1: the key ",amateur,,,145.2,.*" was written before, at license.csv:2:1`},
		{"comment in quotes", "it would be lost when it is written", map[string]string{"license.csv": plan.LicenseColumns + "\n\"#\"" + goodRow + "\n"}, 0, `^license.csv:2:1: row: its first cell begins with #`},
		{"two lines", "a row stands on one line", map[string]string{"license.csv": plan.LicenseColumns + "\n" + strings.Replace(goodRow, "our nets", "\"our\nnets\"", 1) + "\n"}, 0, `^license.csv:2:1: row: it holds the control character U\+000A`},
		{"too many", "every frequency is held against each row", map[string]string{"license.csv": plan.LicenseColumns + "\n" + manyRows(plan.MaxLicenseRows+2)}, plan.MaxLicenseRows, `^license.csv:202:1: there are more than 200 rows here`},
		{"in a folder", "it would be overlooked", map[string]string{"air/license.csv": plan.LicenseColumns + "\n"}, 0, `^air/license.csv: this file belongs beside plan.yaml`},
	} {
		t.Run(test.name, func(t *testing.T) {
			files := map[string][]byte{"plan.yaml": nil}
			for name, text := range test.files {
				files[name] = []byte(text)
			}
			p := plantest.Load(t, files)
			if p.LicenseRows.Len() != test.rows {
				t.Errorf("%d rows, want %d: %s", p.LicenseRows.Len(), test.rows, test.why)
			}
			wantTold(t, p, test.want)
		})
	}
}

func manyRows(n int) string {
	var b strings.Builder
	for i := range n {
		fmt.Fprintf(&b, ",amateur,,,145.2,145.3,no,all,,,,our nets,decision %d,2026-03,read,\n", i)
	}
	return b.String()
}

// FuzzLicense: no text makes Load panic, and rows without a problem are written and read
// back as they are.
func FuzzLicense(f *testing.F) {
	f.Add([]byte(plan.LicenseColumns + "\n" + goodRow + "\n"))
	f.Add([]byte(plan.LicenseColumns + "\n\"#\"" + goodRow + "\n"))
	f.Add([]byte("\xff\xfe"))
	f.Fuzz(func(t *testing.T, table []byte) {
		p := plantest.Load(t, map[string][]byte{"plan.yaml": []byte("plan: x\n"), "license.csv": table})
		if len(p.Problems) > 0 {
			return
		}
		written, err := plan.Files(p)
		if err != nil {
			t.Fatal(err)
		}
		again := plantest.Load(t, written)
		if diff := plantest.Equal(p, again); diff != "" || len(again.Problems) > 0 {
			t.Fatalf("%s %v\n%s", diff, again.Problems, written["license.csv"])
		}
	})
}

// A change is judged by the rows of its base.
func TestClubRowsAreTheBases(t *testing.T) {
	with := plantest.Load(t, map[string][]byte{"plan.yaml": nil, "license.csv": []byte(plan.LicenseColumns + "\n" + goodRow + "\n")})
	without := plantest.Load(t, map[string][]byte{"plan.yaml": nil})
	if got := without.Under(with, nil).ClubRows(); len(got) != 1 {
		t.Errorf("a change that takes a row out is judged by %d rows, want that of its base", len(got))
	}
	if got := with.Under(without, nil).ClubRows(); len(got) != 0 {
		t.Errorf("a change that adds a row is judged by %d rows, want none", len(got))
	}
	if with.Under(with, nil) != with || len(with.ClubRows()) != 1 {
		t.Error("a plan alone is judged by its own rows")
	}
}

// A channel says privacy for itself, or has it from its repeater.
func TestPrivacy(t *testing.T) {
	x := plan.Expand(plantest.Load(t, map[string][]byte{"plan.yaml": []byte(`
groups: {a: {id: 99931}}
repeaters:
  ridge: {output: 444.3, split: +5, fm: {}, dmr: {color_code: 1, privacy: yes, slot1: [a]}}
channels:
  open: {path: ridge/1/a, dmr: {privacy: no}}
  same: {path: ridge/1/a}
  own: {simplex: 433.45, dmr: {color_code: 1, group: a, privacy: yes}}
  not: {simplex: 433.55, dmr: {color_code: 1, group: a}}
`)}))
	for name, want := range map[string]bool{"ridge/fm": false, "open": false, "same": true, "own": true, "not": false} {
		if c, ok := x.Find(name); !ok || c.Privacy != want {
			t.Errorf("%s: want privacy %v, got %+v", name, want, c)
		}
	}
}
