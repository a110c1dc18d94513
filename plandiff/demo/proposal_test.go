package demo_test

import (
	"fmt"
	"io/fs"
	"slices"
	"strings"
	"testing"

	"passband.example/plandiff/demo"
)

// Each mistake of the proposal is there, and none of them is on main. The package comment lists them.
func TestTheProposalIsWrongInTenWays(t *testing.T) {
	main, proposal := readClub(t, demo.Plan()), readClub(t, demo.Branch())
	for _, fault := range []struct {
		name, why string
		in        func(*testing.T, club) bool
	}{
		{"off band", "454.55 for 444.55: one key beside the right one", offBand},
		{"over the edge", "147.995 is in the band, and half of wide FM there is not", overTheEdge},
		{"reversed split", "minus on 146.94 looks like a slip to who does not know the band", reversed},
		{"one number, two groups", "copied from the line above", sharedNumber},
		{"both slots", "one group on two slots cuts the members in two", bothSlots},
		{"dangling entry", "norht for north: the zone would lack it in silence", func(_ *testing.T, c club) bool { return len(c.dangling()) > 0 }},
		{"one ID, two people", "from an old list", sharedID},
		{"same labels", "twelve characters of a long name", func(t *testing.T, c club) bool { return len(c.sameLabel(t, c.Radios["pocket"])) > 0 }},
		{"a neighbor's color code", "Tanner Gap has the pair of Heron Point and its color code", neighborsCode},
		{"crowded zone", "travel grows by a wildcard that nobody touched", func(t *testing.T, c club) bool {
			return slices.Equal(c.crowded(t, c.Radios["pocket"]), []string{"travel"})
		}},
	} {
		t.Run(fault.name, func(t *testing.T) {
			if fault.in(t, main) {
				t.Errorf("main has it already (%s)", fault.why)
			}
			if !fault.in(t, proposal) {
				t.Errorf("the proposal lacks it (%s)", fault.why)
			}
		})
	}
}

func offBand(t *testing.T, c club) bool {
	return anyRepeater(c, func(r repeater) bool {
		output, input := r.pair(t)
		return !mayTalk(output, 0) && !mayTalk(input, 0)
	})
}

func overTheEdge(t *testing.T, c club) bool {
	return anyRepeater(c, func(r repeater) bool {
		_, input := r.pair(t)
		return mayTalk(input, 0) && !mayTalk(input, width(r.FM))
	})
}

func reversed(t *testing.T, c club) bool {
	return anyRepeater(c, func(r repeater) bool {
		output, input := r.pair(t)
		return !usualSplit(output, input-output) && usualSplit(output, output-input)
	})
}

// neighborsCode reads the neighbor list as a table without names: the frequencies and color codes
// that somebody near has.
func neighborsCode(t *testing.T, c club) bool {
	text, err := fs.ReadFile(demo.Plan(), c.Neighbors)
	if err != nil {
		t.Fatal(err)
	}
	return anyRepeater(c, func(r repeater) bool {
		return r.DMR != nil && strings.Contains(string(text), fmt.Sprintf(",%s,%s,,%d,", r.Output, r.Split, r.DMR.ColorCode))
	})
}

func sharedNumber(_ *testing.T, c club) bool {
	seen := map[int]bool{}
	for _, g := range c.Groups {
		if seen[g.ID] {
			return true
		}
		seen[g.ID] = true
	}
	return false
}

func bothSlots(_ *testing.T, c club) bool {
	return anyRepeater(c, func(r repeater) bool {
		slots := r.slots()
		return slices.ContainsFunc(slots[0], func(g string) bool { return slices.Contains(slots[1], g) })
	})
}

func sharedID(_ *testing.T, c club) bool {
	owner := map[string]string{}
	for _, row := range c.operators {
		if other, ok := owner[row[0]]; ok && other != row[1] {
			return true
		}
		owner[row[0]] = row[1]
	}
	return false
}

func anyRepeater(c club, is func(repeater) bool) bool {
	for _, r := range c.Repeaters {
		if is(r) {
			return true
		}
	}
	return false
}

// An honest proposal is not wrong throughout: a reviewer must be able to say what is fine.
func TestTheProposalIsAlsoRight(t *testing.T) {
	proposal := readClub(t, demo.Branch())
	spur := proposal.Repeaters["spur"]
	output, input := spur.pair(t)
	if !usualSplit(output, input-output) || !mayTalk(output, dmrWidth) || !mayTalk(input, dmrWidth) {
		t.Errorf("spur was to be in order: %+v", spur)
	}
	if proposal.Messages["range"] == "" {
		t.Error("the message of the range is gone")
	}
	if len(proposal.operators) <= 40 {
		t.Errorf("%d operators, want new ones", len(proposal.operators))
	}
}
