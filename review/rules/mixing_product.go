package rules

import (
	_ "embed"

	"passband.example/review"
	"passband.example/review/survey"
)

//go:embed mixing_product.md
var mixingProductDoc string

// MixingProduct reports a product of third order that falls on a receiver of its site.
var MixingProduct = &review.Rule{
	ID:       "mixing-product",
	Severity: review.Warn, // filters may keep it away
	Edition:  2026,
	Doc:      mixingProductDoc,
	Run:      mixingProduct,
}

func mixingProduct(p *review.Pass) {
	reportProducts(p, func(product survey.Product) bool { return product.Form.Order() == 3 && !product.Form.Harmonic() },
		"where these transmitters are on the air together, the receiver may hear their mixture instead of members; it is wider than one signal, so a near miss is heard too")
}
