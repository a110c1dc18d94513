package rules

import (
	_ "embed"

	"passband.example/plandiff/signal"
	"passband.example/review"
)

//go:embed all_call_partition.md
var allCallPartitionDoc string

// AllCallPartition reports a group that calls one partition of a system.
var AllCallPartition = &review.Rule{
	ID:       "all-call-partition",
	Severity: review.Note, // it is right where the system is partitioned
	Edition:  2026,
	Doc:      allCallPartitionDoc,
	Run:      allCallPartition,
}

func allCallPartition(p *review.Pass) {
	for _, g := range calledBy(p.Plan) {
		if g.call == "private" || g.ID.V.Range() != signal.RangeAllCall || g.ID.V == signal.AllCall {
			continue
		}
		f := g.oddNumber("calls everyone in one partition of a system")
		f.Why = "a system is partitioned or not; where it is not, nobody may hear the call"
		f.Fix = "ask who runs the network; an undivided one calls everyone with 16777215"
		f.Source = addressTable
		p.Report(f)
	}
}
