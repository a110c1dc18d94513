package license

import "passband.example/plandiff/signal"

// SplitRow is one usual split: for outputs from Low to High, input minus output. Those
// that a Tables returns are shared: read them only.
type SplitRow struct {
	Region    string // US, R1: where it is usual
	Band      string // 2m, 70cm-DV; a suffix tells rows of one band apart
	Low, High signal.Hertz
	Split     signal.Split
	Provenance
}

func (s *SplitRow) extent() (low, high signal.Hertz) { return s.Low, s.High }

const splitColumns = "band,low_mhz,high_mhz,split_mhz,source,edition,confidence,note"

func readSplits(file, region string, data []byte) ([]*SplitRow, error) {
	return readSheet(file, data, splitColumns, func(c *cells) *SplitRow {
		s := &SplitRow{Region: region, Band: c.need("band"), Provenance: c.provenance()}
		s.Low, s.High = c.interval()
		split, err := signal.ParseSplit(c.text("split_mhz"))
		if err != nil {
			c.problem("split_mhz: %v", err)
		}
		s.Split = split
		return s
	})
}

// UsualSplits returns the splits that are usual for an output, by lower edge of their
// block. Any one of them will do.
func (t *Tables) UsualSplits(output signal.Hertz) []*SplitRow {
	return t.splits.overlapping(point(output))
}

// SplitFit says how a split fits what is usual.
type SplitFit uint8

const (
	SplitUsual    SplitFit = iota
	SplitReversed          // the size is usual, and only with the other sign
	SplitUnusual           // another split is usual there
	SplitUnknown           // nothing is known of that output
)

var splitFitNames = names[SplitFit]{"usual", "sign reversed", "unusual", "unknown"}

// String returns the fit in a word or two.
func (f SplitFit) String() string { return splitFitNames.of(f) }

// FitSplit compares the split of a repeater with what is usual for its output, and
// returns the rows that it was compared with: for a usual or reversed one those of that
// size.
func (t *Tables) FitSplit(output signal.Hertz, split signal.Split) (SplitFit, []*SplitRow) {
	rows := t.UsualSplits(output)
	if len(rows) == 0 {
		return SplitUnknown, nil
	}
	var same, opposite []*SplitRow
	for _, row := range rows {
		switch row.Split {
		case split:
			same = append(same, row)
		case -split:
			opposite = append(opposite, row)
		}
	}
	switch {
	case len(same) > 0:
		return SplitUsual, same
	case len(opposite) > 0:
		return SplitReversed, opposite
	default:
		return SplitUnusual, rows
	}
}
