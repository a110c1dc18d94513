package rules

import (
	_ "embed"
	"fmt"

	"passband.example/plandiff/plan"
	"passband.example/review"
	"passband.example/review/license"
)

//go:embed off_raster.md
var offRasterDoc string

// OffRaster reports a frequency between the channels of the band plan, or on no channel
// step at all.
var OffRaster = &review.Rule{
	ID:       "off-raster",
	Severity: review.Note, // odd frequencies are lawful, and local plans have other steps
	Edition:  2026,
	Doc:      offRasterDoc,
	Run:      offRaster,
}

func offRaster(p *review.Pass) {
	l := lawOf(p)
	for _, w := range tunedFrequencies(p) {
		if w.listen || uncut(w.on) != 0 || w.key == "split" && offOutput(p.Plan, l, w) {
			continue // what is cut off has a rule of its own
		}
		if f, off := l.offRaster(w); off {
			if !onGrid(w.on) { // on no step anywhere, so the nearest can be meant and little else
				f.Mend = retune(p.Plan, w, nearestStep(w.on))
			}
			p.Report(f)
		}
	}
}

// offOutput tells whether the output that a split leads from is off its raster: it takes
// its input along, and is the one cause.
func offOutput(p *plan.Plan, l *law, w tuned) bool {
	output := w
	output.on -= splitOf(p, w)
	_, off := l.offRaster(output)
	return off || uncut(output.on) != 0
}

// offRaster is the finding for a frequency that is off the steps of the band plan there, or
// off every step where none says any. Channels halfway between two others are in use.
func (l *law) offRaster(w tuned) (review.Finding, bool) {
	var s *license.Segment
	if l != nil {
		s = l.tables.Raster(w.on)
	}
	f := review.Finding{
		At: w.at, About: []plan.Thing{w.by}, Values: []string{w.key, w.on.String()},
		Why: "it may be a slip, and it disturbs both channels that it lies between",
	}
	if s == nil {
		near := nearestStep(w.on)
		f.What = fmt.Sprintf("%s: %s MHz (%s) is on no channel step in use; the nearest that is: %s", w.by, w.on, w.key, near)
		f.Fix = fmt.Sprintf("write %s, if that is meant", near)
		f.Source = "arithmetic: every step in use is a multiple of 2.5 or 6.25 kHz; common practice, no source"
		return f, !onGrid(w.on)
	}
	for _, step := range s.Rasters {
		if w.on%(step/2) == 0 {
			return f, false
		}
	}
	near := nearestOf(w.on, s.Rasters[0])
	f.What = fmt.Sprintf("%s: %s MHz (%s) is between the channels of the band plan, %s kHz apart there; the nearest is %s", w.by, w.on, w.key, s.Rasters[0].KHz(), near)
	f.Fix = fmt.Sprintf("write %s, if that is meant; where your area has other steps, leave it", near)
	f.Source = segmentSource(s)
	return f, true
}
