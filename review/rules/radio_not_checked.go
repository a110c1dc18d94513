package rules

import (
	"cmp"
	_ "embed"
	"fmt"
	"slices"
	"strings"

	"passband.example/plandiff/plan"
	"passband.example/review"
	"passband.example/review/rf"
	"passband.example/review/survey"
)

//go:embed radio_not_checked.md
var radioNotCheckedDoc string

// RadioNotChecked says once for a plan what could not be looked at on the air side, and which fields
// would allow it.
var RadioNotChecked = &review.Rule{
	ID:       "radio-not-checked",
	Severity: review.Note, // nothing is known to be wrong
	Edition:  2026,
	Doc:      radioNotCheckedDoc,
	Run:      radioNotChecked,
}

// A gap is something that was not checked.
type gap struct {
	kind string // makes the finding the same one, however many it is about
	what string
	fix  string
}

func radioNotChecked(p *review.Pass) {
	if p.Plan.Repeaters.Len() == 0 {
		return
	}
	gaps := gapsOf(p)
	if len(gaps) == 0 {
		return
	}
	f := review.Finding{
		At: p.Plan.Repeaters.All()[0].Place(), About: []plan.Thing{p.Plan.Header.Thing()},
		Why:    "that nothing is found there does not mean that it is in order",
		Source: "the plan's own text",
	}
	if at := p.Plan.Header.Title.At; !at.IsZero() {
		f.At = at
	}
	var what, fix []string
	for _, g := range gaps {
		f.Values, what, fix = append(f.Values, g.kind), append(what, g.what), append(fix, g.fix)
	}
	f.What = "not checked: " + strings.Join(what, "; ")
	f.Fix = strings.Join(fix, "; ") + "; or accept this finding with a reason"
	p.Report(f)
}

func gapsOf(p *review.Pass) []gap {
	s := surveyOf(p)
	var gaps []gap
	add := func(there bool, kind, what, fix string) {
		if there {
			gaps = append(gaps, gap{kind, what, fix})
		}
	}
	ours, theirs := parted(s.Unplaced)
	add(len(ours) > 0, "places", "distances and mixing products of "+counted(len(ours), "repeater", "repeaters")+" whose place is not known"+some(ours), "write where they stand (site: lat and lon)")
	add(!p.Plan.Header.List.Written(), "neighbors", "repeaters that others answer for", "keep a list of them in "+plan.NeighborsFile+" and name it in plan.yaml (neighbors: "+plan.NeighborsFile+")")
	add(emptyList(p.Plan), "neighbors", "repeaters that others answer for, since the neighbor list has no rows", "enter them in "+p.Plan.Header.List.V)
	add(len(theirs) > 0, "neighbors' places", counted(len(theirs), "neighbor", "neighbors")+" whose place is not known"+some(theirs), "add lat and lon, or grid, to those rows of the neighbor list")
	unasked, _ := parted(slices.DeleteFunc(slices.Clone(s.Unasked), outOfBand))
	add(len(unasked) > 0, "bands", "distances of "+counted(len(unasked), "repeater", "repeaters")+" in a band for which no separation was found"+some(unasked), "add rows for it to "+plan.SeparationFile)
	add(s.HeldBack > 0, "held back", counted(s.HeldBack, "more pair of stations", "more pairs of stations")+" that stand too near", "mend those that are told first")
	large := 0
	for _, site := range s.Sites {
		if site.Refused != nil {
			large++
		}
	}
	add(large > 0, "sites", "mixing products of "+counted(large, "site", "sites")+" with too many transmitters", "see whether so many repeaters really stand within a mile")
	return append(gaps, exposureGaps(p)...)
}

// exposureGaps are those of exposure and of traffic.
func exposureGaps(p *review.Pass) []gap {
	var gaps []gap
	var silent []string
	dmr := false
	for _, r := range p.Plan.Repeaters.Sorted() {
		if _, _, ok := radiated(r); !ok {
			silent = append(silent, r.Key.V)
		}
		dmr = dmr || r.DMR.Present.IsSet()
	}
	if _, known := exposureRule(p.Plan); !known {
		gaps = append(gaps, gap{"exposure rule", "exposure, since no limits are known here for " + cmp.Or(p.Plan.Header.Region.Or(""), "a plan without a region"), "look them up for your country"})
	} else if len(silent) > 0 {
		gaps = append(gaps, gap{"exposure", "exposure of " + counted(len(silent), "site", "sites") + " without a power" + some(silent), "write erp_w at the site, or power_w, gain_dbd and loss_db"})
	}
	if dmr && len(slotLoads(p.Plan)) == 0 {
		gaps = append(gaps, gap{"traffic", "how busy time slots are", "where it is known, write busy_hour at the groups (calls and seconds)"})
	}
	return gaps
}

// outOfBand reports whether a repeater sends in no band at all: see off-band.
func outOfBand(party survey.Party) bool {
	return party.Repeater != nil && rf.Band(party.Repeater.Output.V) == ""
}

// parted gives the names of the plan's own stations, and those of neighbors.
func parted(parties []survey.Party) (ours, theirs []string) {
	for _, party := range parties {
		if party.Repeater != nil {
			ours = append(ours, party.Name)
		} else {
			theirs = append(theirs, party.Name)
		}
	}
	return ours, theirs
}

// some gives the first few names in brackets, and how many more there are.
func some(names []string) string {
	const most = 3
	text := strings.Join(names[:min(most, len(names))], ", ")
	if more := len(names) - most; more > 0 {
		text += fmt.Sprintf(" and %d more", more)
	}
	return " (" + text + ")"
}

// emptyList reports whether the neighbor list is there and has no rows; see neighbor-list-missing for one
// that is not there. One with rows that could not be read is not empty.
func emptyList(p *plan.Plan) bool {
	list := p.Header.List
	unread := slices.ContainsFunc(p.Problems, func(b plan.Problem) bool { return b.At.File == list.V })
	return list.IsSet() && slices.Contains(p.Files, list.V) && !unread && len(p.NeighborList()) == 0
}
