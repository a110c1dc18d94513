package rules

import (
	_ "embed"

	"passband.example/review"
	"passband.example/review/survey"
)

//go:embed mixing_product_weak.md
var mixingProductWeakDoc string

// MixingProductWeak tells of a product of fifth order, or a harmonic, that falls on a receiver of
// its site.
var MixingProductWeak = &review.Rule{
	ID:       "mixing-product-weak",
	Severity: review.Note, // most sites keep these away
	Edition:  2026,
	Doc:      mixingProductWeakDoc,
	Run:      mixingProductWeak,
}

func mixingProductWeak(p *review.Pass) {
	reportProducts(p, func(product survey.Product) bool { return product.Form.Order() == 5 || product.Form.Harmonic() },
		"it is weaker than one of third order, and most sites keep it away; worth knowing when a receiver there hears what it should not")
}
