package demo_test

import (
	"maps"
	"slices"
	"strconv"
	"strings"
	"testing"

	"passband.example/plandiff/demo"
)

func TestTheClubIsLargeEnough(t *testing.T) {
	c := readClub(t, demo.Plan())
	if c.Plan != "Harrow Valley Repeater Group" || c.Region != "US" || c.License != "technician" || c.Edition != 2026 {
		t.Errorf("plan.yaml says %q, %q, %q, %d", c.Plan, c.Region, c.License, c.Edition)
	}
	people := map[string]bool{}
	for _, row := range c.operators {
		people[row[2]] = true
	}
	for _, count := range []struct {
		name        string
		got         int
		least, most int
		why         string
	}{
		{"repeaters", len(c.Repeaters), 12, 40, "a club of the size that needs help"},
		{"groups", len(c.Groups), 20, 40, "more than a person keeps in the head"},
		{"zones", len(c.Zones), 8, 24, "more than one screen of a radio"},
		{"classes of radio", len(c.Radios), 3, 3, "a small one, a large one, one without DMR"},
		{"channels", len(c.labels()), 140, 160, "about 150, which nobody checks by eye"},
		{"people", len(people), 40, 60, "enough for two to get one ID"},
	} {
		if count.got < count.least || count.got > count.most {
			t.Errorf("%d %s, want %d to %d: %s", count.got, count.name, count.least, count.most, count.why)
		}
	}
	t.Logf("%d repeaters, %d groups, %d zones, %d channels, %d people", len(c.Repeaters), len(c.Groups), len(c.Zones), len(c.labels()), len(people))
}

func TestEveryKindOfRepeaterIsThere(t *testing.T) {
	kinds := map[string]int{}
	for _, r := range readClub(t, demo.Plan()).Repeaters {
		band := strings.SplitN(r.Output, ".", 2)[0][:2] + "x MHz"
		switch {
		case r.FM != nil && r.DMR != nil:
			kinds[band+" both"]++
		case r.FM != nil:
			kinds[band+" FM"]++
		default:
			kinds[band+" DMR"]++
		}
	}
	for _, want := range []string{"14x MHz FM", "14x MHz DMR", "22x MHz FM", "44x MHz both", "44x MHz DMR"} {
		if kinds[want] == 0 {
			t.Errorf("no repeater is %s; there are %v", want, kinds)
		}
	}
}

func TestNothingIsLeftUnused(t *testing.T) {
	c := readClub(t, demo.Plan())
	inZone, used := map[string]bool{}, map[string]bool{}
	for key, z := range c.Zones {
		channels, _ := c.expand(z.Channels)
		if len(channels) == 0 {
			t.Errorf("zone %s is empty", key)
		}
		for _, ch := range channels {
			inZone[ch] = true
		}
	}
	for key := range c.labels() {
		if !inZone[key] {
			t.Errorf("channel %s is in no zone", key)
		}
	}
	for _, r := range c.Repeaters {
		used["scan:"+r.ScanList] = true
		for _, g := range slices.Concat(r.slots()[0], r.slots()[1]) {
			used["group:"+g] = true
		}
		if r.DMR != nil {
			used["receive:"+r.DMR.ReceiveList] = true
		}
	}
	for _, ch := range c.Channels {
		used["scan:"+ch.ScanList] = true
		if ch.DMR != nil {
			used["group:"+ch.DMR.Group] = true
		}
	}
	want := slices.Concat(prefixed("group:", c.Groups), prefixed("scan:", c.ScanLists), prefixed("receive:", c.ReceiveLists))
	for _, name := range want {
		if !used[name] {
			t.Errorf("%s is used by nothing", name)
		}
	}
}

func prefixed[V any](prefix string, m map[string]V) []string {
	var out []string
	for key := range maps.Keys(m) {
		out = append(out, prefix+key)
	}
	return out
}

func TestGroupsKeepTheirPlace(t *testing.T) {
	c := readClub(t, demo.Plan())
	ids, slot := map[int]string{}, map[string]int{}
	private := 0
	for key, g := range c.Groups {
		if !strings.HasPrefix(strconv.Itoa(g.ID), "999") || g.ID > lastGroup {
			t.Errorf("group %s has the number %d", key, g.ID)
		}
		if other := ids[g.ID]; other != "" {
			t.Errorf("groups %s and %s share the number %d", key, other, g.ID)
		}
		ids[g.ID] = key
		if g.Call == "private" {
			private++
		}
	}
	if private == 0 {
		t.Error("no private contact")
	}
	for key, r := range c.Repeaters {
		for i, groups := range r.slots() {
			// Common practice, no source: more than four groups crowd a slot.
			if len(groups) > 4 {
				t.Errorf("%s has %d groups on slot %d", key, len(groups), i+1)
			}
			for _, g := range groups {
				if was := slot[g]; was != 0 && was != i+1 {
					t.Errorf("%s carries %s on slot %d, another repeater on slot %d", key, g, i+1, was)
				}
				slot[g] = i + 1
			}
		}
	}
	for key, l := range c.ReceiveLists {
		for _, g := range l.Groups {
			if c.Groups[g].Call == "private" {
				t.Errorf("receive list %s holds the private contact %s", key, g)
			}
		}
	}
}
