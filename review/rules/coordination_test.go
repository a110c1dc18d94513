package rules_test

import (
	"fmt"
	"strings"
	"testing"

	"passband.example/plandiff/plan"
	"passband.example/review"
	"passband.example/review/rules"
)

var onAirRules = []string{
	rules.CoChannel.ID, rules.SameAccess.ID, rules.Coordinated.ID, rules.SpacingBarelyMet.ID,
	rules.SeparationRowUnusable.ID, rules.NeighborListMissing.ID, review.PolicyChanged,
}

// pairHeader begins a plan that compares its repeaters with a neighbor list.
const pairHeader = header + "neighbors: neighbors.csv\nrepeaters:\n  ridge: {output: 444.1, split: +5, dmr: {color_code: 4}, site: {lat: 40.0, lon: -104.0}}\n"

const (
	mill      = "  mill: {output: 146.94, split: -0.6, fm: {tone: 100.0}, site: {lat: 40.0, lon: -104.0}}\n"
	listHead  = "callsign,label,output,split,tone,color_code,lat,lon\n"
	sandButte = "N0QRX,Sand Butte,146.94,-0.6,88.5,,40.9,-104\n"
	remark    = "coordination:\n  mill-1: {repeater: mill, with: N0QRX, by: Hill Coordinators, date: 2026-03-01, text: fine}\n"
	lenient   = "our valley,2m,0,1 mi,any,we say so,read,"
)

// TestAChangeCannotSilenceItsNeighbors is promise 4 for the air side: a change that brings a pair, and
// in the same breath takes the neighbor out of the list, names another list, or asks a shorter
// distance, is warned all the same. A remark that comes with the change makes a note, and the note
// says that it does.
func TestAChangeCannotSilenceItsNeighbors(t *testing.T) {
	base := map[string]string{"plan.yaml": pairHeader, "neighbors.csv": listHead + sandButte}
	with := func(edits map[string]string) map[string]string {
		files := map[string]string{"plan.yaml": pairHeader + mill, "neighbors.csv": listHead + sandButte}
		for name, text := range edits {
			files[name] = text
		}
		return files
	}
	for _, c := range []struct {
		name, why string
		now       map[string]string
		want      string // the new findings
		says      string
	}{
		{"nothing else", "the pair is new", with(nil), "warn co-channel", "68 mi|62 mi"},
		{"row gone", "the rows of the base count", with(map[string]string{"neighbors.csv": listHead}), "warn co-channel", "takes out of the neighbor list"},
		{"row moved away", "the row as it was counts, too", with(map[string]string{"neighbors.csv": listHead + strings.Replace(sandButte, "40.9", "48.9", 1)}), "warn co-channel", "takes out of the neighbor list"},
		{"list unnamed", "a line that is left out opens no door", with(map[string]string{"plan.yaml": strings.Replace(pairHeader, "neighbors: neighbors.csv\n", "", 1) + mill}), "warn co-channel, warn policy-changed", "takes out of the neighbor list"},
		{"own row", "separation rows are the base's", with(map[string]string{"separation.csv": plan.SeparationColumns + "\n" + lenient + "\n"}), "warn co-channel, warn policy-changed", ""},
		{"remark", "the note says where the remark comes from", with(map[string]string{"plan.yaml": pairHeader + mill + remark}), "note coordinated", "a remark that comes with this change"},
	} {
		t.Run(c.name, func(t *testing.T) {
			v := judgeChange(t, only(onAirRules...), load(t, base), load(t, c.now))
			var got, said []string
			for _, f := range v.Findings {
				if f.Standing == review.New {
					got = append(got, f.Severity.String()+" "+f.Rule)
					said = append(said, fmt.Sprint(f.What, f.Also))
				}
			}
			if strings.Join(sorted(got), ", ") != c.want {
				t.Errorf("got %q, want %q: %s", got, c.want, c.why)
			}
			if all := strings.Join(said, "\n"); !strings.Contains(all, c.says) && c.name != "nothing else" {
				t.Errorf("it does not say %q:\n%s", c.says, all)
			}
		})
	}
}

// TestARemarkOfTheBaseIsQuietlyQuoted: the same remark, merged before, makes the note without that clause,
// and a remark about another party leaves the warning.
func TestARemarkOfTheBaseIsQuietlyQuoted(t *testing.T) {
	old := map[string]string{"plan.yaml": pairHeader + mill + remark, "neighbors.csv": listHead}
	now := map[string]string{"plan.yaml": pairHeader + mill + remark, "neighbors.csv": listHead + sandButte}
	v := judgeChange(t, only(onAirRules...), load(t, old), load(t, now))
	if len(v.Findings) != 1 || v.Findings[0].Rule != rules.Coordinated.ID || strings.Contains(v.Findings[0].What, "this change") {
		t.Errorf("got %+v", v.Findings)
	}
	now["plan.yaml"] = strings.Replace(now["plan.yaml"], "with: N0QRX", "with: N0QRZ", 1)
	v = judgeChange(t, only(onAirRules...), load(t, old), load(t, now))
	if len(v.Findings) != 1 || v.Findings[0].Rule != rules.CoChannel.ID {
		t.Errorf("got %+v", v.Findings)
	}
}

// TestSeparationColumns: the file that package plan reads is the one that package rf does.
func TestSeparationColumns(t *testing.T) {
	found := findings(t, rules.SeparationRowUnusable, map[string]string{"plan.yaml": header, "separation.csv": plan.SeparationColumns + "\n" + lenient + "\n"})
	if len(found) > 0 {
		t.Error(found)
	}
}

// TestAcceptedOnTheAir: a conflict is accepted like any finding, by the key of either repeater of the plan.
func TestAcceptedOnTheAir(t *testing.T) {
	text := pairHeader + mill + "review: {accept: [{rule: co-channel, at: mill, until: 2027-01-01, reason: looked at}], severity: {spacing-barely-met: off}}\n"
	found := check(t, only(onAirRules...), load(t, map[string]string{"plan.yaml": text, "neighbors.csv": listHead + sandButte}))
	if len(found) > 0 {
		t.Errorf("got %+v", found)
	}
}
