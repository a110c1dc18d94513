package post_test

import (
	"io/fs"
	"testing"

	"passband.example/plandiff/plan"
)

// today is the day on which the tests judge.
var today = plan.Date{Year: 2026, Month: 11, Day: 25}

func read(t testing.TB, files fs.FS, name string) string {
	t.Helper()
	text, err := fs.ReadFile(files, name)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}
