package license

// Count is how many rows of a table were read, read in part, and are from memory.
type Count struct{ Read, Part, Memory int }

func (c *Count) add(p Provenance) {
	switch p.Confidence {
	case Read:
		c.Read++
	case Part:
		c.Part++
	default:
		c.Memory++
	}
}

// Counts is how much the tables of a region hold.
type Counts struct {
	Rows     Count // of its own license table, without what stands in and what holds everywhere
	Segments Count // of all band plans that apply
	Splits   Count // all that apply
	Services Count // channels of other services, all that apply
}

// Counts counts the rows of the region's tables by how sure they are.
func (t *Tables) Counts() Counts {
	var c Counts
	for _, row := range t.rows {
		if row.Jurisdiction == t.owner() {
			c.Rows.add(row.Provenance)
		}
	}
	for _, s := range t.segments.items {
		c.Segments.add(s.Provenance)
	}
	for _, s := range t.splits.items {
		c.Splits.add(s.Provenance)
	}
	seen := make(map[*ServiceRow]bool)
	for _, s := range t.services.items {
		if !seen[s.ServiceRow] { // one of two carriers
			c.Services.add(s.ServiceRow.Provenance)
		}
		seen[s.ServiceRow] = true
	}
	return c
}
