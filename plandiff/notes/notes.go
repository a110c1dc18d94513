package notes

import (
	"slices"

	"passband.example/plandiff"
	"passband.example/plandiff/plan"
)

// Notes are what members must know between two releases of a plan, in their own
// words: labels, frequencies, tones.
type Notes struct {
	Plan       string    `json:"plan"` // its name
	Radios     []Radio   `json:"radios"`
	New        []Channel `json:"new"`
	Gone       []Channel `json:"gone"`
	Changed    []Change  `json:"changed"`
	Relabelled []Pair    `json:"relabelled"`
	Zones      []List    `json:"zones"`
	ScanLists  []List    `json:"scan_lists"`
	Messages   []Pair    `json:"messages"` // texts; one side is empty for a new or a dropped one
	Keys       []Key     `json:"number_keys"`
	Contacts   Contacts  `json:"contacts"`
}

// Empty reports whether members need not know anything.
func (n *Notes) Empty() bool {
	return len(n.New)+len(n.Gone)+len(n.Changed)+len(n.Relabelled)+len(n.Zones)+len(n.ScanLists)+len(n.Messages)+len(n.Keys) == 0 &&
		n.Contacts == Contacts{} && !slices.ContainsFunc(n.Radios, func(r Radio) bool { return len(r.Why) > 0 })
}

// Radio says of one class of radio why it must be loaded again.
type Radio struct {
	Label string   `json:"label"`
	Why   []string `json:"why"` // nothing: it need not
}

// Channel is a channel that came or went.
type Channel struct {
	Label string   `json:"label"`
	Facts []Fact   `json:"facts"`
	Zones []string `json:"zones"` // the labels of the zones that have it
}

// Fact is one setting of a channel.
type Fact struct {
	Name  string `json:"name"`
	Value string `json:"value"`
}

// Change is what differs for one or more channels alike.
type Change struct {
	Of     string    `json:"of,omitempty"` // the label of the repeater where it is all of its channels
	Labels []string  `json:"labels"`       // of the channels
	Facts  []Differs `json:"facts"`
}

// Differs is a setting with another value; "" where it has none.
type Differs struct {
	Name string `json:"name"`
	Old  string `json:"old"`
	New  string `json:"new"`
}

// Pair is a text that is another one now.
type Pair struct {
	Old string `json:"old"`
	New string `json:"new"`
}

// List is a zone or a scan list that is not as it was.
type List struct {
	Op        plandiff.Op `json:"op"`
	Label     string      `json:"label"`
	Was       string      `json:"was,omitempty"` // the label before, where it had another
	Came      []string    `json:"came"`          // labels of channels
	Went      []string    `json:"went"`
	Reordered bool        `json:"reordered"`
	Priority  *Pair       `json:"priority,omitempty"` // of a scan list: the channel that is looked at more often
}

// Key is a number key that calls something else.
type Key struct {
	Digit string `json:"digit"`
	Old   string `json:"old"`
	New   string `json:"new"`
}

// Contacts counts the people in the list of operators.
type Contacts struct {
	New     int `json:"new"`
	Gone    int `json:"gone"`
	Changed int `json:"changed"`
}

// Of makes the notes for a comparison of two releases.
func Of(c *plandiff.Comparison) *Notes {
	n := &Notes{
		Plan: c.New.Plan.Header.Title.Or(""), New: []Channel{}, Gone: []Channel{}, Changed: []Change{}, Relabelled: []Pair{},
		Messages: []Pair{}, Keys: []Key{},
	}
	w := newWriter(c)
	w.channels(n)
	w.lists(n)
	w.small(n)
	n.Radios = w.radios()
	return n
}

// writer knows the two plans by the names that members know.
type writer struct {
	c       *plandiff.Comparison
	effects []effect
	usable  map[*plan.Channel]bool           // some radio holds it
	carried map[plan.Record]bool             // zones and scan lists that some radio holds
	first   map[*plan.ScanList]*plan.Channel // the channel that a scan list looks at more often
	zones   map[*plan.Channel][]string
}

// An effect is a channel before and now.
type effect struct {
	old, new *plan.Channel // one of them is nil where it came or went
	aspects  []plandiff.Aspect
}

func newWriter(c *plandiff.Comparison) *writer {
	w := &writer{c: c, usable: map[*plan.Channel]bool{}, carried: map[plan.Record]bool{},
		first: map[*plan.ScanList]*plan.Channel{}, zones: map[*plan.Channel][]string{}}
	for _, x := range []*plan.Expansion{c.Old, c.New} {
		w.know(x)
	}
	w.collect()
	return w
}

// know notes the channels, zones and scan lists of a plan that a radio of the club
// holds, or all of them where the plan names no radios, and the zones of each channel.
func (w *writer) know(x *plan.Expansion) {
	all := len(x.Fits) == 0
	for _, f := range x.Fits {
		for _, c := range f.Channels {
			w.usable[c] = true
		}
		for _, z := range f.Zones {
			w.carried[z.Zone] = true
		}
		for _, s := range f.ScanLists {
			w.carried[s.List] = true
		}
	}
	for _, c := range x.Channels {
		w.usable[c] = w.usable[c] || all
	}
	for _, z := range x.Zones {
		w.carried[z.Zone] = w.carried[z.Zone] || all
		for _, m := range z.Members {
			if w.carried[z.Zone] {
				w.zones[m.Channel] = append(w.zones[m.Channel], z.Zone.Called())
			}
		}
	}
	for _, s := range x.ScanLists {
		w.carried[s.List], w.first[s.List] = w.carried[s.List] || all, s.Priority
	}
}

// collect gives every channel that is not as it was, or that other radios hold, in
// the order of the channels; those that went come last.
func (w *writer) collect() {
	found := make(map[*plan.Channel]effect)
	for _, cause := range w.c.Causes {
		for _, e := range cause.Reach.Channels {
			if now, ok := w.c.New.Find(e.Channel); ok && e.Op != plandiff.Removed {
				found[now] = effect{old: w.before(e), new: now, aspects: e.Aspects}
			}
		}
	}
	was := make(map[string]*plan.Channel) // by the name in the new plan
	for _, o := range w.c.Old.Channels {
		was[w.nameNow(o)] = o
	}
	gone := make(map[*plan.Channel]bool)
	for _, o := range w.c.Old.Channels {
		gone[o] = true
	}
	for _, now := range w.c.New.Channels {
		e, differs := found[now]
		if !differs {
			e = effect{old: was[now.Name], new: now}
		}
		delete(gone, e.old)
		if differs || e.old != nil && w.usable[e.old] != w.usable[now] {
			w.effects = append(w.effects, e)
		}
	}
	for _, o := range w.c.Old.Channels {
		if gone[o] {
			w.effects = append(w.effects, effect{old: o})
		}
	}
}

// before gives the channel that an effect changed.
func (w *writer) before(e plandiff.Effect) *plan.Channel {
	if e.Op == plandiff.Added {
		return nil
	}
	if o, ok := w.c.Old.Find(e.Was); ok {
		return o
	}
	for _, o := range w.c.Old.Channels {
		if w.c.Renames.Translate(plan.RefEntry, o.Name) == e.Channel {
			return o
		}
	}
	return nil
}
