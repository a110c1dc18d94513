package rf

import (
	"math"
	"strings"
	"testing"

	"passband.example/plandiff/signal"
)

// Every row of the reference is in the table, with the published distance to the meter and not as it was
// rounded to kilometers.
func TestTableHoldsTheReference(t *testing.T) {
	regions := map[string]string{"Alabama": "US-AL", "Michigan": "US-MI", "Indiana": "US-IN", "Oklahoma": "US-OK", "Arkansas": "US-AR", "Missouri": "US-MO", "proposed": "any"}
	reference := lines(t, "separation.csv")
	rows := PublishedRows()
	if len(reference) != len(rows) {
		t.Errorf("%d rows in the reference, %d in the table", len(reference), len(rows))
	}
	used := map[int]bool{}
	for _, l := range reference {
		word, _, _ := strings.Cut(l["source"], " ")
		found := false
		for i, r := range rows {
			if used[i] || r.Region != regions[word] || r.Band != l["band"] || float64(r.Spacing) != l.number(t, "spacing_hz") {
				continue
			}
			if math.Abs(r.RequiredM/1000-l.number(t, "required_km")) <= 0.05 {
				used[i], found = true, true
				t.Logf("%-6s %-6s %5s kHz %7s published %-60s ours %.3f km, reference %s", r.Region, r.Band, r.Spacing.KHz(), r.Asked, l["as_published"], r.RequiredM/1000, l["required_km"])
				break
			}
		}
		if !found {
			t.Errorf("no row for %v", l)
		}
	}
}

func TestRequired(t *testing.T) {
	tone := func(c signal.CTCSS) Station { return Station{FM: true, Tone: c.Tone()} }
	fm, dmr := Station{FM: true}, Station{DMR: true}
	own := []Row{{Region: "our county", Band: "2m", Spacing: 10_000, RequiredM: 0, Source: "our coordinator"}}
	tests := []struct {
		name    string
		region  string
		own     []Row
		f       signal.Hertz
		spacing signal.Hertz
		a, b    Station
		want    string // as asked; "" where no row says anything
		source  string
		why     string
	}{
		{"co-channel", "US", nil, 146_940_000, 0, fm, fm, "100 mi", "proposed", "the default of 2 m"},
		{"between two rows", "US", nil, 146_940_000, 12_500, fm, fm, "65 mi", "proposed", "a row holds up to the next, so 12.5 kHz is as 10"},
		{"at the last row", "US", nil, 146_940_000, 30_000, fm, fm, "", "", "the zero row ends the table"},
		{"DMR at 5 kHz", "US", nil, 146_940_000, 5_000, dmr, dmr, "100 mi", "proposed", "the row for FM is passed over, the one before asks the same"},
		{"Alabama", "US-AL", nil, 146_940_000, 10_000, fm, fm, "90 mi", "Alabama", "the region's row replaces the default of 65"},
		{"Alabama ends at 20 kHz", "US-AL", nil, 146_940_000, 20_000, fm, fm, "0 mi", "Alabama", "and the default's 25 mi there are gone"},
		{"Alabama, DMR", "us-al", nil, 146_940_000, 10_000, dmr, dmr, "65 mi", "proposed", "its rows are about FM"},
		{"Michigan on 70 cm", "US-MI", nil, 444_000_000, 25_000, fm, fm, "25 mi", "Michigan", "more than the default of 10"},
		{"Oklahoma without tones", "US-OK", nil, 444_000_000, 0, fm, fm, "120 mi", "Oklahoma", "as before tones were required"},
		{"Oklahoma with one tone on both", "US-OK", nil, 444_000_000, 0, tone(885), tone(885), "120 mi", "Oklahoma", "90 mi ask for different tones"},
		{"Oklahoma with two tones", "US-OK", nil, 444_000_000, 0, tone(885), tone(1413), "90 mi", "Oklahoma", "a different tone for each"},
		{"Missouri, DMR beside FM", "US-MO", nil, 146_940_000, 15_000, fm, dmr, "40 mi", "Missouri", "its rows are about digital beside FM"},
		{"both modes beside FM", "US-AL", nil, 146_940_000, 10_000, fm, Station{FM: true, DMR: true}, "90 mi", "Alabama", "the strictest of what they can meet in"},
		{"shared pairs", "US-AR", nil, 444_000_000, 50_000, fm, fm, "", "", "a list of stations does not tell shared pairs, so the default's end at 50 kHz stands"},
		{"a club's own row", "US-AL", own, 146_940_000, 10_000, fm, fm, "", "our coordinator", "0 from 10 kHz on ends the table there"},
		{"under a club's own row", "US-AL", own, 146_940_000, 5_000, fm, fm, "100 mi", "Alabama", "the others stay"},
		{"a band without rows", "US", nil, 1_282_000_000, 0, fm, fm, "", "", "nothing was read for 23 cm"},
		{"no band", "US", nil, 162_550_000, 0, fm, fm, "", "", "not an amateur band"},
		{"a country without rows", "DE", nil, 145_700_000, 0, fm, fm, "100 mi", "proposed", "the default, and the row says that it is one"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			row, ok := Separations(tt.region, tt.own).Required(tt.f, tt.spacing, &tt.a, &tt.b)
			switch {
			case !ok && tt.want != "":
				t.Errorf("no row; want %s (%s)", tt.want, tt.why)
			case ok && row.RequiredM > 0 && row.Asked != tt.want, ok && row.RequiredM > 0 && !strings.HasPrefix(row.Source, tt.source):
				t.Errorf("%s; want %s of %s (%s)", row.Cite(), tt.want, tt.source, tt.why)
			case ok && row.RequiredM == 0 && tt.want != "" && tt.want != "0 mi":
				t.Errorf("nothing asked; want %s (%s)", tt.want, tt.why)
			}
		})
	}
}

