package report

import (
	"bytes"
	"testing"
)

// TestGolden compares every form of every report with the one that was read and
// found right. The plans are those of testdata/pair.txtar.
func TestGolden(t *testing.T) {
	for name, write := range forms(t) {
		t.Run(name, func(t *testing.T) {
			var out bytes.Buffer
			if err := write(&out); err != nil {
				t.Fatal(err)
			}
			golden(t, name, out.Bytes())
		})
	}
}

// TestSameBytes works everything out again and again: same input, same bytes.
func TestSameBytes(t *testing.T) {
	first := make(map[string]string)
	for range 50 {
		for name, write := range forms(t) {
			var out bytes.Buffer
			if err := write(&out); err != nil {
				t.Fatal(err)
			}
			if was, ok := first[name]; ok && was != out.String() {
				t.Fatalf("%s is not the same every time", name)
			}
			first[name] = out.String()
		}
	}
}
