package report_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"passband.example/plandiff/signal"
	"passband.example/review/license"
	"passband.example/review/report"
)

func question(t *testing.T, region, class, mhz string) report.LawQuestion {
	t.Helper()
	tables, err := license.For(region)
	if err != nil {
		t.Fatal(err)
	}
	q := report.LawQuestion{Tables: tables}
	if q.Class, err = tables.Class(class); err != nil {
		t.Fatal(err)
	}
	if q.Frequency, err = signal.ParseMegahertz(mhz); err != nil {
		t.Fatal(err)
	}
	return q
}

// TestLawSaysAll holds the answer in both forms against the regulations: what a page shows in
// words a program finds in fields.
func TestLawSaysAll(t *testing.T) {
	for _, c := range []struct {
		name, region, class, mhz string
		text, json               []string
		source                   string
	}{
		{"a member of a low class", "US", "technician", "29.6", []string{"class not entitled", "General, Advanced, Amateur Extra may send"}, []string{`"outcome": "denied"`, `"general"`}, "47 CFR 97.301(d), (e)"},
		{"repeaters barred", "US", "", "145.6", []string{"kind of station barred", "closed to everybody, as a repeater", "47 CFR 97.205(b)"}, []string{`"right": "no"`, `"station": "repeater"`}, "47 CFR 97.205(b)"},
		{"a bound for all", "US", "", "442.15", []string{"for everybody and every emission, inside a 50 W area, at most 50 W PEP"}, []string{`"max_power": "50 W PEP"`}, "47 CFR 97.313(f)"},
		{"a permission", "US", "", "219.5", []string{"with a permission of one's own", "at most 50 W PEP"}, []string{`"right": "permit"`, `"max_power": "50 W PEP"`}, "47 CFR 97.303, 97.313(h)"},
		{"digital barred", "JP", "4th", "433.0", []string{"closed to such signals", "which is law", "from memory"}, []string{`"force": "law"`, `"confidence": "memory"`}, "Operation Rules art. 258-2"},
		{"a place", "GB", "full", "431.5", []string{"not within 100 km of Charing Cross, London"}, []string{`"place": "charing-cross"`}, "license note 431-432"},
		{"another service", "US", "", "462.55", []string{"GMRS", "sent on 467.550 MHz", "No row of the tables gives it to amateurs"}, []string{`"service": "GMRS"`, `"transmit": "467.550"`}, "47 CFR 95.1763"},
		{"a former edition", "DE", "a", "145.58", []string{"a former edition", "-0.6 MHz, which makes the input 144.980 MHz"}, []string{`"superseded": true`, `"split": "-0.6"`}, "IARU Region 1"},
	} {
		t.Run(c.name, func(t *testing.T) {
			q := question(t, c.region, c.class, c.mhz)
			var text, form bytes.Buffer
			if err := report.Text(&text, report.Law(q), report.Terminal{Width: 1000}); err != nil {
				t.Fatal(err)
			}
			if err := report.LawJSON(&form, q); err != nil {
				t.Fatal(err)
			}
			contains(t, text.String(), c.source, append(c.text, "the frequency coordinator and local law have the last word"))
			contains(t, form.String(), c.source, c.json)
			var back report.LawForm
			if err := json.Unmarshal(form.Bytes(), &back); err != nil || back.Version != 1 || len(back.May) != 9 {
				t.Errorf("the form is not read back: %v", err)
			}
		})
	}
}

func contains(t *testing.T, text, why string, parts []string) {
	t.Helper()
	for _, part := range parts {
		if !strings.Contains(text, part) {
			t.Errorf("%q is missing (%s) in\n%s", part, why, text)
		}
	}
}

// TestLawTables wants every region that has tables once, in both forms.
func TestLawTables(t *testing.T) {
	page, err := report.LawTables()
	if err != nil {
		t.Fatal(err)
	}
	var text, form bytes.Buffer
	if err := report.Text(&text, page, report.Terminal{Width: 80}); err != nil {
		t.Fatal(err)
	}
	if err := report.LawTablesJSON(&form); err != nil {
		t.Fatal(err)
	}
	regions, err := license.Regions()
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range regions {
		if strings.Count(text.String(), "\n"+r.Code+" ") != 1 || strings.Count(form.String(), fmt.Sprintf("%q: %q", "region", r.Code)) != 1 {
			t.Errorf("%s is not there once", r.Code)
		}
	}
	for line := range strings.Lines(text.String()) {
		if len(strings.TrimRight(line, "\n")) > 80 {
			t.Errorf("a line is wider than a terminal: %s", line)
		}
	}
}
