package report

import (
	"io"
	"regexp"
	"strings"
	"testing"

	"golang.org/x/net/html"
	"passband.example/plandiff/card"
	"passband.example/plandiff/plan"
	"passband.example/review"
)

func cardsOf(t *testing.T, x *plan.Expansion, choice card.Choice, v *review.Verdict) *Cards {
	t.Helper()
	cards, err := card.Of(x, choice)
	if err != nil {
		t.Fatal(err)
	}
	return NewCards(&Document{New: &Origin{Name: "2026.1", Hash: "0123456789abcdef"}, Expansion: x, Verdict: v}, cards)
}

// TestCardsHTMLIsTame puts what means something in HTML and CSS into every text: the page
// has the same elements as with harmless words, and no attribute of its own making.
func TestCardsHTMLIsTame(t *testing.T) {
	elements := func(s string) string {
		c := cardsOf(t, withText(t, s), card.Choice{Radio: "pocket"}, new(review.Verdict))
		page := written(t, c.HTML)
		root, err := html.Parse(strings.NewReader(page))
		if err != nil {
			t.Fatal(err)
		}
		var shape strings.Builder
		for n := range root.Descendants() {
			if n.Type == html.ElementNode {
				shape.WriteString(n.Data)
				for _, a := range n.Attr {
					shape.WriteString(" " + a.Key)
				}
				shape.WriteString("\n")
			}
		}
		if strings.Contains(shape.String(), "script") || regexp.MustCompile(`\b(src|href|on\w+|style)$`).MatchString(shape.String()) {
			t.Errorf("%q: an element that can fetch or run: %s", s, shape.String())
		}
		return shape.String()
	}
	tame := elements("tame")
	for _, s := range []string{
		"<script>x()</script>", "</style><script>", "\"><img src=x onerror=x>", "</bdi></td></table><h1>x", "<!-- ", "{{.}}", "]]>", "&lt;b&gt;", "a'b`c",
		"expression(1)", "</title><script>", "\u3164\u115f", "e\u0301\u0302\u0303",
	} {
		if got := elements(s); got != tame {
			t.Errorf("%q gives other elements:\n%s", s, got)
		}
	}
}

// TestCardsHTMLRests wants a policy whose hash is that of the one style, and nothing else.
func TestCardsHTMLRests(t *testing.T) {
	page := written(t, cardsOf(t, withText(t, "x"), card.Choice{}, new(review.Verdict)).HTML)
	want := regexp.MustCompile(`content="default-src 'none'; style-src 'sha256-[A-Za-z0-9+/]{43}='; base-uri 'none'; form-action 'none'"`)
	if !want.MatchString(html.UnescapeString(page)) {
		t.Errorf("no policy in %s", page[:400])
	}
	for _, told := range []string{"2026.1 (0123456789)", "The license holder answers for every transmission", "have the last word", "Listen first"} {
		if !strings.Contains(page, told) {
			t.Errorf("the cards do not say %q", told)
		}
	}
}

// TestCardsMatch wants each back behind its front, when the paper is turned over on its
// long edge: the columns of the backs are exchanged.
func TestCardsMatch(t *testing.T) {
	fronts, backs := make([]*face, 5), make([]*face, 5)
	for i := range fronts {
		fronts[i], backs[i] = &face{Title: string(rune('a' + i))}, &face{Title: string(rune('A' + i))}
	}
	var got string
	for _, sheet := range sheets(fronts, backs) {
		for _, f := range sheet {
			if f == nil {
				got += "-"
				continue
			}
			got += f.Title
		}
		got += " "
	}
	if got != "abcd BADC e--- -E-- " {
		t.Errorf("laid out as %s", got)
	}
}

// TestCardsWarn says on every face that the plan blocks, and marks what is concerned.
func TestCardsWarn(t *testing.T) {
	x := withText(t, "x")
	v := &review.Verdict{Findings: []review.Finding{{Severity: review.Block, About: []plan.Thing{{Kind: plan.KindRepeater, Key: "ridge"}}}, {Severity: review.Warn}}}
	c := cardsOf(t, x, card.Choice{Radio: "pocket"}, v)
	page := written(t, c.HTML)
	if n := strings.Count(page, "found 1 thing that must not reach members"); n != 2 {
		t.Errorf("%d faces warn, want 2", n)
	}
	if strings.Count(page, `<td class="n">! `) != 2 || strings.Count(page, `<td class="n">3<`) != 1 {
		t.Errorf("the channels of ridge are not marked, or others are: %s", page)
	}
	text := written(t, func(w io.Writer) error { return Text(w, c.Page(), Terminal{}) })
	if !strings.Contains(text, "Do not use this card") || !strings.Contains(text, "! 1") {
		t.Errorf("the text does not warn: %s", text)
	}
	if c := cardsOf(t, x, card.Choice{}, new(review.Verdict)); c.Warning() != "" {
		t.Errorf("a plan that does not block is warned of: %s", c.Warning())
	}
}

// TestCardsSayWhatBlocks wants in words what must not be used, of what concerns the card alone.
func TestCardsSayWhatBlocks(t *testing.T) {
	x := withText(t, "x")
	for _, c := range []struct {
		name       string
		about      []plan.Thing
		radio      string
		said, tail string
		marks      bool
		why        string
	}{
		{"a repeater", []plan.Thing{{Kind: plan.KindRepeater, Key: "ridge"}}, "pocket", "Not in order, 1 ", "What is marked ! is concerned: see above.", true, "two channels go through it"},
		{"a shared radio ID", []plan.Thing{{Kind: plan.KindOperator, Key: "9990001"}}, "pocket", "", "None is about what stands here.", false, "no line of the card has it"},
		{"another class", []plan.Thing{{Kind: plan.KindRadio, Key: "other"}, {Kind: plan.KindRepeater, Key: "ridge"}}, "pocket", "", "None is about what stands here.", false, "what is too much for one is right for another"},
		{"this class", []plan.Thing{{Kind: plan.KindRadio, Key: "pocket"}}, "pocket", "Not in order, this class of radio: it is full.", "For what is not in order see above.", false, "no line, and yet the card"},
		{"this class, as the plan has it", []plan.Thing{{Kind: plan.KindRadio, Key: "pocket"}}, "", "", "None is about what stands here.", false, "a card of no class"},
		{"the plan", []plan.Thing{{Kind: plan.KindPlan}}, "pocket", "Not in order, the whole plan: it is full.", "For what is not in order see above.", false, "everything rests on it"},
		{"nothing told", nil, "", "Not in order, the whole plan: it is full.", "For what is not in order see above.", false, "nobody knows better"},
	} {
		t.Run(c.name, func(t *testing.T) {
			v := &review.Verdict{Findings: []review.Finding{{Severity: review.Block, About: c.about, What: "it is full"}}}
			cards := cardsOf(t, x, card.Choice{Radio: c.radio}, v)
			got := written(t, func(w io.Writer) error { return Text(w, cards.Page(), Terminal{Width: 400}) })
			if !strings.Contains(got, c.said) || (c.said == "") == strings.Contains(got, "Not in order") || !strings.Contains(got, c.tail) || strings.Contains(got, "! 1") != c.marks {
				t.Errorf("%s: %s", c.why, got)
			}
			if page := written(t, cards.HTML); !strings.Contains(page, c.said) || strings.Contains(page, "see above") {
				t.Errorf("printed: %s", page)
			}
		})
	}
}
