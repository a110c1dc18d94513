package page

import (
	"cmp"
	"slices"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/signal"
	"passband.example/review/license"
)

// A tuned is one signal that members hear or send, with the channels that do so before and now.
type tuned struct {
	Center, Width signal.Hertz
	Mode          plan.Mode
	Sends         bool
	Was, Now      int     // channels
	users         []*user // who is on it
}

// State says whether the signal came or went, or whether others are on it than before.
func (t *tuned) State() string {
	switch {
	case t.Was == 0:
		return "came"
	case t.Now == 0:
		return "went"
	case slices.ContainsFunc(t.users, func(u *user) bool { return u.state() != "" }):
		return "changed"
	}
	return ""
}

// low and high are the edges of what it occupies, an odd width rounded outward.
func (t *tuned) low() signal.Hertz  { return t.Center - (t.Width+1)/2 }
func (t *tuned) high() signal.Hertz { return t.Center + (t.Width+1)/2 }

// A signalKey is what makes two channels one signal.
type signalKey struct {
	center, width signal.Hertz
	mode          plan.Mode
	sends         bool
}

// tuned gives every signal of both plans once, by frequency. Where one plan is shown, all
// of it counts as before and now.
func (s *sides) tuned() []*tuned {
	known := make(map[signalKey]*tuned)
	users := make(map[userKey]*user)
	add := func(x *plan.Expansion, was, now int) {
		for _, c := range x.Channels {
			width := widthOf(c)
			for _, one := range [...]signalKey{{c.Receive, width, c.Mode, false}, {c.Transmit, width, c.Mode, true}} {
				if one.center <= 0 {
					continue
				}
				t := known[one]
				if t == nil {
					t = &tuned{Center: one.center, Width: one.width, Mode: one.mode, Sends: one.sends}
					known[one] = t
				}
				t.Was, t.Now = t.Was+was, t.Now+now
				key := userKey{t, s.keyNow(x, c)}
				u := users[key]
				if u == nil {
					u = &user{Name: calledOf(c)}
					users[key] = u
					t.users = append(t.users, u)
				}
				u.was, u.now = u.was+was, u.now+now
			}
		}
	}
	if s.compared() {
		add(s.new, 0, 1)
		add(s.old, 1, 0)
	} else {
		add(s.new, 1, 1)
	}
	all := make([]*tuned, 0, len(known))
	for _, t := range known {
		t.order()
		all = append(all, t)
	}
	slices.SortFunc(all, func(a, b *tuned) int {
		sends := map[bool]int{true: 1}
		return cmp.Or(cmp.Compare(a.Center, b.Center), cmp.Compare(sends[a.Sends], sends[b.Sends]), cmp.Compare(a.Mode, b.Mode), cmp.Compare(a.Width, b.Width))
	})
	return all
}

// widthOf gives what a channel occupies.
func widthOf(c *plan.Channel) signal.Hertz {
	switch {
	case c.Mode == plan.ModeDMR:
		return license.DMRVoice().NecessaryBandwidth
	case c.Wide:
		return license.FMWide().NecessaryBandwidth
	}
	return license.FMNarrow().NecessaryBandwidth
}

func calledOf(c *plan.Channel) string {
	if c.Repeater != nil {
		return c.Repeater.Called()
	}
	return c.Label
}
