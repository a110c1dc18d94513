package rules

import (
	_ "embed"
	"fmt"

	"passband.example/plandiff/plan"
	"passband.example/review"
)

//go:embed dmr_incomplete.md
var dmrIncompleteDoc string

// DMRIncomplete reports a DMR side or channel without what a DMR call needs.
var DMRIncomplete = &review.Rule{
	ID:       "dmr-incomplete",
	Severity: review.Block, // the call would be heard by nobody, or makes no channel
	Edition:  2026,
	Doc:      dmrIncompleteDoc,
	Run:      dmrIncomplete,
}

func dmrIncomplete(p *review.Pass) {
	for _, r := range p.Plan.Repeaters.All() {
		if !r.DMR.Present.IsSet() {
			continue
		}
		noGroup := len(r.DMR.Slots[0])+len(r.DMR.Slots[1]) == 0
		if missing := absent(!r.DMR.ColorCode.Written(), noGroup); len(missing) > 0 && !r.Partly() {
			p.Report(incomplete(r, r.DMR.Present.At, "the DMR side of "+r.Thing().String(), missing))
		}
	}
	for _, c := range p.Plan.Channels.All() {
		sends := c.Simplex.Written() && !c.Path.Written() && c.Transmit.Or(true)
		if !sends || !c.DMR.Present.IsSet() || c.FM.Present.Written() {
			continue
		}
		if missing := absent(!c.DMR.ColorCode.Written(), !c.DMR.Group.Written()); len(missing) > 0 && !c.Partly() {
			p.Report(incomplete(c, c.DMR.Present.At, c.Thing().String(), missing))
		}
	}
}

// absent names what is missing.
func absent(colorCode, group bool) []string {
	var missing []string
	if colorCode {
		missing = append(missing, "color code")
	}
	if group {
		missing = append(missing, "group")
	}
	return missing
}

func incomplete(r plan.Record, at plan.Place, who string, missing []string) review.Finding {
	return review.Finding{
		At: at, About: []plan.Thing{r.Thing()}, Values: missing,
		What:   fmt.Sprintf("%s has no %s", who, several(missing)),
		Why:    "a radio opens only to its own color code and to groups that it knows, so without them nobody is heard",
		Fix:    "write color_code: 0 to 15 as the other stations have it, and the groups: slot1: and slot2: of a repeater, group: of a channel",
		Source: "ETSI TS 102 361-1 clauses 4.2.1 and 9.1.2, annex A (second-hand)",
	}
}
