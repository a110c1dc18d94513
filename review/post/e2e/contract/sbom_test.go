package contract

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	cyclonedx "github.com/CycloneDX/cyclonedx-go"
	"github.com/santhosh-tekuri/jsonschema/v6"
)

// TestBillsOfMaterials holds the bills of materials of a release, in the folder that
// PASSBAND_RELEASE names, against the published schema of CycloneDX 1.6, which its Go library carries.
func TestBillsOfMaterials(t *testing.T) {
	folder := os.Getenv("PASSBAND_RELEASE")
	if folder == "" {
		t.Skip("PASSBAND_RELEASE names no folder that go run ./cmd/release has made")
	}
	bills, err := filepath.Glob(filepath.Join(folder, "*.sbom.json"))
	if err != nil || len(bills) == 0 {
		t.Fatalf("there is no bill of materials in %s: %v", folder, err)
	}
	schema := billSchema(t)
	for _, name := range bills {
		file, err := os.Open(name)
		if err != nil {
			t.Fatal(err)
		}
		bill, err := jsonschema.UnmarshalJSON(file)
		if err != nil {
			t.Fatal(err)
		}
		if err := schema.Validate(bill); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		if _, err := file.Seek(0, 0); err != nil {
			t.Fatal(err)
		}
		var read cyclonedx.BOM
		if err := cyclonedx.NewBOMDecoder(file, cyclonedx.BOMFileFormatJSON).Decode(&read); err != nil || read.Components == nil || len(*read.Components) < 10 {
			t.Errorf("%s: the library reads %v, %v", name, read.Components, err)
		}
		_ = file.Close()
		bill.(map[string]any)["components"] = "none"
		if schema.Validate(bill) == nil {
			t.Error("the schema takes anything")
		}
	}
}

// billSchema compiles the schema of CycloneDX 1.6 with the two that it refers to.
func billSchema(t *testing.T) *jsonschema.Schema {
	t.Helper()
	out, err := exec.Command("go", "list", "-m", "-f", "{{.Dir}}", "github.com/CycloneDX/cyclonedx-go").Output()
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	for name, local := range map[string]string{"bom-1.6.schema.json": "bom-1.6.schema.json", "spdx.schema.json": "spdx.schema.json", "jsf-0.82.schema.json": "jsf-0.82.schema*.json"} {
		found, err := filepath.Glob(filepath.Join(strings.TrimSpace(string(out)), "schema", local))
		if err != nil || len(found) != 1 {
			t.Fatalf("%s: %v, %v", local, found, err)
		}
		file, err := os.Open(found[0])
		if err != nil {
			t.Fatal(err)
		}
		defer file.Close()
		schema, err := jsonschema.UnmarshalJSON(file)
		if err != nil {
			t.Fatal(err)
		}
		if err := c.AddResource("http://cyclonedx.org/schema/"+name, schema); err != nil {
			t.Fatal(err)
		}
	}
	schema, err := c.Compile("http://cyclonedx.org/schema/bom-1.6.schema.json")
	if err != nil {
		t.Fatal(err)
	}
	return schema
}
