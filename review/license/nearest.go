package license

import "passband.example/plandiff/signal"

// findNearest looks for the nearest center at which the same emission of the same station and
// class meets steps 1 to 3, if it does not meet them here. The nearest such center lies
// at an edge of a row, so only those are tried.
func (j *judge) findNearest() {
	if !j.misplaced() {
		return
	}
	width := j.q.Emission.NecessaryBandwidth
	half := (width + 1) / 2
	best := widest
	try := func(f signal.Hertz) {
		if away := distance(f, j.q.Center); f > 0 && away < best && j.clear(reachOf(f, width)) {
			best, j.verdict.Nearest = away, f
		}
	}
	for kind := range j.q.Emission.Kind.each() {
		for _, s := range j.coverage(j.filter(kind)).spans {
			try(signal.Hertz(s.low/2) + half)
			try(signal.Hertz(s.high/2) - half)
		}
	}
	for _, s := range j.coverage(filter{class: j.q.Class, station: j.q.Station}).spans {
		try(signal.Hertz(s.low/2) + half)
		try(signal.Hertz(s.high/2) - half)
	}
	for _, row := range j.bars.items {
		if j.barredBy(row) {
			try(row.Low - half)
			try(row.High + half)
		}
	}
}

// misplaced tells whether another frequency could mend the verdict.
func (j *judge) misplaced() bool {
	for _, o := range j.verdict.Objections {
		if o.Reason <= TooWide || o.Reason == StationBarred || o.Reason == OtherService || o.Reason == NotAmateur {
			return true
		}
	}
	return false
}

// clear tells whether steps 1 to 3 are met at r.
func (j *judge) clear(r reach) bool {
	if !j.covered(r) {
		return false
	}
	if j.q.Station != Member {
		c := j.coverage(filter{class: j.q.Class, station: j.q.Station})
		if _, whole := c.around(r); !whole && len(c.spans) > 0 {
			return false
		}
	}
	return !j.bars.any(r, j.barredBy)
}

func distance(a, b signal.Hertz) signal.Hertz { return max(a-b, b-a) }
