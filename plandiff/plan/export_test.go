package plan

// WordingsDiffer names a record that two plans were both said to have read, from different
// texts; else it takes the texts away, which not every way of reading knows.
func WordingsDiffer(p, q *Plan) (Thing, bool) {
	for _, s := range sections() {
		for _, r := range s.all(p) {
			o, ok := s.find(q, r.Thing().Key)
			if ok && r.Wording() != "" && o.Wording() != "" && r.Wording() != o.Wording() {
				return r.Thing(), true
			}
		}
	}
	for _, p := range []*Plan{p, q} {
		for _, s := range sections() {
			for _, r := range s.all(p) {
				r.setWording("")
			}
		}
	}
	return Thing{}, false
}
