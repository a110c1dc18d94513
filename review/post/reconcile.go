package post

import (
	"cmp"
	"maps"
	"slices"

	"passband.example/review/report"
)

// A Comment is one that stands on a forge.
type Comment struct {
	ID       int64
	Thread   string // what the forge resolves it by, where it can
	Mine     bool   // written by the user that passband is
	Body     string
	Spot     Spot // where it stands now; zero if the line is no longer in the diff
	Answered bool // a person wrote below it
	Resolved bool
}

// A Draft is a comment that should stand. Without a Spot there is no line for it:
// it is never posted, but one that stands is not gone either.
type Draft struct {
	Key  string `json:"id"`
	Spot Spot   `json:"at"`
	Body string `json:"body"` // below the mark
}

// An Amendment is another text for a comment that stands.
type Amendment struct {
	Comment Comment
	Body    string // with its mark
}

// A Work is what is to be done so that what stands is what should stand. Posting
// comes first and removing last, so that nothing is missing in between.
type Work struct {
	Post    []Draft // with their marks
	Amend   []Amendment
	Resolve []Comment
	Reopen  []Comment
	Remove  []Comment

	OnLine map[string]bool // the keys that have a comment once it is done
}

// Done reports whether nothing is to be done.
func (w *Work) Done() bool {
	return len(w.Post)+len(w.Amend)+len(w.Resolve)+len(w.Reopen)+len(w.Remove) == 0
}

// A Goal is what should stand on the lines of a pull request.
type Goal struct {
	Plan   string  // report.PlanMark of the plan's folder
	Head   string  // the commit that was judged
	Drafts []Draft // most important first
	Most   int     // how many comments there may be
}

// Reconcile works out what is to be done, and does nothing. A comment counts only
// if passband wrote it, of several for one finding only one stays, a thread that a
// person answered is not touched, and what is gone is marked so. Comments that
// stand count among those that there may be.
func Reconcile(standing []Comment, goal Goal) *Work {
	w := &Work{OnLine: make(map[string]bool)}
	known := group(standing, goal.Plan)
	var missing []Draft
	for _, d := range goal.Drafts {
		if !w.settle(known[d.Key], d, goal) {
			missing = append(missing, d)
		}
		delete(known, d.Key)
	}
	for _, d := range missing {
		if len(w.OnLine) < goal.Most && !d.Spot.IsZero() {
			w.post(d, goal)
		}
	}
	for _, key := range slices.Sorted(maps.Keys(known)) {
		for _, s := range known[key] {
			w.gone(s, goal)
		}
	}
	return w
}

// settle sees to one finding that may have comments already, and reports whether
// it has.
func (w *Work) settle(all []known, d Draft, goal Goal) bool {
	if len(all) == 0 {
		return false
	}
	kept := all[0]
	for _, double := range all[1:] {
		if !double.Answered {
			w.Remove = append(w.Remove, double.Comment)
		}
	}
	switch wasGone := kept.mark.Role == report.MarkGone; {
	case kept.Answered:
		if !wasGone {
			w.OnLine[d.Key] = true
		}
		return !wasGone // what came back after somebody answered begins a new thread
	case !d.Spot.IsZero() && kept.Spot != d.Spot:
		w.post(d, goal)
		w.Remove = append(w.Remove, kept.Comment)
		return true
	case wasGone && kept.Resolved && kept.Thread != "":
		w.Reopen = append(w.Reopen, kept.Comment)
	}
	w.OnLine[d.Key] = true
	if body := sign(report.MarkFinding, d.Key, goal, d.Body); kept.differs(body) {
		w.Amend = append(w.Amend, Amendment{kept.Comment, body})
	}
	return true
}

func (w *Work) post(d Draft, goal Goal) {
	d.Body = sign(report.MarkFinding, d.Key, goal, d.Body)
	w.Post = append(w.Post, d)
	w.OnLine[d.Key] = true
}

// gone marks a comment whose finding is no longer there.
func (w *Work) gone(s known, goal Goal) {
	if s.Answered {
		return
	}
	if s.mark.Role == report.MarkFinding {
		w.Amend = append(w.Amend, Amendment{s.Comment, sign(report.MarkGone, s.mark.Key, goal, report.GoneComment(s.text, goal.Head))})
	}
	if !s.Resolved && s.Thread != "" {
		w.Resolve = append(w.Resolve, s.Comment)
	}
}

func sign(role report.MarkRole, key string, goal Goal, body string) string {
	return report.Mark{Role: role, Key: key, Plan: goal.Plan}.Signed(body)
}

// known is a comment of passband's own, with what its mark says.
type known struct {
	Comment
	mark report.Mark
	text string // below the mark
}

// differs reports whether the comment says something else than a body. The digest
// in the mark is compared, since forges keep a text in their own ways.
func (k known) differs(body string) bool {
	m, _, _ := report.ParseMark(body)
	return m.Text != k.mark.Text || m.Role != k.mark.Role
}

// group gives the comments that passband wrote about the findings of a plan, the
// one to keep first.
func group(standing []Comment, plan string) map[string][]known {
	groups := make(map[string][]known)
	for _, c := range standing {
		m, text, ok := report.ParseMark(c.Body)
		if ok && c.Mine && m.Plan == plan && m.Role != report.MarkSummary {
			groups[m.Key] = append(groups[m.Key], known{c, m, text})
		}
	}
	for _, all := range groups {
		slices.SortFunc(all, func(a, b known) int {
			return cmp.Or(cmp.Compare(a.rank(), b.rank()), cmp.Compare(a.ID, b.ID))
		})
	}
	return groups
}

// rank is lowest for the comment to keep.
func (k known) rank() int {
	rank := 0
	if k.mark.Role == report.MarkGone {
		rank += 4
	}
	if !k.Answered {
		rank += 2
	}
	if k.Spot.IsZero() {
		rank++
	}
	return rank
}
