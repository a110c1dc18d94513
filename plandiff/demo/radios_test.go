package demo_test

import (
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"passband.example/plandiff/demo"
)

// carried returns the zones of a radio; all of them where it names none.
func (c club) carried(r radio) []string {
	if len(r.Zones) > 0 {
		return r.Zones
	}
	return prefixed("", c.Zones)
}

// fits tells whether a radio can use a channel at all: one that it can't is left out of it.
func (c club) fits(t *testing.T, r radio, ch string) bool {
	t.Helper()
	mode, f := c.heard(t, ch)
	return slices.Contains(r.Modes, mode) && slices.ContainsFunc(r.Bands, func(b string) bool { return within(t, f, b) })
}

// holds returns the channels of a zone that a radio can use.
func (c club) holds(t *testing.T, r radio, zone string) []string {
	t.Helper()
	channels, _ := c.expand(c.Zones[zone].Channels)
	return slices.DeleteFunc(channels, func(ch string) bool { return !c.fits(t, r, ch) })
}

// sameLabel returns, for a radio, the labels that two channels of one zone share once they are cut to
// what it shows, as "zone: label".
func (c club) sameLabel(t *testing.T, r radio) []string {
	t.Helper()
	var twice []string
	labels := c.labels()
	for _, z := range c.carried(r) {
		seen := map[string]bool{}
		for _, ch := range c.holds(t, r, z) {
			shown := labels[ch][:min(len(labels[ch]), r.LabelLength)]
			if seen[shown] {
				twice = append(twice, z+": "+shown)
			}
			seen[shown] = true
		}
	}
	return twice
}

// crowded returns the zones of a radio with more channels than it takes in one.
func (c club) crowded(t *testing.T, r radio) []string {
	t.Helper()
	var out []string
	for _, z := range c.carried(r) {
		if len(c.holds(t, r, z)) > r.Limits["channels_per_zone"] {
			out = append(out, z)
		}
	}
	return out
}

func TestEveryRadioHoldsWhatItCarries(t *testing.T) {
	c := readClub(t, demo.Plan())
	labels := c.labels()
	for key, r := range c.Radios {
		all := map[string]bool{}
		for _, z := range c.carried(r) {
			channels, _ := c.expand(c.Zones[z].Channels)
			for _, ch := range channels {
				all[ch] = true
				if utf8.RuneCountInString(labels[ch]) > r.LabelLength {
					t.Errorf("%s shows %d characters, not %q", key, r.LabelLength, labels[ch])
				}
				if r.Characters == "ascii" && strings.ContainsFunc(labels[ch], func(r rune) bool { return r < ' ' || r > '~' }) {
					t.Errorf("%s can't show %q", key, labels[ch])
				}
			}
		}
		for _, z := range c.crowded(t, r) {
			t.Errorf("zone %s is too long for %s", z, key)
		}
		for _, same := range c.sameLabel(t, r) {
			t.Errorf("%s shows one label twice in %s", key, same)
		}
		for what, need := range c.needs(r, len(all)) {
			if limit, ok := r.Limits[what]; ok && need > limit {
				t.Errorf("%s needs %d %s and holds %d", key, need, what, limit)
			}
		}
		t.Logf("%s carries %d channels in %d zones", key, len(all), len(c.carried(r)))
	}
}

// needs counts what a radio must hold, at the most: lists and groups of the whole plan.
func (c club) needs(r radio, channels int) map[string]int {
	n := map[string]int{
		"channels": channels, "zones": len(c.carried(r)), "groups": len(c.Groups), "messages": len(c.Messages),
		"operators": len(c.operators), "scan_lists": len(c.ScanLists), "receive_lists": len(c.ReceiveLists),
	}
	for _, rep := range c.Repeaters {
		if rep.DMR != nil {
			n["receive_lists"] += 2
			n["groups_per_receive_list"] = max(n["groups_per_receive_list"], len(rep.DMR.Slot1)+len(rep.DMR.Slot2))
		}
	}
	for _, l := range c.ReceiveLists {
		n["groups_per_receive_list"] = max(n["groups_per_receive_list"], len(l.Groups))
	}
	for _, l := range c.ScanLists {
		n["channels_per_scan_list"] = max(n["channels_per_scan_list"], len(l.Channels))
	}
	for _, text := range c.Messages {
		n["message_length"] = max(n["message_length"], utf8.RuneCountInString(text))
	}
	return n
}

func TestEveryZoneFitsTheModesAndBandsOfItsRadios(t *testing.T) {
	c := readClub(t, demo.Plan())
	for key, r := range c.Radios {
		for _, z := range c.carried(r) {
			channels, _ := c.expand(c.Zones[z].Channels)
			for _, ch := range channels {
				if !c.fits(t, r, ch) {
					t.Errorf("%s leaves %s out of zone %s", key, ch, z)
				}
			}
		}
	}
}

// heard returns the mode of a channel and what it listens on, in Hz.
func (c club) heard(t *testing.T, key string) (mode string, f int64) {
	ch, written := c.Channels[key]
	switch {
	case written && ch.Receive != "":
		return "fm", hertz(t, ch.Receive)
	case written && ch.Simplex != "" && ch.DMR != nil:
		return "dmr", hertz(t, ch.Simplex)
	case written && ch.Simplex != "":
		return "fm", hertz(t, ch.Simplex)
	case written:
		key = ch.Path
	}
	name, rest, _ := strings.Cut(key, "/")
	if mode = "dmr"; rest == "fm" {
		mode = "fm"
	}
	return mode, hertz(t, c.Repeaters[name].Output)
}

func within(t *testing.T, f int64, band string) bool {
	low, high, _ := strings.Cut(band, "-")
	return f >= hertz(t, low) && f <= hertz(t, high)
}

func TestScanListsAreOrderly(t *testing.T) {
	c := readClub(t, demo.Plan())
	for key, l := range c.ScanLists {
		if !slices.Contains(l.Channels, l.Priority) {
			t.Errorf("scan list %s has the priority channel %s, which it does not scan", key, l.Priority)
		}
		// A list that looks at one carrier twice takes longer and hears no more.
		seen := map[int64]string{}
		channels, _ := c.expand(l.Channels)
		for _, ch := range channels {
			_, f := c.heard(t, ch)
			if other := seen[f]; other != "" {
				t.Errorf("scan list %s looks at %d Hz twice, for %s and %s", key, f, ch, other)
			}
			seen[f] = ch
		}
	}
	for key, ch := range c.Channels {
		if ch.ScanList != "" && !slices.Contains(c.ScanLists[ch.ScanList].Channels, key) {
			t.Errorf("%s starts the scan list %s, and is not in it", key, ch.ScanList)
		}
	}
}
