package report

import (
	"io"
	"math"
	"strings"
	"testing"

	"passband.example/plandiff/signal"
	"passband.example/review/license"
	"passband.example/review/rf"
	"passband.example/review/survey"
)

func pairsText(t *testing.T, found survey.Pairs, most int) string {
	t.Helper()
	law, err := license.For("US")
	if err != nil {
		t.Fatal(err)
	}
	q := PairsQuestion{Search: survey.Search{Law: law, Band: "70cm", Mode: "dmr"}, Where: "DN70vc", Most: most}
	return written(t, func(w io.Writer) error { return Text(w, Pairs(q, found), Terminal{Width: 400}) })
}

// TestPairsRuns tells what holds of a run of pairs once, and of no pair what holds of another.
func TestPairsRuns(t *testing.T) {
	at := func(output, split signal.Hertz, reason string) rf.Candidate {
		return rf.Candidate{Pair: rf.Pair{Output: output, Input: output + split}, Margin: math.Inf(1), Reasons: []string{reason}}
	}
	const split = 5_000_000
	found := survey.Pairs{Offered: 9}
	found.Candidates = []rf.Candidate{
		at(442_000_000, split, "free"), at(442_012_500, split, "free"), at(442_025_000, split, "free"),
		at(442_050_000, split, "free"),       // a step is left out
		at(442_062_500, -split, "free"),      // the other way
		at(442_075_000, -split, "beside it"), // another reason
	}
	got := pairsText(t, found, 10)
	for _, want := range []string{
		"442.000 to 442.025 MHz, 3 pairs 12.5 kHz from each other, input 447.000 to 447.025 (+5)", "442.050 MHz, input 447.050 (+5)",
		"442.0625 MHz, input 437.0625 (-5)", "442.075 MHz, input 437.075 (-5)",
	} {
		if !strings.Contains(got, want) {
			t.Errorf("it does not say %q: %s", want, got)
		}
	}
	if strings.Count(got, "free") != 3 || strings.Count(got, "beside it") != 1 {
		t.Errorf("reasons are not told once a run: %s", got)
	}
	if got := pairsText(t, found, 1); !strings.Contains(got, "3 more fit; --most shows them.") {
		t.Errorf("a run counts as one, and the rest is told: %s", got)
	}
}

// TestPairsNone says that none fits, and what to do.
func TestPairsNone(t *testing.T) {
	if got := pairsText(t, survey.Pairs{Offered: 9}, 5); !strings.Contains(got, "None of the 9 pairs fits.") || !strings.Contains(got, "ask the coordinator") {
		t.Errorf("no pair, and no word of it: %s", got)
	}
	if got := pairsText(t, survey.Pairs{}, 5); strings.Contains(got, "None of") {
		t.Errorf("nothing was offered: %s", got)
	}
}
