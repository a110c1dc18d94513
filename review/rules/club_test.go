package rules_test

import (
	"slices"
	"strings"
	"testing"

	"passband.example/plandiff/plan"
	"passband.example/review"
	"passband.example/review/license"
	"passband.example/review/rules"
)

// TestLicenseColumns: the file that package plan reads is the one that package license does.
func TestLicenseColumns(t *testing.T) {
	if _, err := license.ReadRows(plan.LicenseFile, license.Club, []byte(plan.LicenseColumns+"\n")); err != nil {
		t.Error(err)
	}
}

// TestClubRowsAreThoseOfTheBase is promise 4 for license.csv: a change that brings a fault and
// the row that would let it pass, or takes the row away that bars it, blocks all the same.
func TestClubRowsAreThoseOfTheBase(t *testing.T) {
	const (
		bar   = ",amateur,,,146.4,146.5,no,all,,,,our nets,decision of the club,2026-03,read,"
		allow = ",amateur,,,450.0,452.0,yes,phone,,,,trial,letter of the authority,2026-01,read,"
	)
	files := func(rows, channels string) map[string]string {
		all := map[string]string{"plan.yaml": header + channels}
		if rows != "" {
			all["license.csv"] = plan.LicenseColumns + "\n" + rows + "\n"
		}
		return all
	}
	const none, net, trial = "", "channels: {c: {simplex: 146.43, fm: {}}}\n", "channels: {c: {simplex: 451.5, fm: {}}}\n"
	for _, c := range []struct {
		name, why string
		old, now  map[string]string
		want      []string
	}{
		{"bar gone", "what it bars blocks until the next change", files(bar, none), files("", net), []string{"block off-band", "warn policy-changed"}},
		{"bar kept", "it blocks", files(bar, none), files(bar, net), []string{"block off-band"}},
		{"right added", "it counts from the next change on", files("", none), files(allow, trial), []string{"block off-band", "warn policy-changed"}},
		{"right kept", "it shows as the club's claim", files(allow, none), files(allow, trial), []string{"warn club-claim"}},
		{"broken row added", "it is told before it is merged", files(bar, none), files(strings.Replace(bar, "146.5", "146.3", 1), none), []string{"block license-row-unusable", "warn policy-changed", "warn policy-changed"}},
		{"layout", "another order of rows is no change", files(bar+"\n"+allow, none), files(allow+"\n"+bar, none), nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			v := judgeChange(t, only(ofLaw...), load(t, c.old), load(t, c.now))
			var got []string
			for _, f := range v.Findings {
				if f.Standing == review.New {
					got = append(got, f.Severity.String()+" "+f.Rule)
				}
			}
			if strings.Join(sorted(got), ", ") != strings.Join(c.want, ", ") {
				t.Errorf("got %q, want %q: %s", got, c.want, c.why)
			}
		})
	}
}

// TestClubSourceIsMarked wants a verdict that rests on the club's own row to say so.
func TestClubSourceIsMarked(t *testing.T) {
	for _, c := range []struct{ rule, row, channel string }{
		{rules.ClubClaim.ID, ",amateur,,,450.0,452.0,yes,phone,,,,trial,letter of the authority,2026-01,read,", "451.5"},
		{rules.OffBand.ID, ",amateur,,,146.4,146.5,no,all,,,,our nets,decision of the club,2026-03,read,", "146.43"},
	} {
		found := check(t, only(c.rule), load(t, map[string]string{
			"plan.yaml": header + "channels: {c: {simplex: " + c.channel + ", fm: {}}}\n", "license.csv": plan.LicenseColumns + "\n" + c.row + "\n"}))
		if len(found) != 1 || !strings.Contains(found[0].Source, "the club's own claim: ") || !strings.Contains(found[0].Source, "license.csv line 2") {
			t.Errorf("%s does not say whose claim it rests on: %+v", c.rule, found)
		}
	}
}

func sorted(all []string) []string {
	slices.Sort(all)
	return all
}
