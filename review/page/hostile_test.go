package page_test

import (
	"encoding/json"
	"strings"
	"testing"
	"testing/fstest"
	"unicode"

	"golang.org/x/net/html"
	"passband.example/plandiff/plan"
)

// anyText has a text in each place where a plan may hold any text.
const anyText = `plan: @T
edition: 2026
region: US
license: technician
note: @T
repeaters:
  ridge: {label: @T, callsign: N0QRV, output: 444.325, split: +5, fm: {tone: 103.5}, dmr: {color_code: 4, slot1: [statewide]}, site: {lat: 40.1, lon: -104.2}, note: @T}
  knob: {label: @T, output: 146.940, split: -0.6, fm: {}, site: {grid: DN70}}
groups:
  statewide: {id: 99931, label: @T, note: @T}
receive_lists:
  all: {label: @T, groups: [statewide], note: @T}
channels:
  calling-2m: {label: @T, simplex: 146.52, fm: {}, note: @T}
  off: {label: @T, simplex: 149.52, fm: {}, note: @T}
zones:
  home: {label: @T, channels: ["ridge/*/*", ridge/fm, calling-2m, off], note: @T}
scan_lists:
  hills: {label: @T, channels: [calling-2m], note: @T}
messages:
  late: @T
radios:
  pocket: {label: @T, bands: [136-174, 400-480], modes: [fm, dmr], label_length: 8, characters: unicode, note: @T}
review:
  accept:
    - {rule: off-band, at: off, until: 2027-06-01, reason: @T}
`

func withText(t testing.TB, s string) *plan.Expansion {
	t.Helper()
	quoted := `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`).Replace(s) + `"`
	x := expand(t, fstest.MapFS{
		"plan.yaml":     {Data: []byte(strings.ReplaceAll(anyText, "@T", quoted))},
		"operators.csv": {Data: []byte("id,callsign,name\n9990001,N0QRX,\"" + strings.ReplaceAll(s, `"`, `""`) + "\"\n")},
	})
	if len(x.Plan.Problems) > 0 {
		t.Fatalf("%q: %v", s, x.Plan.Problems)
	}
	return x
}

// hostile are texts that mean something to a browser, a template or a reader of data.
var hostile = []string{
	`<script>document.title="ran"</script>`, `</script><script>document.title="ran"</script>`, `"><img src=x onerror=document.title="ran">`,
	`</title></style><svg onload=document.title="ran">`, `<!--<script>`, `-->`, `]]>`, `</textarea></template>`, `{{.}} {{template "page"}}`, "${document.title}", "`+document.title+`",
	`javascript:document.title="ran"`, `&lt;b&gt; &#60;`, `' onmouseover='x`, `\u003cscript\u003e \x3c`, `<a href=//x.example>x</a>`, `url(//x.example) @import`,
	"</desc></title><foreignObject><body>", "漢字 🛰 é ẞ", strings.Repeat("W", 150), `</caption></table><table>`, `=1+1`, `</dl></article></main>`,
}

// TestHostile fills every text of a plan: the page keeps the elements and attributes that
// harmless texts of that length give.
func TestHostile(t *testing.T) {
	empty := withText(t, "q") // no letter of the others: a change of text is shown by its pieces
	for _, s := range hostile {
		tame := strings.Map(func(r rune) rune {
			if unicode.IsSpace(r) {
				return r
			}
			return 'x'
		}, s)
		want, got := shape(parse(t, render(t, changing(t, empty, withText(t, tame))))), shape(parse(t, render(t, changing(t, empty, withText(t, s)))))
		if want != got {
			t.Errorf("%q changes the shape of the page from character %d on", s, common(want, got))
		}
	}
}

// shape gives the elements of a page with their attributes. The values are part of it: a text of
// a plan stands in no attribute but aria-label, so that none becomes a class, an address or a form.
func shape(root *html.Node) string {
	var b strings.Builder
	for n := range root.Descendants() {
		if n.Type == html.CommentNode {
			b.WriteString("<!>")
		}
		if n.Type != html.ElementNode {
			continue
		}
		b.WriteString("<" + n.Data)
		for _, a := range n.Attr {
			b.WriteString(" " + a.Key)
			if a.Key != "aria-label" {
				b.WriteString("=" + a.Val)
			}
		}
		b.WriteString(">")
	}
	return b.String()
}

func common(a, b string) int {
	n := 0
	for n < len(a) && n < len(b) && a[n] == b[n] {
		n++
	}
	return n
}

// TestHostileText finds each text again as a reader sees it, in the page and in the data
// of the script.
func TestHostileText(t *testing.T) {
	for _, s := range hostile {
		root := parse(t, render(t, standing(t, withText(t, s))))
		if got := textOf(elements(root, "h1")[0]); got != strings.Join(strings.Fields(s), " ") {
			t.Errorf("%q is shown as %q", s, got)
		}
		var data struct{ Columns []struct{ Values []string } }
		if err := json.Unmarshal([]byte(byID(root, "channel-data").FirstChild.Data), &data); err != nil {
			t.Fatalf("%q breaks the data: %v", s, err)
		}
		if got := strings.Join(data.Columns[0].Values, "\n"); !strings.Contains(got, s) {
			t.Errorf("%q is no label in the data: %q", s, got)
		}
	}
}

// TestHidden puts what cannot be seen where a plan does not come from a loader: the name
// and the subject of a commit.
func TestHidden(t *testing.T) {
	d := standing(t, withText(t, "x"))
	d.New.Name, d.New.Subject = "a\u202eb", "c\u200b\x1b[31md"
	text := string(render(t, d))
	for _, hidden := range []string{"\u202e", "\u200b", "\x1b"} {
		if strings.Contains(text, hidden) {
			t.Errorf("%q gets through", hidden)
		}
	}
	if got := textOf(elements(parse(t, []byte(text)), "header")[0]); !strings.Contains(got, "a<U+202E>b") {
		t.Errorf("and is not shown as its code point: %s", got)
	}
}
