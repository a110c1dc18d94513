package signal

import (
	"strings"
	"testing"
)

func TestErrorQuotes(t *testing.T) {
	for _, c := range []struct{ name, text, want, why string }{
		{"plain", "146,9", `x "146,9" p; i`, "as written"},
		{"control", "1\x1b[31m\n2", `x "1\x1b[31m\n2" p; i`, "an escape sequence would color the terminal"},
		{"direction", "\u202e1", `x "\u202e1" p; i`, "an override would turn the line around"},
		{"printable", "N\u00d8", "x \"N\u00d8\" p; i", "a reader should know his own letters"},
		{"invalid", "\xff", `x "\xff" p; i`, "the report must be valid UTF-8"},
		{"long", strings.Repeat("7", 41), `x "` + strings.Repeat("7", 40) + `"... p; i`, "an error is one line"},
		{"long in a letter", strings.Repeat("7", 39) + "\u00d8", `x "` + strings.Repeat("7", 39) + `"... p; i`, "a letter is not cut in two"},
		{"long and invalid", strings.Repeat("\x80", 50), `x "` + strings.Repeat(`\x80`, 36) + `"... p; i`, "no letter begins anywhere"},
	} {
		t.Run(c.name, func(t *testing.T) {
			e := &Error{Kind: "x", Text: c.text, Problem: "p", Instead: "i"}
			if e.Error() != c.want {
				t.Errorf("got %s, want %s, because %s", e, c.want, c.why)
			}
		})
	}
}
