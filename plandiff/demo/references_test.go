package demo_test

import (
	"slices"
	"testing"

	"passband.example/plandiff/demo"
)

func TestEveryReferenceOfMainIsMet(t *testing.T) {
	for _, commit := range demo.History() {
		if commit.Branch != demo.Main {
			continue
		}
		c := readClub(t, commit.Plan)
		for _, wrong := range c.dangling() {
			t.Errorf("%s: %s", commit.Name, wrong)
		}
	}
}

// lookup collects the names in a plan that name nothing.
type lookup struct {
	club
	wrong []string
}

func (l *lookup) miss(found bool, where, what, key string) {
	if !found {
		l.wrong = append(l.wrong, where+" names the "+what+" "+key)
	}
}

func (l *lookup) groups(where string, keys ...string) {
	for _, key := range keys {
		_, ok := l.Groups[key]
		l.miss(ok, where, "group", key)
	}
}

func (l *lookup) entries(where string, list ...string) {
	_, lost := l.expand(list)
	for _, entry := range lost {
		l.miss(false, where, "channel", entry)
	}
}

func (l *lookup) scanList(where, key string) {
	_, ok := l.ScanLists[key]
	l.miss(ok || key == "", where, "scan list", key)
}

// dangling lists every name in the plan that names nothing.
func (c club) dangling() []string {
	l := &lookup{club: c}
	l.air()
	l.lists()
	return l.wrong
}

func (l *lookup) air() {
	for key, r := range l.Repeaters {
		l.groups(key, slices.Concat(r.slots()[0], r.slots()[1])...)
		l.scanList(key, r.ScanList)
		if r.DMR != nil && !slices.Contains([]string{"", "slot", "repeater", "none"}, r.DMR.ReceiveList) {
			_, ok := l.ReceiveLists[r.DMR.ReceiveList]
			l.miss(ok, key, "receive list", r.DMR.ReceiveList)
		}
	}
	for key, ch := range l.Channels {
		l.scanList(key, ch.ScanList)
		if ch.DMR != nil {
			l.groups(key, ch.DMR.Group)
		}
		if ch.Path != "" {
			l.entries(key, ch.Path)
		}
	}
}

func (l *lookup) lists() {
	for key, list := range l.ReceiveLists {
		l.groups(key, list.Groups...)
	}
	for key, z := range l.Zones {
		l.entries(key, z.Channels...)
	}
	for key, list := range l.ScanLists {
		l.entries(key, append(slices.Clone(list.Channels), list.Priority)...)
	}
	for key, r := range l.Radios {
		for _, zone := range r.Zones {
			_, ok := l.Zones[zone]
			l.miss(ok, key, "zone", zone)
		}
	}
	for _, key := range l.Shortcuts {
		if !slices.ContainsFunc(l.operators, func(o [3]string) bool { return o[1] == key }) {
			l.groups("a shortcut", key)
		}
	}
}
