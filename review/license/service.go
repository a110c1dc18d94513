package license

import "passband.example/plandiff/signal"

// ServiceRow is a channel of another service. Anybody may listen where national law lets
// him; an amateur license gives no right to transmit there. Those that a Tables returns
// are shared: read them only.
type ServiceRow struct {
	Jurisdiction string // US, CEPT, any: where it holds
	Service      string // GMRS, maritime mobile
	Name         string // FRS channel 1
	Receive      signal.Hertz
	Transmit     signal.Hertz // what the far user sends on; zero: nobody but the service itself
	Width        signal.Hertz
	MaxPower     signal.Power
	PowerKind    PowerKind
	Who          string // who may transmit
	Force        Force  // Custom for an amateur channel that is only kept clear
	Provenance
}

const serviceColumns = "service,name,rx_mhz,tx_mhz,width_hz,max_power_w,power_kind,who,force,source,edition,confidence,note"

func readServices(file, jurisdiction string, data []byte) ([]*ServiceRow, error) {
	return readSheet(file, data, serviceColumns, func(c *cells) *ServiceRow {
		return &ServiceRow{
			Jurisdiction: jurisdiction, Service: c.need("service"), Name: c.need("name"),
			Receive:  c.megahertz("rx_mhz"),
			Transmit: optional(c, "tx_mhz", func(string) signal.Hertz { return c.megahertz("tx_mhz") }),
			Width:    c.hertz("width_hz"), MaxPower: optional(c, "max_power_w", c.watts),
			PowerKind: word(c, "power_kind", powerKindNames), Who: c.need("who"), Force: word(c, "force", forceNames),
			Provenance: c.provenance(),
		}
	})
}

// A carrier is one of the two frequencies of a service channel, with its width.
type carrier struct {
	*ServiceRow
	at signal.Hertz
}

// extent doubles everything, since half of an odd width is no whole hertz.
func (c carrier) extent() (low, high signal.Hertz) { return 2*c.at - c.Width, 2*c.at + c.Width }

func newServices(rows []*ServiceRow) index[carrier] {
	var all []carrier
	for _, row := range rows {
		all = append(all, carrier{row, row.Receive})
		if row.Transmit != 0 && row.Transmit != row.Receive {
			all = append(all, carrier{row, row.Transmit})
		}
	}
	return newIndex(all)
}

// Services returns the channels of other services that an emission around f overlaps: those
// on either of whose frequencies it comes nearer than half of both widths.
func (t *Tables) Services(f, width signal.Hertz) []*ServiceRow {
	var rows []*ServiceRow
	r := reachOf(f, width)
	for _, c := range t.services.overlapping(reach{2 * r.low, 2 * r.high}) {
		rows = append(rows, c.ServiceRow)
	}
	return rows
}
