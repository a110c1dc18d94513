package main

import (
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/google/licensecheck"
)

// TestLicenses reads the license of each module that the program is made of, on each system of a
// release, as it stands in the module: all of it must be of those that are allowed. The bill of materials
// asks another detector when a release is made; this asks before that, of every change.
func TestLicenses(t *testing.T) {
	modules := make(map[string]string) // where each lies
	for _, system := range strings.Split(Systems, ",") {
		goos, goarch, _ := strings.Cut(system, "/")
		cmd := exec.CommandContext(context.Background(), "go", "list", "-deps", "-f", "{{with .Module}}{{if not .Main}}{{.Path}}\t{{.Dir}}{{end}}{{end}}", "passband.example/cmd/passband")
		cmd.Env = append(os.Environ(), "CGO_ENABLED=0", "GOOS="+goos, "GOARCH="+goarch)
		out, err := cmd.Output()
		if err != nil {
			t.Fatalf("%s: %v", system, err)
		}
		for line := range strings.Lines(string(out)) {
			if path, dir, ok := strings.Cut(strings.TrimSpace(line), "\t"); ok {
				modules[path] = dir
			}
		}
	}
	if len(modules) == 0 {
		t.Fatal("the program is made of no module")
	}
	for path, dir := range modules {
		found := licensesIn(t, dir)
		if len(found) == 0 {
			t.Errorf("%s: no license is known in it: read what it has, and whether the program may be handed out with it", path)
		}
		for _, name := range found {
			if !slices.Contains(slices.Concat(allowed, []string{"MPL-2.0"}), name) || name == "MPL-2.0" && read[path] != "BSD-3-Clause AND MPL-2.0" {
				t.Errorf("%s is under %s, which is not among %s", path, name, strings.Join(allowed, ", "))
			}
		}
		t.Logf("%s: %s", path, strings.Join(found, ", "))
	}
}

// licensesIn gives the names by SPDX of the licenses that stand in the top folder of a module.
func licensesIn(t *testing.T, dir string) []string {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	var found []string
	for _, e := range entries {
		name := strings.ToUpper(e.Name())
		if e.IsDir() || !strings.HasPrefix(name, "LICEN") && !strings.HasPrefix(name, "COPYING") {
			continue
		}
		text, err := os.ReadFile(filepath.Join(dir, e.Name()))
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range licensecheck.Scan(text).Match {
			found = append(found, m.ID)
		}
	}
	slices.Sort(found)
	return slices.Compact(found)
}
