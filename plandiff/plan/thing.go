package plan

// A Thing names one record of a plan: its kind and its key.
type Thing struct {
	Kind Kind   `json:"kind"`
	Key  string `json:"key"`
}

// String gives "repeater ridge".
func (t Thing) String() string {
	if t.Key == "" {
		return t.Kind.String()
	}
	return t.Kind.String() + " " + t.Key
}

// Thing names the record.
func (h *Header) Thing() Thing { return Thing{KindPlan, ""} }

// Thing names the record.
func (r *Repeater) Thing() Thing { return Thing{KindRepeater, r.Key.V} }

// Thing names the record.
func (g *Group) Thing() Thing { return Thing{KindGroup, g.Key.V} }

// Thing names the record.
func (l *ReceiveList) Thing() Thing { return Thing{KindReceiveList, l.Key.V} }

// Thing names the record.
func (c *ChannelSpec) Thing() Thing { return Thing{KindChannel, c.Key.V} }

// Thing names the record.
func (z *Zone) Thing() Thing { return Thing{KindZone, z.Key.V} }

// Thing names the record.
func (s *ScanList) Thing() Thing { return Thing{KindScanList, s.Key.V} }

// Thing names the record.
func (m *Message) Thing() Thing { return Thing{KindMessage, m.Key.V} }

// Thing names the record.
func (s *Shortcut) Thing() Thing { return Thing{KindShortcut, s.Key.V} }

// Thing names the record.
func (o *Operator) Thing() Thing { return Thing{KindOperator, o.Key.V} }

// Thing names the record.
func (r *Radio) Thing() Thing { return Thing{KindRadio, r.Key.V} }

// Thing names the record.
func (s *Severity) Thing() Thing { return Thing{KindSeverity, s.Key.V} }

// Thing names the record.
func (r *LicenseRow) Thing() Thing { return Thing{KindLicenseRow, r.Key.V} }

// Thing names the record.
func (r *SeparationRow) Thing() Thing { return Thing{KindSeparationRow, r.Key.V} }

// Thing names the record.
func (n *Neighbor) Thing() Thing { return Thing{KindNeighbor, n.Key.V} }

// Thing names the record.
func (c *Coordination) Thing() Thing { return Thing{KindCoordination, c.Key.V} }

// Thing names the record.
func (a *Acceptance) Thing() Thing { return Thing{KindAcceptance, a.Key.V} }