func TestReadRowsProblems(t *testing.T) {
	const header = "region,band,spacing_hz,required,applies,source,confidence,note\n"
	tests := []struct {
		name, text, want string
		why              string
	}{
		{"empty", "", "no line with the names of the columns", "a file of nothing"},
		{"other columns", "band,km\n", "the columns are", "a table in another form"},
		{"no unit", header + "any,2m,0,100,any,us,,\n", "own.csv:2: required \"100\" is no distance", "miles or kilometers?"},
		{"no number", header + "any,2m,0,NaN km,any,us,,\n", "is no distance", "a NaN would pass comparisons"},
		{"below nothing", header + "any,2m,0,-5 km,any,us,,\n", "is no distance", "a distance is not negative"},
		{"unknown band", header + "any,2 meters,0,100 km,any,us,,\n", "band \"2 meters\" is not known", "a row that would never be used"},
		{"spacing in kHz", header + "any,2m,12.5,100 km,any,us,,\n", "spacing_hz \"12.5\" is no spacing", "whole hertz"},
		{"wide spacing", header + "any,2m,5000000,100 km,any,us,,\n", "spacing_hz \"5000000\" is no spacing", "would be asked across the band"},
		{"unknown pair", header + "any,2m,0,100 km,all,us,,\n", "applies \"all\" is not known", "a row that would never be used"},
		{"no source", header + "any,2m,0,100 km,any, ,,\n", "source is empty", "who asks?"},
		{"cells missing", header + "any,2m\n", "wrong number of fields", "from encoding/csv"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if _, err := ReadRows("own.csv", []byte(tt.text)); err == nil || !strings.Contains(err.Error(), tt.want) {
				t.Errorf("%v; want %q (%s)", err, tt.want, tt.why)
			}
		})
	}
	_, err := ReadRows("own.csv", []byte(header+"any,9m,x,1 km,any,us,,\n# left out\nany,2m,0,1 km,any,,,\n"))
	for _, want := range []string{"own.csv:2: band", "own.csv:2: spacing_hz", "own.csv:4: source"} {
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%v; want %q among them", err, want)
		}
	}
}

func FuzzReadRows(f *testing.F) {
	f.Add(separationCSV)
	f.Add([]byte("region,band,spacing_hz,required,applies,source,confidence,note\nany,2m,0,1e308 mi,any,s,,\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		rows, err := ReadRows("own.csv", data)
		if err != nil {
			return
		}
		table := Separations("US", rows)
		row, ok := table.Required(146_940_000, 0, &Station{}, &Station{})
		if ok && !(row.RequiredM >= 0 && row.RequiredM <= 2_000_000) {
			t.Errorf("%+v", row)
		}
	})
}
