package plan_test

import (
	"context"
	"regexp"
	"strings"
	"testing"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/plan/plantest"
)

// Texts that no txtar archive can hold: what stands in them is in their bytes.
func TestLoadBytes(t *testing.T) {
	for _, test := range []struct {
		name, why  string
		file, data string
		want       string // of all problems, one a line
	}{
		{"byte order mark", "some editors begin UTF-8 with it; columns count without it",
			"plan.yaml", "\ufeffbogus: 1", `^plan.yaml:1:1: "bogus" is not a section`},
		{"byte order mark in a table", "the first column is still id",
			"operators.csv", "\ufeffid,callsign\n0,N0QRV", `^operators.csv:2:1: id: radio ID "0"`},
		{"CRLF", "a file from Windows has the same lines and values",
			"plan.yaml", "plan: A\r\nnote: |\r\n  x\r\n  y\r\nedition: 1\r\n", `^plan.yaml:5:10: edition: "1" is not an edition`},
		{"CRLF in a table", "a file from Windows has the same rows",
			"operators.csv", "id,callsign,name\r\n9990001,N0QRV,Ann\r\n9990002,Q,Bo\r\n", `^operators.csv:3:9: callsign: callsign "Q"`},
		{"lone carriage return", "editors do not agree on whether it ends a line",
			"plan.yaml", "plan: A\rnote: x", `^plan.yaml:1:8: a carriage return stands alone; .*; save the file with ordinary line ends`},
		{"UTF-16 little end first", "what some editors on Windows call Unicode",
			"plan.yaml", "\xff\xfep\x00l\x00a\x00n\x00:\x00", `^plan.yaml:1:1: the text is UTF-16; .*; save the file as UTF-8`},
		{"UTF-16 big end first", "the same with the other byte order",
			"operators.csv", "\xfe\xff\x00i\x00d", `^operators.csv:1:1: the text is UTF-16`},
		{"UTF-16 without a mark", "every second byte is then zero",
			"plan.yaml", "p\x00l\x00", `^plan.yaml:1:2: there is a control character \(U\+0000\)`},
		{"Latin-1", "what spreadsheets write where nobody asks",
			"operators.csv", "id,callsign,name\n9990001,N0QRV,Zo\xeb\n", `^operators.csv:2:17: the byte 0xeb is not UTF-8 text; .*; save the file as UTF-8`},
		{"cut in a character", "a file cut at its end",
			"plan.yaml", "plan: Zo\xc3", `^plan.yaml:1:9: the byte 0xc3 is not UTF-8 text`},
		{"column behind wide characters", "columns count characters, not bytes",
			"plan.yaml", "# é日\nplan: é日\x07", `^plan.yaml:2:9: there is a control character \(U\+0007\)`},
		{"binary file", "an image that was given the wrong name",
			"plan.yaml", "\x89PNG\r\n\x1a\n\x00", `^plan.yaml:1:1: the byte 0x89 is not UTF-8 text`},
		{"escape sequence", "it could repaint a terminal",
			"plan.yaml", "plan: \x1b[31m", `^plan.yaml:1:7: there is a control character \(U\+001B\)`},
		{"line separator", "it ends a line for YAML and not for an editor",
			"plan.yaml", "plan: a\u2028b", `^plan.yaml:1:8: there is an invisible line separator \(U\+2028\)`},
		{"escaped control character", "double quotes can smuggle one in",
			"plan.yaml", `plan: "a\x1bb"`, `^plan.yaml:1:7: plan: it holds the control character U\+001B`},
		{"escaped line", "a label has one line",
			"plan.yaml", `plan: "a\nb"`, `^plan.yaml:1:7: plan: it holds the control character U\+000A`},
		{"direction mark", "it makes a text read as another",
			"plan.yaml", "plan: a\u202eb", `^plan.yaml:1:7: plan: it holds the direction mark U\+202E`},
		{"zero width space", "two labels could look the same and differ",
			"plan.yaml", "plan: a\u200bb", `^plan.yaml:1:7: plan: it holds the invisible character U\+200B`},
		{"joiner", "some scripts and emoji need it",
			"plan.yaml", "plan: \U0001f468\u200d\U0001f4bb", `^$`},
		{"no-break space alone", "it shows nothing",
			"plan.yaml", "plan: \u00a0", `^plan.yaml:1:7: plan: it is empty`},
		{"long label", "201 characters",
			"plan.yaml", "plan: " + strings.Repeat("é", 201), `it is 201 characters long; the most that passband takes here is 200`},
		{"longest label", "200 characters of two bytes",
			"plan.yaml", "plan: " + strings.Repeat("é", 200), `^$`},
		{"hostile key", "a message repeats no more of it than a line holds, and escapes it",
			"plan.yaml", `zones: {"` + strings.Repeat(`\e`, 100) + `": {}}`, `^plan.yaml:1:9: "(\\x1b){60}…" cannot be a key; [^\x1b]*$`},
	} {
		t.Run(test.name, func(t *testing.T) {
			files := map[string][]byte{"plan.yaml": nil, test.file: []byte(test.data)}
			if got := told(plantest.Load(t, files)); !regexp.MustCompile(test.want).MatchString(got) {
				t.Errorf("%s:\ngot  %s\nwant %s", test.why, got, test.want)
			}
		})
	}
}

