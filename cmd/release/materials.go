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
var allowed = []string{"Apache-2.0", "BSD-2-Clause", "BSD-3-Clause", "ISC", "MIT", "MIT-0", "0BSD", "Unlicense", "BSD-3-Clause AND MPL-2.0"}

// read are licenses that a person read, where the detector takes the text for another or knows none.
var read = map[string]string{
	"std":                 "BSD-3-Clause", // LICENSE of the Go distribution
	"golang.org/x/crypto": "BSD-3-Clause", // the same text
	"golang.org/x/net":    "BSD-3-Clause",
	"golang.org/x/sys":    "BSD-3-Clause",
	"golang.org/x/term":   "BSD-3-Clause",
	"golang.org/x/text":   "BSD-3-Clause",

	// See its COPYING.md. The files under MPL-2.0 bind only who changes
	// them, and their sources stand in the module, which the bill names.
	"github.com/cyphar/filepath-securejoin": "BSD-3-Clause AND MPL-2.0",
}

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

// settle gives a bill of materials the time of the release in the place of what hangs on the
// clock. It fails where a module has no license that is allowed.
func settle(file string, at time.Time) error {
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
	if meta == nil {
		return fmt.Errorf("%s describes no program", file)
	}
	meta["timestamp"] = at.Format(time.RFC3339)
	if tools, ok := meta["tools"].([]any); ok { // that they were built here says nothing of the program
		for _, tool := range tools {
			if t, ok := tool.(map[string]any); ok {
				delete(t, "hashes")
			}
		}
	}
	if data, err = json.MarshalIndent(bill, "", "  "); err != nil {
		return err
	}
	return os.WriteFile(file, append(data, '\n'), 0o666)
}

// licensed reports the modules without a license that is allowed.
func licensed(components []component) error {
	var bad []string
	for _, c := range components {
		names := []string{read[c.Name]}
		for _, l := range slices.Concat(c.Licenses, c.Evidence.Licenses) {
			names = append(names, l.License.ID+l.License.Name+l.Expression)
		}
		if !slices.ContainsFunc(names, func(name string) bool { return slices.Contains(allowed, name) }) {
			bad = append(bad, fmt.Sprintf("%s (%s)", c.Name, strings.Join(names[1:], ", ")))
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
