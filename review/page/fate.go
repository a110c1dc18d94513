package page

import (
	"slices"

	"passband.example/plandiff"
	"passband.example/review/report"
	"passband.example/review/survey"
)

// A fate is what a change does to one channel, whatever caused it.
type fate struct {
	Op      plandiff.Op
	Was     string // its name before, where it had another
	Aspects []plandiff.Aspect
}

func sidesOf(d *report.Document) *sides {
	s := &sides{Document: d, new: d.Expansion, judged: d.Expansion.Plan, changed: map[string]*fate{}, nowName: map[string]string{}}
	if d.Comparison != nil {
		s.old = d.Comparison.Old
		s.judged = s.judged.Under(s.old.Plan, d.Comparison.Renames)
		s.fates()
	}
	s.survey = survey.Of(s.judged)
	return s
}

// fates takes in what the change does to each channel.
func (s *sides) fates() {
	for i := range s.Comparison.Causes {
		for _, e := range s.Comparison.Causes[i].Reach.Channels {
			s.add(&e)
		}
	}
}

// add takes an effect in. A channel that several causes reach keeps what each does to it.
func (s *sides) add(e *plandiff.Effect) {
	f := s.changed[e.Channel]
	if f == nil {
		f = &fate{Op: e.Op}
		s.changed[e.Channel] = f
	}
	if e.Op == plandiff.Added || e.Op == plandiff.Removed {
		f.Op = e.Op
	}
	if e.Was != "" && e.Was != e.Channel {
		f.Was = e.Was
		s.nowName[e.Was] = e.Channel
	}
	for _, a := range e.Aspects {
		if !slices.Contains(f.Aspects, a) {
			f.Aspects = append(f.Aspects, a)
		}
	}
}

// now gives the name that a channel of the old plan has now.
func (s *sides) now(name string) string {
	if to, ok := s.nowName[name]; ok {
		return to
	}
	return name
}

// words say what became of a channel: new, gone, or what differs.
func (f *fate) words() string {
	switch {
	case f == nil:
		return ""
	case f.Op == plandiff.Added:
		return "new"
	case f.Op == plandiff.Removed:
		return "gone"
	}
	said := ""
	if f.Was != "" {
		said = "was " + f.Was
	}
	for _, a := range f.Aspects {
		if said != "" {
			said += "; "
		}
		said += a.Name + " " + orNone(a.Old) + " → " + orNone(a.New)
	}
	return said
}

func orNone(s string) string {
	if s == "" {
		return "none"
	}
	return s
}
