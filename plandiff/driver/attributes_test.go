package driver

import (
	"strings"
	"testing"
)

// Whatever stands in .gitattributes, setting up twice is setting up once, and what was there
// before is there again afterwards.
func FuzzAttributes(f *testing.F) {
	for _, seed := range []string{"", "*.txt text\n", "*.txt text", "a\r\nb\r\n", attributes, "x\n" + attributes + "y\n", beginLine + "\n", endLine + "\n", "x " + beginLine + "\n", attributes + attributes, strings.ReplaceAll(attributes, "\n", "\r\n"), beginLine + "\nmine\n" + attributes, "\xff\x00"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		once := with(text, attributes)
		if !strings.Contains(once, attributes) || with(once, attributes) != once {
			t.Fatalf("%q becomes %q, and then %q", text, once, with(once, attributes))
		}
		if before, _ := around(text); before != text {
			return // it had lines of passband's own
		}
		if got := with(once, ""); got != text && got != text+"\n" {
			t.Fatalf("%q comes out as %q", text, got)
		}
	})
}
