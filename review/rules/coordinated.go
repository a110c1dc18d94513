package rules

import (
	_ "embed"
	"fmt"
	"strings"

	"passband.example/plandiff/plan"
	"passband.example/review"
)

//go:embed coordinated.md
var coordinatedDoc string

// Coordinated tells of two stations that stand nearer to each other than the separation table asks,
// about which a coordinator has remarked something.
var Coordinated = &review.Rule{
	ID:       "coordinated",
	Severity: review.Note, // somebody who decides has looked at it
	Edition:  2026,
	Doc:      coordinatedDoc,
	Run:      runCoordinated,
}

func runCoordinated(p *review.Pass) {
	for _, c := range conflictsOf(p, "coordinated") {
		f := conflictFinding(p, c)
		remark := c.Remarks[0]
		f.What += "; " + quoted(remark)
		if touched(p, remark) {
			f.What += ", a remark that comes with this change"
		}
		f.Why = "a remark under coordination makes a note of what would be a warning; whether it still holds is for the frequency coordinator to say"
		f.Fix = "see that the remark is about these two and these figures; otherwise ask again"
		f.Values = append(f.Values, remark.Date.V.String())
		for _, r := range c.Remarks {
			f.Also = append(f.Also, review.Related{At: r.Place(), Text: quoted(r)})
		}
		p.Report(f)
	}
}

// quoted gives a remark with who made it, and when.
func quoted(c *plan.Coordination) string {
	return fmt.Sprintf("%s said on %s: %q", c.By.V, c.Date.V, strings.Join(strings.Fields(c.Text.V), " "))
}
