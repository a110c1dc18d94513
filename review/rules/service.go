package rules

import (
	"fmt"
	"strings"

	"passband.example/plandiff/signal"
	"passband.example/review/license"
)

// away tells how far a channel of another service is from the transmission.
func (j judgment) away(row *license.ServiceRow) signal.Hertz {
	away := max(row.Receive-j.on, j.on-row.Receive)
	if row.Transmit != 0 {
		away = min(away, max(row.Transmit-j.on, j.on-row.Transmit))
	}
	return away
}

// nearest gives the channels of other services that are nearest to the transmission: more
// than one where services share a frequency.
func (j judgment) nearest() []*license.ServiceRow {
	n := 1
	for n < len(j.services) && j.away(j.services[n]) == j.away(j.services[0]) {
		n++
	}
	return j.services[:n]
}

// onService names the channels that the transmission is on.
func (j judgment) onService() string {
	var names []string
	for _, row := range j.nearest() {
		name := row.Name
		if !strings.Contains(name, row.Service) {
			name += " (" + row.Service + ")"
		}
		names = append(names, name)
	}
	return "it is on " + several(unique(names)) + ", where an amateur license gives no right"
}

// serviceSource says what that rests on: the channels, and the amateur bands around.
func (j judgment) serviceSource() string {
	row := j.services[0]
	source := fmt.Sprintf("%s, %s line %d (%s)", row.Cite(), row.File, row.Line, row.Confidence)
	if len(j.denied.Rows) > 0 {
		source += "; amateur bands: " + j.source(j.denied)
	}
	return source
}
