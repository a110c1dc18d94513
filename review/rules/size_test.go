package rules_test

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/plan/plantest"
	"passband.example/review"
	"passband.example/review/rules"
)

// TestRadioIDSharedInALargeTable takes a table of the size of all operators of the world
// (300,000 rows), in which two rows share an ID.
func TestRadioIDSharedInALargeTable(t *testing.T) {
	var table strings.Builder
	table.WriteString("id,callsign,name\n")
	for i := range 300_000 {
		fmt.Fprintf(&table, "%d,N%dQR%c,Person\n", 9000001+i, i%10, 'A'+i%26)
	}
	table.WriteString("9150001,N0QUZ,Other\n")
	found := findings(t, rules.RadioIDShared, map[string]string{"plan.yaml": header, "operators.csv": table.String()})
	if len(found) != 1 || found[0].At.Line != 300_002 || found[0].Also[0].At.Line != 150_002 {
		t.Errorf("want the last row and the one that it takes the ID of, got %+v", found)
	}
}

// BenchmarkRules runs each rule over a plan of 100,000 channels.
func BenchmarkRules(b *testing.B) {
	x := plan.Expand(plantest.Load(b, plantest.Text(100_000, 1)))
	for _, r := range rules.All() {
		if r.Run == nil {
			continue
		}
		b.Run(r.ID, func(b *testing.B) {
			for b.Loop() {
				v, err := review.Check(context.Background(), []*review.Rule{r}, x, today)
				if err != nil || v.Rules != 1 {
					b.Fatal(err, v.Skipped)
				}
			}
		})
	}
}
