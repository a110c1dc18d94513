package e2e

import "testing"

// A violation is what axe-core says is wrong.
type violation struct {
	ID, Impact, Help string
	Where            []string
}

// audit runs axe-core on what is shown now, everything unfolded.
const audit = `(async () => {
	document.querySelectorAll("details").forEach(d => { d.open = true; });
	const found = await axe.run(document, {resultTypes: ["violations"]});
	return found.violations.map(v => ({id: v.id, impact: v.impact, help: v.help, where: v.nodes.slice(0, 3).map(n => n.html.slice(0, 160) + " " + n.failureSummary)}));
})()`

// TestAxe audits both kinds of page, light and dark, wide and narrow: no violation, serious
// or not.
func TestAxe(t *testing.T) {
	source := axe(t)
	for name, html := range pages(t) {
		for way, v := range map[string]visit{"light": desk, "dark": dark(desk), "phone": phone} {
			t.Run(name+", "+way, func(t *testing.T) {
				b := open(t, html, v)
				b.quiet() // before axe-core adds what the policy does not know
				ask[int](b, source+";0")
				for _, found := range ask[[]violation](b, audit) {
					t.Errorf("%s (%s): %s: %q", found.ID, found.Impact, found.Help, found.Where)
				}
			})
		}
	}
}
