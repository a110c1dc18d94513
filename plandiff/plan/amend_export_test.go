package plan

// Amends reports whether Amend would read records apart.
func (f *File) Amends(data []byte) bool { return f.amend(data) != nil }

// Totals gives what an assembly counts.
func (a *Assembly) Totals() []int { return []int{int(a.size), a.count, a.alias, a.bad, a.twice} }
