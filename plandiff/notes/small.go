package notes

import (
	"passband.example/plandiff"
	"passband.example/plandiff/plan"
)

// small tells messages, number keys and how many contacts differ.
func (w *writer) small(n *Notes) {
	for i := range w.c.Changes {
		switch c := &w.c.Changes[i]; c.Thing.Kind {
		case plan.KindMessage:
			if e := c.Field("text"); e != nil {
				n.Messages = append(n.Messages, Pair{first(e.Old), first(e.New)})
			}
		case plan.KindShortcut:
			if e := c.Field("calls"); e != nil {
				n.Keys = append(n.Keys, Key{c.Thing.Key, called(w.c.Old, first(e.Old)), called(w.c.New, first(e.New))})
			}
		case plan.KindOperator:
			n.Contacts.count(c.Op)
		}
	}
}

func (c *Contacts) count(op plandiff.Op) {
	switch op {
	case plandiff.Added:
		c.New++
	case plandiff.Removed:
		c.Gone++
	default:
		c.Changed++
	}
}

func first(texts []string) string {
	if len(texts) == 0 {
		return ""
	}
	return texts[0]
}

// called names what a number key calls: a group by its label, an operator by the
// callsign alone.
func called(x *plan.Expansion, text string) string {
	if g, ok := x.Plan.Groups.Find(text); ok {
		return g.Called()
	}
	return text
}
