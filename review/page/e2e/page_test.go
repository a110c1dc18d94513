package e2e

import (
	"bytes"
	"fmt"
	"testing"
	"time"

	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
	"passband.example/plandiff/plan/plantest"
)

var (
	desk  = visit{width: 1280, height: 900}
	phone = visit{width: 360, height: 740}
)

func dark(v visit) visit { v.dark = true; return v }

func still(v visit) visit { v.still = true; return v }

// TestOpens opens both kinds of page in every way that people look at them: nothing is
// wrong, nothing is fetched, nothing sticks out to the right.
func TestOpens(t *testing.T) {
	for name, html := range pages(t) {
		for way, v := range map[string]visit{"desk": desk, "phone": phone, "dark": dark(desk), "dark phone": dark(phone), "no scripts": still(desk), "no scripts on a phone": still(phone)} {
			t.Run(name+", "+way, func(t *testing.T) {
				b := open(t, html, v)
				if got := ask[string](b, `document.querySelector("h1").innerText`); got != "Harrow Valley Repeater Group" {
					t.Errorf("the page is headed %q", got)
				}
				if wide := ask[int64](b, `document.documentElement.scrollWidth`); wide > v.width {
					t.Errorf("the page is %d wide in a window of %d; to the right sticks out %s", wide, v.width, ask[string](b, outside))
				}
				if shown := ask[bool](b, `document.getElementById("search").checkVisibility()`); shown == v.still {
					t.Errorf("the search is shown: %v", shown)
				}
				b.quiet()
			})
		}
	}
}

// outside names the elements beyond the right edge that nothing holds.
const outside = `[...document.querySelectorAll("body *")].filter(e => !e.closest(".scroll") && e.getBoundingClientRect().right > innerWidth + 1).slice(0, 3).map(e => e.outerHTML.slice(0, 120)).join(" ")`

// TestSearch searches and filters as a person does.
func TestSearch(t *testing.T) {
	b := open(t, north(t), desk)
	rows, status := `document.getElementById("channel-table").tBodies[0].rows.length`, `document.getElementById("channel-status").textContent`
	expect := func(want int64, said, why string) {
		t.Helper()
		time.Sleep(400 * time.Millisecond) // the page waits until one has typed
		if got := ask[int64](b, rows); got != want {
			t.Errorf("%d rows, want %d: %s", got, want, why)
		}
		if got := ask[string](b, status); got != said {
			t.Errorf("the page says %q, want %q: %s", got, said, why)
		}
	}
	expect(100, "Channels 1 to 100 of 154.", "a window of rows")
	b.do(chromedp.Click(chromedp.CSS("#pager-on")))
	expect(54, "Channels 101 to 154 of 154.", "the next window")
	b.do(chromedp.SendKeys(chromedp.CSS("#search-text"), "heron SLOT"))
	expect(6, "Channels 1 to 6 of 6 that match, of 154.", "words in any order and case, the first window again")
	b.do(chromedp.SendKeys(chromedp.CSS("#search-text"), " nothing"))
	expect(0, "No channel matches, of 154.", "none")
	b.do(chromedp.Click(chromedp.CSS(`#search button[type=reset]`)))
	expect(100, "Channels 1 to 100 of 154.", "all again")
	b.do(chromedp.Click(chromedp.CSS("#search-changed")))
	expect(13, "Channels 1 to 13 of 13 that match, of 154.", "12 came, and Knob sends elsewhere")
	b.do(chromedp.SetValue(chromedp.CSS("#search-mode"), "FM"))
	ask[bool](b, `document.getElementById("search-mode").dispatchEvent(new Event("input", {bubbles: true}))`)
	expect(3, "Channels 1 to 3 of 3 that match, of 154.", "cairn, fell and knob")
	b.quiet()
}

// TestKeyboard reaches the report, the parts and what is folded without a mouse.
func TestKeyboard(t *testing.T) {
	b := open(t, north(t), desk)
	b.do(chromedp.KeyEvent("\t"))
	if got := ask[string](b, `document.activeElement.textContent`); got != "To the report" {
		t.Errorf("the first thing reached is %q", got)
	}
	b.do(chromedp.KeyEvent("\r"))
	if got := ask[string](b, `document.activeElement.id`); got != "main" {
		t.Errorf("the link to the report leads to %q", got)
	}
	b.do(chromedp.Focus(chromedp.CSS("#changes summary")), chromedp.KeyEvent("\r"))
	if !ask[bool](b, `document.querySelector("#changes details").open`) {
		t.Error("what is folded does not unfold by the keyboard")
	}
}

// TestPrints prints both kinds of page.
func TestPrints(t *testing.T) {
	for name, html := range pages(t) {
		for _, v := range []visit{desk, still(desk)} {
			t.Run(fmt.Sprint(name, v.still), func(t *testing.T) {
				b := open(t, html, v)
				pdf, err := chromedp.Run(b.ctx, chromedp.PrintToPDF(func(p *page.PrintToPDFParams) { yes := true; p.PreferCSSPageSize = &yes }))
				if err != nil {
					t.Fatal(err)
				}
				if sheets := bytes.Count(pdf, []byte("/Type /Page\n")); !bytes.HasPrefix(pdf, []byte("%PDF-")) || sheets < 2 || sheets > 40 {
					t.Errorf("%d bytes, %d sheets", len(pdf), sheets)
				}
				b.quiet()
			})
		}
	}
}

// TestLarge uses a page of 10,000 channels: a window of rows stands in it, and a search
// ends while one looks.
func TestLarge(t *testing.T) {
	html := standing(t, files(plantest.Text(10_000, 1)))
	b := open(t, html, desk)
	took := ask[float64](b, `(async () => {
		const text = document.getElementById("search-text"), status = document.getElementById("channel-status");
		const before = status.textContent, from = performance.now();
		text.value = "99";
		text.dispatchEvent(new Event("input", {bubbles: true}));
		while (status.textContent === before) await new Promise(r => setTimeout(r, 5));
		return performance.now() - from;
	})()`)
	elements := ask[int64](b, `document.querySelectorAll("*").length`)
	t.Logf("%d bytes, %d elements, a search took %.0f ms with the 120 that it waits for more letters", len(html), elements, took)
	if elements > 60_000 {
		t.Errorf("the page holds %d elements", elements)
	}
	b.quiet()
}
