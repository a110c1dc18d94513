package rules_test

import (
	"testing"

	"github.com/rogpeppe/go-internal/txtar"
	"passband.example/review/rules"
)

// TestFaults judges whole plans by all rules together: in one every section has
// faults on lines of its own, and exactly those are found; its twin has none.
func TestFaults(t *testing.T) {
	for _, tt := range []struct {
		file  string
		least int
		why   string
	}{
		{"faulty", 60, "every section has faults"},
		{"syntax", 1, "a text that is no YAML stops the judging"},
		{"clean", 0, "the same plan without them"},
	} {
		t.Run(tt.file, func(t *testing.T) {
			archive, err := txtar.ParseFile("../../testdata/faults/" + tt.file + ".txtar")
			if err != nil {
				t.Fatal(err)
			}
			files, wants := unpack(t, archive)
			if len(wants) < tt.least || tt.least == 0 && len(wants) > 0 {
				t.Fatalf("%s: %d findings are wanted", tt.why, len(wants))
			}
			compare(t, wants, check(t, rules.All(), load(t, files)))
		})
	}
}
