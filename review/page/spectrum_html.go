package page

import (
	"fmt"

	h "passband.example/review/markup"
)

func (sp *spectrum) html() *h.Node {
	if len(sp.Bands) == 0 {
		return section("spectrum", "Spectrum", lead(h.Text("No channel has a frequency.")))
	}
	return section("spectrum", "Spectrum",
		lead(sp.lead()...),
		h.If(sp.Why != "", h.El("p", h.Class("more"), shown(sp.Why), h.Text("."))),
		spectrumKey(),
		h.Each(sp.Bands, sp.band),
		leftOutHere(sp.More, "strip", fmt.Sprintf(", with %s,", count(sp.MoreHave, "signal")), h.Text("; the table of all channels has what is on them")),
		mixingTable(sp.Products),
		leftOutHere(sp.MoreProducts, "product", ""))
}

// lead says what the strips show.
func (sp *spectrum) lead() []*h.Node {
	all := []*h.Node{h.Text("What the channels occupy, with what ")}
	if sp.Region == "" {
		all = append(all, h.Text("the tables would say"))
	} else {
		all = append(all, h.Text("the tables of "), shown(sp.Region), h.Text(" say"))
	}
	if sp.Class != "" {
		all = append(all, h.Text(" for the class "), shown(sp.Class))
	}
	all = append(all, h.Text(" above it. Outlines are what members hear; solid forms are what they send."))
	if sp.Compared {
		all = append(all, h.Text(" + came with the change, − went; a thick frame is new, or others are on it than before."))
	}
	return all
}

func spectrumKey() *h.Node {
	form := func(class string, x, width int, words string) *h.Node {
		return sample(24, 14, rect(class, x, 1, width, 12), words)
	}
	return key("Forms in the strips",
		form("hear", 3, 18, "hear"),
		form("send", 3, 18, "send"),
		form("law voice", 1, 22, "license: voice"),
		form("law no-repeater", 1, 22, "no repeater"),
		form("law barred", 1, 22, "barred"),
		form("seg kept", 1, 22, "kept by the band plan for other use"))
}

// band is the strips of a band, and the same as tables.
func (sp *spectrum) band(b *band) *h.Node {
	return h.El("figure", h.Class("band"),
		h.El("h3", h.Attr("id", fmt.Sprintf("band-%d", b.Number)), h.Text(b.Name)),
		h.Each(b.Strips, func(st *strip) *h.Node {
			return scrolled(fmt.Sprintf("%s, %s to %s MHz", b.Name, st.Low, st.High), st.html())
		}),
		fold(h.Text(b.Name+" as a table"),
			scrolled(b.Name+": signals", h.El("table",
				h.El("caption", h.Text("Signals, "+b.Name)),
				heads("#MHz", "members", "mode", "#kHz wide", "name", "#channels", where(sp.Compared, "change")),
				h.El("tbody", h.Each(b.Rows, func(r tunedRow) *h.Node { return r.html(sp.Compared) })))),
			leftOutHere(b.More, "signal", "", h.Text("; the table of all channels has them")),
			b.lawTable(),
			leftOutHere(b.LawMore, "row", " of the tables", h.Text("; "), h.El("code", h.Text("passband law FREQUENCY")), h.Text(" prints those of a frequency"))))
}

func (r tunedRow) html(compared bool) *h.Node {
	members := "hear"
	if r.Sends {
		members = "send"
	}
	change := map[string]string{"came": "new", "went": "gone", "changed": "others on it"}
	return h.El("tr",
		numCell(said(r.Center)), h.El("td", h.Text(members)), h.El("td", said(r.Mode)), numCell(h.Text(r.Kilohertz)), h.El("td", shown(r.Names())),
		numCell(nowAndWas(r.Now, r.Was, r.Differs())),
		h.If(compared, h.El("td", h.Text(change[r.State()]))))
}

// lawTable says what is drawn of license and band plan.
func (b *band) lawTable() *h.Node {
	if len(b.Law) == 0 {
		return nil
	}
	return scrolled(b.Name+": license and band plan", h.El("table",
		h.El("caption", h.Text("What license and band plan say, "+b.Name)),
		heads("#from MHz", "#to MHz", "what", "rests on"),
		h.El("tbody", h.Each(b.Law, func(r lawRow) *h.Node {
			return h.El("tr", numCell(said(r.Low)), numCell(said(r.High)), h.El("td", shown(r.What)), h.El("td", shown(r.Source)))
		}))))
}

// mixingTable lists what the arrows in the strips point at.
func mixingTable(all []product) *h.Node {
	if len(all) == 0 {
		return nil
	}
	return h.Group(
		h.El("h3", h.Text("Mixing products")),
		lead(h.Text("What the transmitters of one site mix to, where that falls on an input there. An arrow in a strip points at each. Worth a measurement; what is heard depends on the site.")),
		scrolled("Mixing products", h.El("table",
			h.El("caption", h.Text("Mixing products and harmonics on inputs of their site")),
			heads("formula, MHz", "#order", "of", "on the input of", "#kHz off"),
			h.El("tbody", h.Each(all, func(p product) *h.Node {
				return h.El("tr", headCell(h.Text(p.Formula)), numCell(said(p.Order)), h.El("td", enumerated(p.Sources)), h.El("td", shown(p.On)), numCell(h.Text(p.Off)))
			})))),
	)
}
