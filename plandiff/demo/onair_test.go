package demo_test

import (
	"math/big"
	"slices"
	"strings"
	"testing"

	"passband.example/plandiff/demo"
)

// width returns the widest emission of a repeater or a simplex channel, in Hz.
func width(f *fm) int64 {
	switch {
	case f == nil:
		return dmrWidth
	case f.Width == "narrow":
		return narrowFM
	}
	return wideFM
}

// reaches tells whether any part of an emission lies between low and high.
func reaches(centre, width, low, high int64) bool {
	return 2*centre+width > 2*low && 2*centre-width < 2*high
}

// mayTalk tells whether all of an emission lies where a Technician may send voice.
func mayTalk(centre, width int64) bool {
	for _, b := range voice {
		if 2*centre-width >= 2*b.low && 2*centre+width <= 2*b.high {
			return true
		}
	}
	return false
}

func TestEveryRepeaterKeepsTheRules(t *testing.T) {
	for _, c := range demo.History() {
		if c.Branch != demo.Main {
			continue
		}
		for key, r := range readClub(t, c.Plan).Repeaters {
			output, input := r.pair(t)
			if !usualSplit(output, input-output) {
				t.Errorf("%s: %s: %d Hz and split %d Hz are not of the US band plan", c.Name, key, output, input-output)
			}
			for _, f := range []int64{output, input} {
				if !mayTalk(f, width(r.FM)) {
					t.Errorf("%s: %s: %d Hz is outside 47 CFR 97.301(a)", c.Name, key, f)
				}
				for _, no := range noRepeater {
					if reaches(f, width(r.FM), no.low, no.high) {
						t.Errorf("%s: %s: %d Hz is barred by 47 CFR 97.205(b)", c.Name, key, f)
					}
				}
			}
		}
	}
}

func usualSplit(output, split int64) bool {
	for _, b := range outputs {
		if output >= b.low && output <= b.high && split == b.split {
			return true
		}
	}
	return false
}

func TestEveryChannelOffARepeaterKeepsTheRules(t *testing.T) {
	c := readClub(t, demo.Plan())
	var heard []int64
	for key, ch := range c.Channels {
		if ch.Receive != "" {
			if f := hertz(t, ch.Receive); !mayTalk(f, wideFM) {
				heard = append(heard, f)
			}
			if ch.Simplex != "" || ch.Path != "" {
				t.Errorf("%s: receives only, and says how to transmit", key)
			}
			continue
		}
		if ch.Simplex == "" {
			continue
		}
		f := hertz(t, ch.Simplex)
		in := slices.ContainsFunc(simplexBlocks, func(b struct{ low, high int64 }) bool { return f >= b.low && f <= b.high })
		if !in || !mayTalk(f, width(ch.FM)) {
			t.Errorf("%s: %s MHz is no place for simplex", key, ch.Simplex)
		}
	}
	slices.Sort(heard)
	if !slices.Equal(heard, weather) {
		t.Errorf("outside the bands members hear %v Hz, want the weather broadcasts %v and no more", heard, weather)
	}
	for key, want := range calling {
		if got := hertz(t, c.Channels[key].Simplex); got != want {
			t.Errorf("%s is %d Hz, want %d", key, got, want)
		}
	}
}

func TestTonesAreStandard(t *testing.T) {
	for key, r := range readClub(t, demo.Plan()).Repeaters {
		if r.FM == nil {
			continue
		}
		written := []string{r.FM.Tone.Value}
		if both := (map[string]string{}); r.FM.Tone.Decode(&both) == nil {
			written = []string{both["send"], both["receive"]}
		}
		for _, tone := range written {
			hz, ok := new(big.Rat).SetString(tone)
			if !ok {
				t.Errorf("%s: %q is no tone", key, tone)
				continue
			}
			hz.Mul(hz, big.NewRat(10, 1))
			if !hz.IsInt() || !slices.Contains(tones, int(hz.Num().Int64())) {
				t.Errorf("%s: %s Hz is not in RS-220", key, tone)
			}
		}
	}
}

// Coordinators ask for distance between repeaters whose outputs are near each other: up to 15 kHz
// on 2 m and 20 kHz on 1.25 m (Michigan council standards, section 1 item 5), up to 50 kHz on 70 cm
// (Arkansas council, 70 cm shared pairs, item 4). The demo stays a step beyond, so that where the
// invented sites stand matters to no check.
func TestNoTwoRepeatersAreNeighbours(t *testing.T) {
	c := readClub(t, demo.Plan())
	for a, one := range c.Repeaters {
		for b, other := range c.Repeaters {
			if a >= b {
				continue
			}
			f, _ := one.pair(t)
			g, _ := other.pair(t)
			least := int64(30_000)
			if f > 400_000_000 {
				least = 75_000
			}
			if d := max(f-g, g-f); d < least {
				t.Errorf("%s and %s are %d Hz apart", a, b, d)
			}
		}
	}
}

// Two transmitters of one site make 2A-B and 3A-2B, and harmonics fall on higher bands; none may fall
// on an input there. The width of the window is common practice, no source.
func TestNoMixOnAnInputOfTheSameSite(t *testing.T) {
	c := readClub(t, demo.Plan())
	shared := 0
	for a, one := range c.Repeaters {
		for b, other := range c.Repeaters {
			if a == b || one.Site.Lat != other.Site.Lat || one.Site.Lon != other.Site.Lon {
				continue
			}
			shared++
			f, in := one.pair(t)
			g, _ := other.pair(t)
			for _, product := range []int64{2*f - g, 2*g - f, 3*f - 2*g, 3*g - 2*f, 2 * g, 3 * g} {
				if d := max(product-in, in-product); d < 50_000 {
					t.Errorf("%d Hz from %s and %s falls on the input of %s", product, a, b, a)
				}
			}
		}
	}
	if shared == 0 {
		t.Error("no two repeaters share a site, so this looked at nothing")
	}
}

func TestAccessWordsAndTimeouts(t *testing.T) {
	for _, c := range demo.History() {
		for key, r := range readClub(t, c.Plan).Repeaters {
			// ETSI TS 102 361-2 table A.1, read second-hand: T_TO is at most 180 s.
			if r.Timeout <= 0 || r.Timeout > 180 {
				t.Errorf("%s: %s: times out after %d s", c.Name, key, r.Timeout)
			}
			if r.DMR != nil && !strings.HasPrefix(r.DMR.Access, "polite to ") {
				t.Errorf("%s: %s: access %q interrupts others", c.Name, key, r.DMR.Access)
			}
			// TS 102 361-1 clause 9.3.1, read second-hand: 15 means all sites in direct mode.
			if r.DMR != nil && (r.DMR.ColorCode < 0 || r.DMR.ColorCode > 14) {
				t.Errorf("%s: %s: color code %d", c.Name, key, r.DMR.ColorCode)
			}
		}
	}
}
