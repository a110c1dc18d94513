package merge

import (
	"fmt"
	"slices"
	"strings"

	"passband.example/plandiff"
	"passband.example/plandiff/plan"
)

// after tells what is wrong with the merged plan though it is with neither side
// alone.
func (w *work) after() []string {
	if w.untouched() != nil {
		return nil // what is wrong with the one side is so without the other
	}
	all := append(w.retunedByBoth(), sameIDs(w.even[1].plan, w.even[2].plan, w.merged)...)
	if !isLimited(w.merged) && (isInert(w.made[0]) || isInert(w.made[1])) {
		return all
	}
	return append(all, astrayTogether(w.even[1].plan, w.even[2].plan, w.merged)...)
}

// isInert reports whether a side changed neither a reference nor anything that one could
// lead to. Then no reference leads anywhere else than it does on the other side.
func isInert(made *plandiff.Comparison) bool {
	for _, c := range made.Changes {
		s := plan.SectionOf(c.Thing.Kind)
		if c.Op != plandiff.Changed || !s.HasOwnKeys() || c.Thing.Kind == plan.KindRadio {
			return false
		}
		for _, e := range c.Edits {
			if f := s.Field(e.Field); f.Form != plan.Scalar || f.Ref != plan.NoRef {
				return false
			}
		}
	}
	return true
}

// isLimited reports whether a radio states what it holds at most.
func isLimited(p *plan.Plan) bool {
	return slices.ContainsFunc(p.Radios.All(), func(r *plan.Radio) bool {
		return slices.ContainsFunc(r.Limits[:], func(most plan.Value[int]) bool { return most.IsSet() })
	})
}

// sameIDs tells of groups and operators that share an ID since both sides came
// together: a radio cannot tell the groups apart.
func sameIDs(ours, theirs, merged *plan.Plan) []string {
	var all []string
	now := pairs(merged)
	if len(now) == 0 {
		return nil
	}
	known := make(map[string]bool)
	for _, side := range []*plan.Plan{ours, theirs} {
		for _, pair := range pairs(side) {
			known[pair.String()] = true
		}
	}
	for _, pair := range now {
		if !known[pair.String()] {
			all = append(all, pair.String()+"; a radio cannot tell them apart: give one another ID, or keep only one")
		}
	}
	return all
}

// A pair is two records with one ID.
type pair struct {
	a, b plan.Thing
	id   string
}

func (p pair) String() string { return fmt.Sprintf("%s and %s both have the ID %s", p.a, p.b, p.id) }

// pairs gives the groups that are called in the same way by the same ID, and the
// operators of different callsigns with the same.
func pairs(p *plan.Plan) []pair {
	var all []pair
	groups := make(map[string]*plan.Group)
	for _, g := range p.Groups.Sorted() {
		if !g.ID.IsSet() {
			continue
		}
		id := g.ID.V.String() + " " + g.Call.Or("group")
		if first := groups[id]; first != nil {
			all = append(all, pair{first.Thing(), g.Thing(), g.ID.V.String()})
			continue
		}
		groups[id] = g
	}
	people := make(map[string]*plan.Operator)
	for _, o := range p.Operators.Sorted() {
		if !o.ID.IsSet() || !o.Callsign.IsSet() {
			continue
		}
		first := people[o.ID.V.String()]
		if first == nil {
			people[o.ID.V.String()] = o
		} else if first.Callsign.V != o.Callsign.V {
			name := func(o *plan.Operator) plan.Thing {
				return plan.Thing{Kind: plan.KindOperator, Key: string(o.Callsign.V)}
			}
			all = append(all, pair{name(first), name(o), o.ID.V.String()})
		}
	}
	return all
}

// retunedByBoth tells of repeaters whose output comes from one side and whose input
// from the other: nobody has seen the two together.
func (w *work) retunedByBoth() []string {
	var all []string
	for _, r := range w.merged.Repeaters.Sorted() {
		seen := r.TransmitOn() == 0 || !r.Output.IsSet()
		for _, side := range w.even {
			if s, ok := side.plan.Repeaters.Find(r.Key.V); ok {
				seen = seen || s.Output.V == r.Output.V && s.TransmitOn() == r.TransmitOn()
			}
		}
		if !seen {
			all = append(all, fmt.Sprintf("%s: one side moved its output to %s MHz and the other its input to %s MHz; ask the frequency coordinator whether the two belong together", r.Thing(), r.Output.V, r.TransmitOn()))
		}
	}
	return all
}

// dangling tells of references that lead nowhere since both sides came together.
func dangling(ours, theirs map[string]bool, now *plan.Expansion) []string {
	var all []string
	for _, u := range now.Unresolved {
		if name := astray(u); !ours[name] && !theirs[name] {
			all = append(all, name+", which the other side removed or renamed; take the reference out, or put back what it needs")
		}
	}
	slices.Sort(all)
	return slices.Compact(all)
}

// circles tells of references that lead back to themselves since both came together.
func circles(ours, theirs, now *plan.Expansion) []string {
	known := make(map[string]bool)
	say := func(c plan.Cycle) string {
		names := make([]string, len(c.Through))
		for i, t := range c.Through {
			names[i] = t.String()
		}
		return strings.Join(names, " refers to ")
	}
	for _, x := range []*plan.Expansion{ours, theirs} {
		for _, c := range x.Cycles {
			known[say(c)] = true
		}
	}
	var all []string
	for _, c := range now.Cycles {
		if !known[say(c)] {
			all = append(all, say(c)+", in a circle; take one of the references out")
		}
	}
	slices.Sort(all)
	return slices.Compact(all)
}

// overfull tells of memory limits that each side alone keeps.
func overfull(ours, theirs, now *plan.Expansion) []string {
	o, t := crossed(ours), crossed(theirs)
	var all []string
	for _, f := range now.Fits {
		for _, u := range f.Uses {
			if name := limit(f, u); u.Most > 0 && u.Used > u.Most && !o[name] && !t[name] {
				all = append(all, fmt.Sprintf("%s: both sides together need %d, and %d is the most it holds; take something out", name, u.Used, u.Most))
			}
		}
	}
	return all
}

// crossed gives the limits that a plan does not keep.
func crossed(x *plan.Expansion) map[string]bool {
	all := make(map[string]bool)
	for _, f := range x.Fits {
		for _, u := range f.Uses {
			if u.Most > 0 && u.Used > u.Most {
				all[limit(f, u)] = true
			}
		}
	}
	return all
}

func limit(f *plan.Fit, u plan.Use) string {
	if u.Who.Key != "" {
		return fmt.Sprintf("%s, %s of %s", f.Radio.Thing(), u.Limit, u.Who)
	}
	return fmt.Sprintf("%s, %s", f.Radio.Thing(), u.Limit)
}
