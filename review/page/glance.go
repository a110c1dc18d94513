package page

// A glance is the first thing that a reader sees: the verdict, and the plan in numbers.
type glance struct {
	Blocks  bool
	Verdict string
	Skipped string
	Unread  int // places of the plan that could not be read
	Basis   string
	Numbers []number
}

// A number counts something now, and before where two plans are compared.
type number struct {
	What     string
	Now      int
	Was      int
	Compared bool
}

// Differs tells whether there are more or fewer than before.
func (n number) Differs() bool { return n.Compared && n.Now != n.Was }

func (s *sides) glance() glance {
	g := glance{Blocks: s.Verdict.Blocks(), Verdict: s.Status(), Skipped: s.Verdict.Skipped, Unread: len(s.new.Plan.Problems), Basis: s.Basis()}
	add := func(what string, now int, was func() int) {
		n := number{What: what, Now: now, Compared: s.compared()}
		if n.Compared {
			n.Was = was()
		}
		g.Numbers = append(g.Numbers, n)
	}
	p := s.new.Plan
	add("channels", len(s.new.Channels), func() int { return len(s.old.Channels) })
	add("repeaters", p.Repeaters.Len(), func() int { return s.old.Plan.Repeaters.Len() })
	add("groups", p.Groups.Len(), func() int { return s.old.Plan.Groups.Len() })
	add("zones", p.Zones.Len(), func() int { return s.old.Plan.Zones.Len() })
	add("classes of radio", p.Radios.Len(), func() int { return s.old.Plan.Radios.Len() })
	add("operators", p.Operators.Len(), func() int { return s.old.Plan.Operators.Len() })
	return g
}
