package post_test

import (
	"io/fs"
	"testing"
)

func read(t testing.TB, files fs.FS, name string) string {
	t.Helper()
	text, err := fs.ReadFile(files, name)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}
