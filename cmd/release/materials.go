package main

import (
	"encoding/json"
	"fmt"
	"os"
	"slices"
	"strings"
	"time"
)

// allowed are the licenses that what the program is made of may have, by their names of the
// SPDX list: all let a program under Apache 2.0 be handed out with the text of the license alone.
var allowed = []string{"Apache-2.0", "BSD-2-Clause", "BSD-3-Clause", "ISC", "MIT", "MIT-0", "0BSD", "Unlicense"}

// A component is a module in the bill of materials, as far as it is read here.
type component struct {
	Name     string `json:"name"`
	Evidence struct {
		Licenses []choice `json:"licenses"`
	} `json:"evidence"`
	Licenses []choice `json:"licenses"`
}

type choice struct {
	License struct {
		ID   string `json:"id"`
		Name string `json:"name"`
	} `json:"license"`
	Expression string `json:"expression"`
}

// settle gives a bill of materials the version and time of the release in the place of what hangs
// on the clone and the clock. It fails where a module has no license that is allowed.
func settle(file, version string, at time.Time) error {
	data, err := os.ReadFile(file)
	if err != nil {
		return err
	}
	var parts struct {
		Components []component `json:"components"`
	}
	if err := json.Unmarshal(data, &parts); err != nil {
		return err
	}
	if err := licensed(parts.Components); err != nil {
		return err
	}
	var bill map[string]any
	if err := json.Unmarshal(data, &bill); err != nil {
		return err
	}
	meta, _ := bill["metadata"].(map[string]any)
	program, _ := meta["component"].(map[string]any)
	if program == nil {
		return fmt.Errorf("%s names no program", file)
	}
	before, _ := program["version"].(string)
	meta["timestamp"] = at.Format(time.RFC3339)
	if data, err = json.MarshalIndent(bill, "", "  "); err != nil {
		return err
	}
	text := string(data)
	if before != "" { // it stands in references to the program too
		text = strings.ReplaceAll(text, before, version)
	}
	return os.WriteFile(file, []byte(text+"\n"), 0o666)
}

// licensed reports the modules without a license that is allowed.
func licensed(components []component) error {
	var bad []string
	for _, c := range components {
		var names []string
		for _, l := range slices.Concat(c.Licenses, c.Evidence.Licenses) {
			names = append(names, l.License.ID+l.License.Name+l.Expression)
		}
		if !slices.ContainsFunc(names, func(name string) bool { return slices.Contains(allowed, name) }) {
			bad = append(bad, fmt.Sprintf("%s (%s)", c.Name, strings.Join(names, ", ")))
		}
	}
	if len(bad) > 0 {
		return fmt.Errorf("no license among %s: %s", strings.Join(allowed, ", "), strings.Join(bad, "; "))
	}
	if len(components) == 0 {
		return fmt.Errorf("no modules are listed")
	}
	return nil
}
