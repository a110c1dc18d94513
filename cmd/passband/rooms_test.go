package main

import (
	"encoding/json"
	"errors"
	"io"
	"os/exec"
	"slices"
	"strings"
	"testing"
)

// flow is the order of the rooms: nothing imports what stands to its right.
var flow = []string{
	"plandiff/signal", "plandiff/generate", "plandiff/generate/write", "plandiff/plan/tree", "plandiff/plan/memory", "plandiff/plan", "plandiff/plan/plantest", "plandiff",
	"plandiff/rewrite/layout", "plandiff/rewrite", "plandiff/tables", "plandiff/rewrite/styletest", "plandiff/merge", "plandiff/history", "plandiff/chronicle", "plandiff/notes", "plandiff/card", "plandiff/geo", "plandiff/whole", "plandiff/driver", "plandiff/demo",
	"plandiff/start", "review/license", "review/rf", "review/survey", "review", "review/rules", "review/mend", "review/markup", "review/report", "review/page", "review/post", "review/post/forgetest", "review/serve", "cmd/passband", "cmd/release",
}

// TestRoomsPointOneWay fails if a room imports one to its right in the flow, or
// has no place in it.
func TestRoomsPointOneWay(t *testing.T) {
	const module = "passband.example/"
	out, err := exec.Command("go", "list", "-json=ImportPath,Imports", module+"...").Output()
	if err != nil {
		t.Fatal(err)
	}
	rooms := 0
	for dec := json.NewDecoder(strings.NewReader(string(out))); ; rooms++ {
		var room struct {
			ImportPath string
			Imports    []string
		}
		if err := dec.Decode(&room); errors.Is(err, io.EOF) {
			break
		} else if err != nil {
			t.Fatal(err)
		}
		at := slices.Index(flow, strings.TrimPrefix(room.ImportPath, module))
		if at < 0 {
			t.Errorf("%s has no place in the flow", room.ImportPath)
			continue
		}
		for _, path := range room.Imports {
			key, ours := strings.CutPrefix(path, module)
			if ours && slices.Index(flow, key) >= at {
				t.Errorf("%s imports %s, which is to its right", room.ImportPath, path)
			}
		}
	}
	if rooms < len(flow) {
		t.Errorf("%d rooms were found, and the flow names %d", rooms, len(flow))
	}
}
