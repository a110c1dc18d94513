package plandiff_test

import (
	"context"
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"passband.example/plandiff"
	"passband.example/plandiff/plan"
)

// TestLayoutMeansNothing writes the base plan in other ways: nothing changed.
func TestLayoutMeansNothing(t *testing.T) {
	old := expand(t, base)
	written, err := plan.Files(old.Plan)
	if err != nil {
		t.Fatal(err)
	}
	tests := []struct {
		name  string
		files map[string]string
		why   string
	}{
		{"rewritten", map[string]string{"plan.yaml": string(written["plan.yaml"])}, "keys sorted, blocks for flow, comments gone"},
		{"one file a section", sections(base), "records may stand in any file"},
		{"sections backwards", map[string]string{"plan.yaml": backwards(base)}, "the order of sections means nothing"},
		{"CRLF", map[string]string{"plan.yaml": strings.ReplaceAll(base, "\n", "\r\n")}, "another editor's line ends"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			fsys := fstest.MapFS{}
			for name, text := range tt.files {
				fsys[name] = &fstest.MapFile{Data: []byte(text)}
			}
			p, err := plan.Load(context.Background(), fsys)
			if err != nil || len(p.Problems) > 0 {
				t.Fatal(err, p.Problems)
			}
			if c := plandiff.Compare(old, plan.Expand(p)); !c.Empty() || len(c.Causes) > 0 {
				t.Errorf("%s: %+v", tt.why, c.Changes)
			}
		})
	}
}

var topKey = regexp.MustCompile(`(?m)^[a-z_]+:`)

// parts cuts a plan into its top-level keys, each with what stands under it.
func parts(text string) []string {
	at := topKey.FindAllStringIndex(text, -1)
	var cut []string
	for i, begin := range at {
		end := len(text)
		if i+1 < len(at) {
			end = at[i+1][0]
		}
		cut = append(cut, text[begin[0]:end])
	}
	return cut
}

// sections puts each section into a file of its own, and the header into plan.yaml.
func sections(text string) map[string]string {
	files := make(map[string]string)
	for _, part := range parts(text) {
		key, rest, _ := strings.Cut(part, ":")
		if strings.HasPrefix(rest, "\n") || strings.HasPrefix(rest, " {") {
			files["more/"+key+".yaml"] = part
		} else {
			files["plan.yaml"] += part
		}
	}
	return files
}

func backwards(text string) string {
	cut := parts(text)
	slices.Reverse(cut)
	return strings.Join(cut, "")
}
