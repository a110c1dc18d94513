package rules

import (
	_ "embed"
	"fmt"
	"time"

	"passband.example/plandiff/plan"
	"passband.example/review"
	"passband.example/review/rf"
)

//go:embed scan_slow.md
var scanSlowDoc string

// ScanSlow tells of a scan list that takes so long around that a short call is over before the radio
// comes by.
var ScanSlow = &review.Rule{
	ID:       "scan-slow",
	Severity: review.Note, // radios differ, and it is a member's taste
	Edition:  2026,
	Doc:      scanSlowDoc,
	Run:      scanSlow,
}

const (
	slowScan   = 2 * time.Second // (a proposal of this project, no source)
	shortCall  = time.Second     // (common practice, no source: a callsign and a word)
	busyShare  = 0.25            // of the channels carry something else, as the estimate for a busy evening has it
	scanAdvice = "make lists of fewer channels, or let one channel of a repeater listen for several groups"
)

func scanSlow(p *review.Pass) {
	for _, s := range p.Expansion.ScanLists {
		channels, _ := scanned(s)
		times := rf.UsualScanTimes()
		quiet := rf.Scan(channels, times)
		for i := range channels {
			channels[i].Others = busyShare
		}
		busy := rf.Scan(channels, times)
		if quiet.WorstWait <= slowScan && busy.WorstWait <= 2*slowScan {
			continue
		}
		p.Report(review.Finding{
			At: s.List.Place(), About: []plan.Thing{s.List.Thing()}, Values: []string{fmt.Sprint(len(channels))},
			What: fmt.Sprintf("%s has %d channels: a sweep takes about %s while all are quiet, and %s where a quarter of them carry something else; a call of %s is then over before the radio comes by in %.0f %% of cases",
				s.List.Thing(), len(channels), seconds(quiet.Sweep), seconds(busy.Sweep), seconds(shortCall), 100*busy.Missed(shortCall)),
			Why:    fmt.Sprintf("members miss short calls on a long list; an estimate with %s to see a carrier, %s more for a tone and %s for a DMR address, and radios differ", times.Carrier, times.Tone, times.Address),
			Fix:    scanAdvice,
			Source: "times: common practice, no source; DMR address once a superframe (ETSI TS 102 361-1)",
		})
	}
}

func seconds(d time.Duration) string { return fmt.Sprintf("%.1f s", d.Seconds()) }