func told(p *plan.Plan) string {
	var lines []string
	for _, problem := range p.Problems {
		lines = append(lines, problem.Error())
	}
	return strings.Join(lines, "\n")
}

// Whatever YAML takes a bare text for, its meaning here is what was written.
func TestBareTexts(t *testing.T) {
	for _, text := range []string{
		"yes", "no", "on", "off", "Yes", "y", "n", "true", "False", "023", "0o17", "0x10", "0b1", "1_000", "1e3", "1E3", "+1", "-1",
		"1.0", "1.", ".5", ".inf", "-.inf", ".nan", "NaN", "146:52", "1:30:00", "2024-03-01", "2024-03-01T10:00:00Z", "1,000", "12 34",
		"=", "a b", "a:b", "a#b", "0.1000000000000000055511151231257827", "9007199254740993", "1e400", "00", "-0",
	} {
		p := plantest.Load(t, map[string][]byte{"plan.yaml": []byte("zones: {a: {label: x}}\ngroups:\n  a: {label: x}\n  g:\n    label: " + text + "\n")})
		g, _ := p.Groups.Find("g")
		if len(p.Problems) > 0 || g == nil || g.Label.V != text {
			t.Errorf("label: %s is read as %q %v", text, g.Label.V, p.Problems)
		}
	}
}

// The same value in every style that YAML has for it.
func TestStyles(t *testing.T) {
	for _, test := range []struct{ name, why, value string }{
		{"plain", "most people write this", "Call 2m"},
		{"single quotes", "needed for a colon", "'Call 2m'"},
		{"double quotes", "needed for a backslash", `"Call\x202m"`},
		{"over two lines", "YAML folds the line end to a blank", "Call\n    2m"},
		{"quoted over two lines", "the same between quotes", "\"Call\n    2m\""},
		{"folded", "a block whose lines are joined", ">-\n    Call\n    2m"},
		{"literal", "a block of one line", "|-\n    Call 2m"},
		{"anchored", "a value that others may repeat", "&a Call 2m"},
		{"commented", "a comment is no part of it", "Call 2m # not this"},
	} {
		t.Run(test.name, func(t *testing.T) {
			p := plantest.Load(t, map[string][]byte{"plan.yaml": []byte("channels:\n  a:\n   label: " + test.value + "\n")})
			c, _ := p.Channels.Find("a")
			if len(p.Problems) > 0 || c == nil || c.Label.V != "Call 2m" {
				t.Errorf("%s: %q %v", test.why, c.Label.V, p.Problems)
			}
		})
	}
}

// Numbers are read from the text, digit by digit: a float could hold neither of
// these frequencies exactly, and would round the last two onto one another.
func TestExactFrequencies(t *testing.T) {
	for text, want := range map[string]int64{
		"446.00625": 446_006_250, "446.006250": 446_006_250, "443.4": 443_400_000, "0.100001": 100_001,
		"9999.999999": 9_999_999_999, "146.520001": 146_520_001, "162.55": 162_550_000, "0446.1": 446_100_000,
	} {
		p := plantest.Load(t, map[string][]byte{"plan.yaml": []byte("channels: {a: {simplex: " + text + "}}")})
		c, _ := p.Channels.Find("a")
		if c.Simplex.V != 0 && int64(c.Simplex.V) != want || c.Simplex.V == 0 && len(p.Problems) == 0 {
			t.Errorf("%s is read as %d Hz %v", text, c.Simplex.V, p.Problems)
		}
		if c.Simplex.Text != text {
			t.Errorf("%s is kept as %q", text, c.Simplex.Text)
		}
	}
}

func TestNoPlan(t *testing.T) {
	_, err := plan.Load(context.Background(), plantest.FS(map[string][]byte{"zones.yaml": nil}))
	if err != plan.ErrNoPlan {
		t.Errorf("got %v", err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	_, err = plan.Load(ctx, plantest.FS(map[string][]byte{"plan.yaml": nil}))
	if err != context.Canceled {
		t.Errorf("cancelled: got %v", err)
	}
}

// People may stand in the table twice, and no name can look like a second row.
func TestSameOperators(t *testing.T) {
	p := plantest.Load(t, map[string][]byte{"plan.yaml": nil, "operators.csv": []byte(`id,callsign,name
9990001,N0QRV,Ann
9990001,N0QRV,Ann
9990001,N0QRV,Ann#2
9990001,N0QRV,Ann#2
9990001,N0QRV,
9990001,N0QRV,Ann
`)})
	if p.Operators.Len() != 6 || len(p.Problems) > 0 {
		t.Errorf("%d operators, %v", p.Operators.Len(), p.Problems)
	}
}
