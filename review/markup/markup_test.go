package markup_test

import (
	"encoding/json"
	"errors"
	"math"
	"strings"
	"testing"

	"golang.org/x/net/html"
	h "passband.example/review/markup"
	"pgregory.net/rapid"
)

func written(t interface{ Fatal(...any) }, root *h.Node) string {
	var b strings.Builder
	if err := h.Write(&b, root); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func TestWrite(t *testing.T) {
	page := func(inside string) string {
		return "<!DOCTYPE html>\n<html>" + inside + "</html>\n"
	}
	for _, c := range []struct {
		name string
		node *h.Node
		want string
	}{
		{"nothing", nil, ""},
		{"text", h.Text(`a < b & "c"`), "a &lt; b &amp; &#34;c&#34;"},
		{"attribute", h.El("p", h.Class(`"><b>`)), `<p class="&#34;&gt;&lt;b&gt;"></p>`},
		{"attributes behind content", h.El("p", h.Text("x"), h.Group(nil, h.Group(h.Attr("id", "y")))), `<p id="y">x</p>`},
		{"void", h.El("br"), "<br>"},
		{"if", h.Group(h.If(true, h.Text("a"), h.Text("b")), h.If(false, h.Text("c"))), "ab"},
		{"each", h.Each([]string{"a", "b"}, func(s string) *h.Node { return h.El("i", h.Text(s)) }), "<i>a</i><i>b</i>"},
		{"style", h.Style("a>b{}"), "<style>a>b{}</style>"},
		{"script", h.Script("a && b"), "<script>a && b</script>"},
		{"link within the page", h.El("a", h.Attr("href", "#top")), `<a href="#top"></a>`},
		{"JSON", h.JSON("d", []string{"</script><!--"}), `<script type="application/json" id="d">["\u003c/script\u003e\u003c!--"]</script>`},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := written(t, h.El("html", c.node)); got != page(c.want) {
				t.Errorf("got  %s\nwant %s", got, page(c.want))
			}
		})
	}
}

// TestAnyText reads back what was written, as a browser does: any text stays a text where
// it stood, and nothing else comes into being. What HTML itself takes out of every text is left
// out here: a null, and the difference between ends of lines (WHATWG, HTML, section 13.2.3.5).
func TestAnyText(t *testing.T) {
	pieces := rapid.SampledFrom([]string{"<", ">", "&", `"`, "'", "`", "=", "/", "!--", "-->", "]]>", "script", "title", "&amp;", "&#60;", "\u2028", "x", " ", "\n"})
	anyText := rapid.OneOf(rapid.String(), rapid.Map(rapid.SliceOf(pieces), func(all []string) string { return strings.Join(all, "") }))
	rapid.Check(t, func(t *rapid.T) {
		text := strings.NewReplacer("\x00", "", "\r", "").Replace(strings.ToValidUTF8(anyText.Draw(t, "text"), "?"))
		page := written(t, h.El("html",
			h.El("head", h.El("title", h.Text(text))),
			h.El("body",
				h.El("p", h.Attr("aria-label", text), h.Text(text)),
				h.El("svg", h.El("title", h.Text(text))),
				h.JSON("data", text))))
		root, err := html.Parse(strings.NewReader(page))
		if err != nil {
			t.Fatal(err)
		}
		shape, texts := "", []string{}
		for n := range root.Descendants() {
			switch n.Type {
			case html.ElementNode:
				shape += " " + n.Data
				for _, a := range n.Attr {
					shape += "." + a.Key
					if a.Key == "aria-label" {
						texts = append(texts, a.Val)
					}
				}
			case html.TextNode:
				if n.Parent.Data == "script" {
					var data string
					if err := json.Unmarshal([]byte(n.Data), &data); err != nil {
						t.Fatal(err)
					}
					texts = append(texts, data)
				} else if n.Parent.Data != "body" {
					texts = append(texts, n.Data)
				}
			case html.CommentNode:
				shape += " comment"
			}
		}
		if want := " html head title body p.aria-label svg title script.type.id"; shape != want {
			t.Errorf("the page has%s, not%s", shape, want)
		}
		want := []string{text, text, text, text, text}
		if text == "" {
			want = []string{"", ""} // the attribute and the data; an empty text is no node
		}
		if got := strings.Join(texts, "|"); got != strings.Join(want, "|") {
			t.Errorf("read back as %q", texts)
		}
	})
}

// TestRefused holds that no element or attribute is written by which a browser does something.
func TestRefused(t *testing.T) {
	for _, a := range [][2]string{
		{"onclick", "x"}, {"OnLoad", ""}, {"style", "color:red"}, {"src", "x"}, {"srcdoc", ""}, {"href", "javascript:x"}, {"HREF", "//x.example"}, {"href", ""}, {"xlink:href", "#x"}, {"formaction", "#"},
	} {
		var b strings.Builder
		if err := h.Write(&b, h.El("html", h.El("a", h.Attr(a[0], a[1])))); err == nil || !strings.Contains(err.Error(), a[0]) {
			t.Errorf("%s=%q is written: %v", a[0], a[1], err)
		}
		if err := h.Write(&b, h.El("html", h.El("br", h.Group(h.Attr(a[0], a[1]))))); err == nil {
			t.Errorf("%s=%q is written on an element without an end", a[0], a[1])
		}
	}
	for _, name := range []string{"script", "SCRIPT", "style", "iframe", "object", "img", "base", "use"} {
		var b strings.Builder
		if err := h.Write(&b, h.El("html", h.El(name, h.Text("x")))); err == nil || !strings.Contains(err.Error(), name) {
			t.Errorf("<%s> is written: %v", name, err)
		}
	}
}

func TestFails(t *testing.T) {
	var b strings.Builder
	if err := h.Write(&b, h.El("html", h.JSON("d", math.NaN()))); err == nil {
		t.Error("what is no JSON is written")
	}
	full := errors.New("the disk is full")
	if err := h.Write(failing{full}, h.El("html", h.Text(strings.Repeat("x", 10_000)))); !errors.Is(err, full) {
		t.Errorf("an error of writing is lost: %v", err)
	}
}

type failing struct{ err error }

func (f failing) Write([]byte) (int, error) { return 0, f.err }
