package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// Archives hang on the contents alone: not on when and where they are made.
func TestArchivesAreReproducible(t *testing.T) {
	for _, zipped := range []bool{false, true} {
		var made [2][]byte
		for i := range made {
			dir := t.TempDir()
			file := filepath.Join(dir, "passband")
			if err := os.WriteFile(file, []byte("a program"), []os.FileMode{0o600, 0o777}[i]); err != nil {
				t.Fatal(err)
			}
			if err := os.Chtimes(file, time.Time{}, time.Unix(int64(i)*86400, 0)); err != nil {
				t.Fatal(err)
			}
			r := &release{dir: dir, at: time.Unix(1_800_000_000, 0).UTC()}
			if err := r.archive("passband-1", zipped, []string{file}); err != nil {
				t.Fatal(err)
			}
			archives, err := filepath.Glob(filepath.Join(dir, "passband-1.*"))
			if err != nil || len(archives) != 1 {
				t.Fatal(archives, err)
			}
			if made[i], err = os.ReadFile(archives[0]); err != nil {
				t.Fatal(err)
			}
		}
		if !bytes.Equal(made[0], made[1]) || len(made[0]) == 0 {
			t.Errorf("zipped %v: two archives of the same differ", zipped)
		}
	}
}

// The digest is that of "abc" in FIPS 180-4's published examples (NIST CSRC, SHA256.pdf).
func TestChecksums(t *testing.T) {
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "a"), []byte("abc"), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := checksums(dir); err != nil {
		t.Fatal(err)
	}
	got, err := os.ReadFile(filepath.Join(dir, "SHA256SUMS"))
	want := "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad  a\n"
	if err != nil || string(got) != want {
		t.Errorf("got %q, %v", got, err)
	}
}

func TestSettle(t *testing.T) {
	const bill = `{"metadata": {"timestamp": "now", "component": {"name": "p", "version": "2026.1"}}, "components": [%s]}`
	tests := []struct {
		name, why, components, fails string
	}{
		{"allowed", "one of the list", `{"name": "a", "evidence": {"licenses": [{"license": {"id": "MIT"}}]}}`, ""},
		{"copyleft", "the whole program would fall under it", `{"name": "a", "evidence": {"licenses": [{"license": {"id": "AGPL-3.0"}}]}}`, "a (AGPL-3.0)"},
		{"none", "without a license nothing is allowed", `{"name": "a"}, {"name": "b", "licenses": [{"license": {"id": "MIT"}}]}`, "a ()"},
		{"nothing", "an empty bill is no bill", ``, "no modules"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			file := filepath.Join(t.TempDir(), "sbom.json")
			if err := os.WriteFile(file, []byte(strings.Replace(bill, "%s", tt.components, 1)), 0o600); err != nil {
				t.Fatal(err)
			}
			err := settle(file, time.Unix(0, 0).UTC())
			if tt.fails != "" {
				if err == nil || !strings.Contains(err.Error(), tt.fails) {
					t.Errorf("%s: %v", tt.why, err)
				}
				return
			}
			got, _ := os.ReadFile(file)
			if err != nil || !strings.Contains(string(got), "1970-01-01T00:00:00Z") {
				t.Errorf("%s: %v\n%s", tt.why, err, got)
			}
		})
	}
}
