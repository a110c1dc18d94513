package plan

import (
	"maps"
	"path"
	"slices"
	"strings"
)

// checkRefs notes the references to groups, lists and zones that lead nowhere.
// Those to channels were noted when the channels were looked up.
func (e *expander) checkRefs() {
	p := e.plan()
	targets := map[Ref]target{
		RefGroup:       {"group", has(&p.Groups), keysOf(&p.Groups)},
		RefReceiveList: {"receive list", func(key string) bool { return listens(p, key) }, func() []string { return append(keysOf(&p.ReceiveLists)(), ListenSlot, ListenRepeater, ListenNone) }},
		RefScanList:    {"scan list", has(&p.ScanLists), keysOf(&p.ScanLists)},
		RefRepeater:    {"repeater", has(&p.Repeaters), keysOf(&p.Repeaters)},
		RefZone:        {"zone", has(&p.Zones), keysOf(&p.Zones)},
	}
	for _, s := range sections() {
		if slices.ContainsFunc(s.Fields, func(f Field) bool { return targets[f.Ref].kind != "" }) {
			all := s.all(p)
			for i := range s.Fields {
				if to, ok := targets[s.Fields[i].Ref]; ok {
					e.checkField(&s.Fields[i], all, to)
				}
			}
		}
	}
	e.checkCalls()
}

// A target is what a field may refer to.
type target struct {
	kind     string
	resolves func(key string) bool
	known    func() []string
}

func (e *expander) checkField(f *Field, all []Record, to target) {
	for _, r := range all {
		f.each(r, func(text string, at Place) {
			if !to.resolves(text) {
				e.unresolved(r.Thing(), to.kind, text, at, to.known)
			}
		})
	}
}

func has[R Record](t *Table[R]) func(string) bool {
	return func(key string) bool {
		_, ok := t.Find(key)
		return ok
	}
}

func listens(p *Plan, key string) bool {
	if key == ListenSlot || key == ListenRepeater || key == ListenNone {
		return true
	}
	_, ok := p.ReceiveLists.Find(key)
	return ok
}

// checkCalls notes the shortcuts that call neither a group nor an operator.
func (e *expander) checkCalls() {
	p := e.plan()
	if p.Shortcuts.Len() == 0 {
		return
	}
	unread := slices.ContainsFunc(p.Problems, func(b Problem) bool { return path.Base(b.At.File) == OperatorsFile })
	people := make(map[string]bool)
	for _, o := range p.Operators.All() {
		if o.ID.IsSet() {
			people[o.ID.V.String()] = true
		}
		if o.Callsign.IsSet() {
			people[string(o.Callsign.V)] = true
		}
	}
	known := func() []string {
		return append(keysOf(&p.Groups)(), slices.Sorted(maps.Keys(people))...)
	}
	for _, s := range p.Shortcuts.Sorted() {
		_, group := p.Groups.Find(s.Calls.V)
		if unread && strings.ContainsAny(s.Calls.V, "0123456789") {
			continue // a callsign or an ID, which may stand in a row that could not be read
		}
		if s.Calls.IsSet() && !group && !people[strings.ToUpper(s.Calls.V)] {
			e.unresolved(s.Thing(), "group or operator", s.Calls.V, s.Calls.At, known)
		}
	}
}
