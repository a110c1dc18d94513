package rules

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"passband.example/plandiff/plan"
	"passband.example/review"
	"passband.example/review/survey"
)

// reportProducts reports the products of each site that keep wants, one finding for each receiver that
// they fall on.
func reportProducts(p *review.Pass, keep func(survey.Product) bool, why string) {
	for _, site := range surveyOf(p).Sites {
		on := make(map[string][]survey.Product)
		var hearers []string
		for _, product := range site.Products {
			if name := product.On.Name; keep(product) {
				if len(on[name]) == 0 {
					hearers = append(hearers, name)
				}
				on[name] = append(on[name], product)
			}
		}
		for _, name := range hearers {
			f := productFinding(p, on[name])
			f.Why = why
			p.Report(f)
		}
	}
}

// productFinding is the finding for the products that fall on one receiver. It stands at that of the
// repeaters that a change touched, else at the one that hears, or at a source where a neighbor hears.
func productFinding(p *review.Pass, products []survey.Product) review.Finding {
	first := products[0]
	f := review.Finding{
		Fix:    "ask whoever looks after the site about filters and isolators before it goes on the air; whether it disturbs is measured there",
		Source: "third and fifth order, two and three transmitters, and the second and third harmonic, within half the receiver's bandwidth: common practice, no source; one site: 47 CFR 22.657(c), 1 mile",
	}
	var involved []*plan.Repeater
	for _, product := range products {
		f.Values = append(f.Values, product.Formula)
		for _, party := range append([]survey.Party{product.On}, product.Sources...) {
			if party.Repeater != nil && !slices.Contains(involved, party.Repeater) {
				involved = append(involved, party.Repeater)
			}
		}
	}
	f.At = involved[0].Place()
	if i := slices.IndexFunc(involved, func(r *plan.Repeater) bool { return touched(p, r) }); i >= 0 {
		f.At = involved[i].Place()
	}
	slices.Sort(f.Values)
	slices.SortFunc(involved, compareOnAir)
	for _, r := range involved {
		f.About = append(f.About, r.Thing())
		if r.Place() != f.At {
			f.Also = append(f.Also, review.Related{At: r.Place(), Text: r.Thing().String()})
		}
	}
	f.What = fmt.Sprintf("%s MHz, %s of %s, falls on the input of %s at the same site", first.Formula, kindOf(first), sources(first), first.On.Name)
	if off := first.Off; off != 0 {
		f.What += fmt.Sprintf(", %s kHz beside its middle", max(off, -off).KHz())
	}
	if n := len(products) - 1; n > 0 {
		f.What += "; so does " + cmp.Or(map[bool]string{true: products[n].Formula + " MHz"}[n == 1], counted(n, "", "more products"))
	}
	return f
}

func kindOf(p survey.Product) string {
	switch order := p.Form.Order(); {
	case p.Form.Harmonic() && order == 2:
		return "the second harmonic"
	case p.Form.Harmonic():
		return "the third harmonic"
	case order == 3:
		return "a mixing product of third order"
	}
	return "a mixing product of fifth order"
}

func sources(p survey.Product) string {
	var names []string
	for _, party := range p.Sources {
		names = append(names, party.Name)
	}
	return strings.Join(names, " and ")
}
