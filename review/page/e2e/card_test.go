package e2e

import (
	"bytes"
	"fmt"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"

	"passband.example/plandiff/card"
	"passband.example/plandiff/demo"
	"passband.example/plandiff/plan"
	"passband.example/review"
	"passband.example/review/report"
	"passband.example/review/rules"
)

// cards gives the cards of all zones of a plan, and of each class of radio.
func cards(t *testing.T, x *plan.Expansion) [][]byte {
	t.Helper()
	v, err := review.Check(t.Context(), rules.All(), x, plan.Date{Year: 2026, Month: 11, Day: 25})
	if err != nil {
		t.Fatal(err)
	}
	d := &report.Document{New: &report.Origin{Name: "main"}, Expansion: x, Verdict: v}
	choices := []card.Choice{{}}
	for _, f := range x.Fits {
		choices = append(choices, card.Choice{Radio: f.Radio.Key.V})
	}
	var all [][]byte
	for _, choice := range choices {
		made, err := card.Of(x, choice)
		if err != nil {
			t.Fatal(err)
		}
		var out bytes.Buffer
		if err := report.NewCards(d, made).HTML(&out); err != nil {
			t.Fatal(err)
		}
		all = append(all, out.Bytes())
	}
	return all
}

// fullZone is a plan whose every text is s, with 40 channels in a zone.
func fullZone(s string) fstest.MapFS {
	quoted := `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`).Replace(s) + `"`
	var text strings.Builder
	fmt.Fprintf(&text, "plan: %[1]s\ngroups: {all: {id: 16777215, label: %[1]s}}\nrepeaters: {ridge: {label: %[1]s, callsign: N0QRV, output: 444.00625, split: +5, dmr: {color_code: 15, slot1: [all]}}}\nchannels:\n", quoted)
	for i := range 40 {
		way := []string{"simplex", "receive"}[i%2]
		fmt.Fprintf(&text, "  c%02d: {label: %s, when: %[2]s, %s: 446.%05d, fm: {tone: {send: 103.5, receive: D023N}, width: narrow}}\n", i, quoted, way, 625*i)
	}
	fmt.Fprintf(&text, "zones: {home: {label: %[1]s, channels: [ridge/*/*, '*']}}\nradios: {pocket: {label: %[1]s, label_length: 16, modes: [fm], limits: {channels_per_zone: 8}}}\n", quoted)
	list := make([]string, 40)
	for i := range list {
		list[i] = fmt.Sprintf("c%02d", i)
	}
	return fstest.MapFS{"plan.yaml": {Data: []byte(strings.Replace(text.String(), "'*'", strings.Join(list, ", "), 1))}}
}

// TestCards prints cards on both kinds of paper: one page a sheet, nothing cut off on any
// face, nothing fetched and nothing run, whatever the texts are.
func TestCards(t *testing.T) {
	sources := map[string]*plan.Expansion{"demo": expand(t, demo.Branch())}
	for name, s := range map[string]string{
		"short": "x", "words": strings.TrimSpace(strings.Repeat("word ", 40)), "wide": strings.Repeat("W", 200), "digits": strings.Repeat("8", 200), "squares": strings.Repeat("漢", 200),
		"accents": strings.Repeat("e\u0301\u0302", 60), "script": `<script>window.ran=1</script>`, "image": `"><img src=x onerror=window.ran=1>`, "style": `</style><style>*{background:url(//x.example)}`,
	} {
		sources[name] = expand(t, fullZone(s))
	}
	for name, x := range sources {
		for i, html := range cards(t, x) {
			t.Run(fmt.Sprint(name, i), func(t *testing.T) {
				b := open(t, html, visit{width: 1280, height: 900})
				call(b, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: "print"})
				cut := ask[string](b, `[...document.querySelectorAll(".face, header, h2, .of, .from")].filter(e => e.scrollHeight > e.clientHeight + 1 && !e.matches("h2, .of, .from, header") || e.scrollWidth > e.clientWidth + 1).map(e => e.className + " " + e.scrollHeight + " in " + e.clientHeight + ", " + e.scrollWidth + " in " + e.clientWidth).join("; ")`)
				if cut != "" {
					t.Errorf("cut off: %s", cut)
				}
				if ask[bool](b, `"ran" in window || document.querySelector("img, script, body style, link") !== null`) {
					t.Error("a text became part of the page")
				}
				sheets := ask[int](b, `document.querySelectorAll(".sheet").length`)
				for paper, inches := range map[string][2]float64{"A4": {8.27, 11.69}, "Letter": {8.5, 11}} {
					pdf, err := chromedp.Run(b.ctx, chromedp.PrintToPDF(func(p *page.PrintToPDFParams) { p.PaperWidth, p.PaperHeight = inches[0], inches[1] }))
					if err != nil {
						t.Fatal(err)
					}
					if got := bytes.Count(pdf, []byte("/Type /Page\n")); got != sheets || sheets%2 != 0 {
						t.Errorf("%d pages of %s for %d sides", got, paper, sheets)
					}
				}
				b.quiet()
			})
		}
	}
}
