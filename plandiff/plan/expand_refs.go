package plan

import "strings"

// checkRefs notes the references to groups, lists and zones that lead nowhere.
// Those to channels were noted when the channels were looked up.
func (e *expander) checkRefs() {
	p := e.plan()
	known := map[Ref][]string{
		RefGroup:       keysOf(p.Groups.All()),
		RefReceiveList: append(keysOf(p.ReceiveLists.All()), ListenSlot, ListenRepeater, ListenNone),
		RefScanList:    keysOf(p.ScanLists.All()),
		RefZone:        keysOf(p.Zones.All()),
	}
	kinds := map[Ref]string{RefGroup: "group", RefReceiveList: "receive list", RefScanList: "scan list", RefZone: "zone"}
	resolves := map[Ref]func(string) bool{
		RefGroup:       has(&p.Groups),
		RefReceiveList: func(key string) bool { return listens(p, key) },
		RefScanList:    has(&p.ScanLists),
		RefZone:        has(&p.Zones),
	}
	for _, s := range sections {
		for i := range s.Fields {
			f := &s.Fields[i]
			resolve, ok := resolves[f.Ref]
			if !ok {
				continue
			}
			for _, r := range s.all(p) {
				for _, item := range f.items(r) {
					if !resolve(item.Text) {
						e.unresolved(r.Thing(), kinds[f.Ref], item.Text, item.At, known[f.Ref])
					}
				}
			}
		}
	}
	e.checkCalls()
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
	people := make(map[string]bool)
	for _, o := range p.Operators.All() {
		people[o.ID.V.String()] = true
		people[string(o.Callsign.V)] = true
	}
	for _, s := range p.Shortcuts.All() {
		if !s.Calls.IsSet() {
			continue
		}
		_, group := p.Groups.Find(s.Calls.V)
		if !group && !people[strings.ToUpper(s.Calls.V)] {
			e.unresolved(s.Thing(), "group or operator", s.Calls.V, s.Calls.At, keysOf(p.Groups.All()))
		}
	}
}
