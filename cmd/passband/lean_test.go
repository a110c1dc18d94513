package main

import (
	"os/exec"
	"strings"
	"testing"
)

// TestLean holds the program to doing without packages that are far larger than what it would
// use of them. The sizes are what the stripped program was smaller by without them.
func TestLean(t *testing.T) {
	out, err := exec.Command("go", "list", "-deps", "passband.example/cmd/passband").Output()
	if err != nil {
		t.Fatal(err)
	}
	all := strings.Fields(string(out))
	if len(all) < 100 {
		t.Fatalf("the program is made of no more than %d packages?", len(all))
	}
	costs := map[string]string{
		"html/template":                                  "its methods by name make the linker keep every method of every type, 4.6 MB: use review/markup",
		"github.com/go-git/go-git/v5":                    "it brings clients of servers and OpenPGP, 0.8 MB: use its storage layer, as plandiff/history does",
		"github.com/go-git/go-git/v5/plumbing/object":    "it brings OpenPGP: write objects as plandiff/demo does",
		"github.com/go-git/go-git/v5/plumbing/transport": "the program reads local repositories only",
	}
	for _, pkg := range all {
		if why := costs[pkg]; why != "" {
			t.Errorf("%s is in the program; %s", pkg, why)
		}
	}
}
