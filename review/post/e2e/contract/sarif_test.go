package contract

import (
	"bytes"
	"fmt"
	"os"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"passband.example/review/report"
	"passband.example/review/rules"
)

func pair(start int32, n int) string { return fmt.Sprintf("%d,%d", start, n) }

// TestSarif holds the findings of the demo's proposal against the schema of SARIF 2.1.0.
func TestSarif(t *testing.T) {
	file, err := os.Open("testdata/sarif.json")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	schema, err := jsonschema.UnmarshalJSON(file)
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	c.AssertFormat()
	if err := c.AddResource("sarif.json", schema); err != nil {
		t.Fatal(err)
	}
	sarif, err := c.Compile("sarif.json")
	if err != nil {
		t.Fatal(err)
	}
	p, _ := north(t)
	for _, folder := range []string{"", "plans/the valley", "a:b/ü?#"} {
		p.Document.New.Folder = folder
		var out bytes.Buffer
		if err := report.Sarif(&out, p.Document, rules.All()); err != nil {
			t.Fatal(err)
		}
		log, err := jsonschema.UnmarshalJSON(&out)
		if err != nil {
			t.Fatal(err)
		}
		if err := sarif.Validate(log); err != nil {
			t.Errorf("%q: %v", folder, err)
		}
		log.(map[string]any)["version"] = "2.0.0"
		if sarif.Validate(log) == nil {
			t.Error("the schema takes anything")
		}
	}
}
