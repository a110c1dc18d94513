package license

import "fmt"

const rowColumns = "classes,service,station,place,low_mhz,high_mhz,transmit,emissions,max_width_hz,max_power_w,power_kind,condition,source,edition,confidence,note"

// ReadRows reads a license table in the form of the embedded ones; see the package
// comment for its columns. file is the name that errors and rows carry, jurisdiction
// what the rows say they are of. It returns every problem at once.
func ReadRows(file, jurisdiction string, data []byte) ([]Row, error) {
	return readSheet(file, data, rowColumns, func(c *cells) Row {
		row := Row{
			Jurisdiction: jurisdiction,
			Service:      c.need("service"),
			Station:      word(c, "station", stationNames),
			Place:        c.text("place"),
			Right:        word(c, "transmit", rightNames),
			MaxWidth:     optional(c, "max_width_hz", c.hertz),
			MaxPower:     optional(c, "max_power_w", c.watts),
			PowerKind:    word(c, "power_kind", powerKindNames),
			Condition:    c.text("condition"),
			Provenance:   c.provenance(),
		}
		for _, class := range c.list("classes", "|") {
			row.Classes = append(row.Classes, Class(class))
		}
		row.Low, row.High = c.interval()
		kinds, ok := parseKinds(c.text("emissions"))
		if !ok {
			c.problem("emissions %.60q has a word that is not known; write all, or words as in CW|phone|data", c.text("emissions"))
		}
		row.Emissions = kinds
		if problem := row.amiss(); problem != "" {
			c.problem("%s", problem)
		}
		return row
	})
}

// amiss returns what is wrong with a row whose cells can all be read.
func (r *Row) amiss() string {
	switch {
	case r.Low <= 0 || r.Low >= r.High:
		return fmt.Sprintf("%s to %s is no range", r.Low, r.High)
	case (r.MaxPower != 0) != (r.PowerKind != NoPower):
		return "a power and what it measures go together; give both max_power_w and power_kind, or neither"
	case r.Right != No && r.Service != amateur:
		return "transmit is yes for a service that is not amateur; an amateur license gives no right there"
	case r.Emissions == 0:
		return "it names no emission; write all"
	case r.Source == "" || r.Edition == "":
		return "it has no source or no edition; every row needs both"
	default:
		return ""
	}
}

const amateur = "amateur"
