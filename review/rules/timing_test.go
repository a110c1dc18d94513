package rules_test

import (
	"bytes"
	"context"
	"encoding/json"
	"testing"

	"passband.example/plandiff"
	"passband.example/plandiff/plan"
	"passband.example/plandiff/plan/plantest"
	"passband.example/review"
	"passband.example/review/rules"
)

// TestNeverDependsOnTiming runs all of a review a hundred times: files are parsed and
// plans judged at a time, and the bytes of what comes out must not show it.
func TestNeverDependsOnTiming(t *testing.T) {
	text := plantest.Text(200, 1)["plan.yaml"]
	at := bytes.Index(text, []byte("channels:\n"))
	old := map[string][]byte{"plan.yaml": text[:at], "channels.yaml": text[at:]}
	new := map[string][]byte{"plan.yaml": text[:at], "channels.yaml": editLines(text[at:])}
	var first []byte
	for range 100 {
		loaded := plan.LoadEach(context.Background(), plantest.FS(old), plantest.FS(new))
		c := plandiff.Compare(plan.Expand(loaded[0].Plan), plan.Expand(loaded[1].Plan))
		v, err := review.Judge(context.Background(), rules.All(), c, nil, today)
		if err != nil {
			t.Fatal(err)
		}
		got, err := json.Marshal([]any{c.Changes, c.Causes, v.Findings, v.Gone})
		if err != nil {
			t.Fatal(err)
		}
		if first == nil {
			first = got
		}
		if len(v.Findings) == 0 || c.Empty() || !bytes.Equal(first, got) {
			t.Fatalf("a run of the same review gave\n%s\nand the first\n%s", got, first)
		}
	}
}
