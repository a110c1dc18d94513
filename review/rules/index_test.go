package rules_test

import (
	"flag"
	"fmt"
	"os"
	"strings"
	"testing"

	"passband.example/review"
	"passband.example/review/rules"
)

var update = flag.Bool("update", false, "write index.md anew")

// TestIndex wants the table of all rules to say what the rules say. After a new
// rule, write it with: go test ./review/rules -run TestIndex -update
func TestIndex(t *testing.T) {
	want := index(t)
	if *update {
		if err := os.WriteFile("index.md", []byte(want), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	got, err := os.ReadFile("index.md")
	if err != nil {
		t.Fatal(err)
	}
	if string(got) != want {
		t.Error("index.md is not that of the rules; write it with: go test ./review/rules -run TestIndex -update")
	}
}

// index makes the table of the rules, in the order of their IDs.
func index(t *testing.T) string {
	t.Helper()
	var text strings.Builder
	text.WriteString("# Rules\n\nEach rule, how bad its findings are where the policy of a plan does not say, and what it finds.\n\n")
	text.WriteString("| rule | severity | finds |\n|---|---|---|\n")
	for _, r := range rules.All() {
		page, err := review.ParsePage(r.Doc)
		if err != nil {
			t.Fatal(err)
		}
		file := strings.ReplaceAll(r.ID, "-", "_") + ".md"
		fmt.Fprintf(&text, "| [%s](%s) | %s | %s |\n", r.ID, file, r.Severity, strings.ReplaceAll(page.Title, "|", `\|`))
	}
	return text.String()
}
