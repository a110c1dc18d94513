package plan

import "slices"

// Parts gives what two versions of a file do not say alike: the records that are not the
// very same in both, as those are that an amended version shares. With one that is gone
// comes the record of its kind that stays and stands nearest before it, or else behind it,
// from both versions, so that it can be told where it was.
func Parts(was, now *File) (gone, came *File) {
	s := shared(was.records, now.records)
	var old, new []int
	stays := make(map[Thing]bool)
	for i := s.before; i < s.before+len(s.old); i++ {
		if s.now(i) < 0 {
			old = append(old, i)
		}
	}
	for i, r := range s.new {
		if _, ok := s.between[r]; !ok {
			new = append(new, s.before+i)
			stays[r.Thing()] = true
		}
	}
	for _, i := range old {
		if !stays[was.records[i].Thing()] {
			if near := s.near(was.records, i); near >= 0 {
				old, new = append(old, near), append(new, s.now(near))
			}
		}
	}
	gone, came = was.only(old), now.only(new)
	if was.header != now.header {
		gone.header, came.header = was.header, now.header
	}
	return gone, came
}

// Differ reports whether two versions of a file may not say the same of records that matter:
// whether one of these is not the very same in both.
func Differ(was, now *File, matters func(Record) bool) bool {
	s := shared(was.records, now.records)
	for i, r := range s.old {
		if s.now(s.before+i) < 0 && matters(r) {
			return true
		}
	}
	for _, r := range s.new {
		if _, ok := s.between[r]; !ok && matters(r) {
			return true
		}
	}
	return false
}

// only gives the file with these of its records alone.
func (f *File) only(which []int) *File {
	g := &File{name: f.name, records: make([]Record, 0, len(which))}
	slices.Sort(which)
	for _, i := range slices.Compact(which) {
		g.records = append(g.records, f.exact(i))
	}
	return g
}

// A sharing says which records are the very same in two lists.
type sharing struct {
	before   int            // so many at the beginning are
	old, new []Record       // what is between those and the same ones at the end
	between  map[Record]int // those of both between, with their place in the new list
	more     int            // how many more records the new list has
}

func shared(old, new []Record) sharing {
	s := sharing{old: old, new: new, more: len(new) - len(old)}
	for len(s.old) > 0 && len(s.new) > 0 && s.old[0] == s.new[0] {
		s.before++
		s.old, s.new = s.old[1:], s.new[1:]
	}
	for len(s.old) > 0 && len(s.new) > 0 && s.old[len(s.old)-1] == s.new[len(s.new)-1] {
		s.old, s.new = s.old[:len(s.old)-1], s.new[:len(s.new)-1]
	}
	s.between = make(map[Record]int)
	if len(s.old) == 0 || len(s.new) == 0 {
		return s
	}
	has := make(map[Record]bool, len(s.old))
	for _, r := range s.old {
		has[r] = true
	}
	for i, r := range s.new {
		if has[r] {
			s.between[r] = s.before + i
		}
	}
	return s
}

// now gives the place in the new list of a record of the old one, or -1.
func (s *sharing) now(i int) int {
	switch {
	case i < s.before:
		return i
	case i >= s.before+len(s.old):
		return i + s.more
	}
	if now, ok := s.between[s.old[i-s.before]]; ok {
		return now
	}
	return -1
}

// near gives the shared record of the same kind that stands nearest before an old one, or
// else behind it; -1 where there is none.
func (s *sharing) near(all []Record, i int) int {
	kind := all[i].Thing().Kind
	for j := i - 1; j >= 0 && all[j].Thing().Kind == kind; j-- {
		if s.now(j) >= 0 {
			return j
		}
	}
	for j := i + 1; j < len(all) && all[j].Thing().Kind == kind; j++ {
		if s.now(j) >= 0 {
			return j
		}
	}
	return -1
}
