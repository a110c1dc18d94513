package plan

// nameSet is a set of texts. Most sets have a handful, for which a map costs more than to
// look at each.
type nameSet struct {
	few  [8]string
	n    int
	many map[string]bool
}

// add reports whether the text is new to the set.
func (s *nameSet) add(text string) bool {
	if s.many == nil {
		for _, known := range s.few[:s.n] {
			if known == text {
				return false
			}
		}
		if s.n < len(s.few) {
			s.few[s.n] = text
			s.n++
			return true
		}
		s.many = make(map[string]bool, 4*len(s.few))
		for _, known := range s.few {
			s.many[known] = true
		}
	}
	if s.many[text] {
		return false
	}
	s.many[text] = true
	return true
}

// marks is a set of channels of one expansion, which is emptied at no cost.
type marks struct {
	of  []int32 // by the index of the channel: the round in which it was put in
	now int32
}

func newMarks(x *Expansion) marks { return marks{of: make([]int32, len(x.Channels)), now: 1} }

func (m *marks) clear() { m.now++ }

// add reports whether the channel is new to the set.
func (m *marks) add(c *Channel) bool {
	fresh := m.of[c.index] != m.now
	m.of[c.index] = m.now
	return fresh
}
