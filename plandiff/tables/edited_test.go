package tables

import (
	"bytes"
	"encoding/csv"
	"slices"
	"testing"

	"passband.example/plandiff"
	"passband.example/plandiff/plan"
	"passband.example/plandiff/plan/plantest"
	"pgregory.net/rapid"
)

// TestEditedCell gives a cell of a random table the text of another row. Either that is
// told to be impossible, or there is a plan whose table has that text there, can be put
// into the files, and read back from them.
func TestEditedCell(t *testing.T) {
	l, err := Neutral()
	if err != nil {
		t.Fatal(err)
	}
	made, refused := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		files, err := plan.Files(plantest.Plan(t))
		if err != nil {
			t.Fatal(err)
		}
		x := plan.Expand(plantest.Load(t, files))
		out, err := Write(x, "", l)
		if err != nil {
			t.Fatal(err)
		}
		n := rapid.IntRange(0, len(out.Files)-1).Draw(t, "table")
		out.Files[n].Data = swapped(t, out.Files[n].Data)
		in, err := Read(x, "", l, out.Files[n:n+1])
		if err != nil {
			t.Fatal(err)
		}
		if in.Plan == nil {
			refused++
			return
		}
		made++
		c := plandiff.Compare(x, plan.Expand(in.Plan))
		if c.Empty() {
			return
		}
		if _, _, err := Carry(files, x, in); err != nil {
			t.Fatal(err)
		}
	})
	t.Logf("%d tables made a plan, %d were refused", made, refused)
	if made == 0 || refused == 0 {
		t.Errorf("%d tables made a plan and %d were refused", made, refused)
	}
}

// swapped puts a cell of one row of a table into another.
func swapped(t *rapid.T, data []byte) []byte {
	rows, err := csv.NewReader(bytes.NewReader(data)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if len(rows) < 3 {
		return data
	}
	from, to := rapid.IntRange(1, len(rows)-1).Draw(t, "from"), rapid.IntRange(1, len(rows)-1).Draw(t, "to")
	column := rapid.IntRange(0, len(rows[0])-1).Draw(t, "column")
	rows = slices.Clone(rows)
	rows[to][column] = rows[from][column]
	var buf bytes.Buffer
	if err := csv.NewWriter(&buf).WriteAll(rows); err != nil {
		t.Fatal(err)
	}
	return buf.Bytes()
}
