package license

import (
	"slices"
	"strings"
	"testing"
	"testing/fstest"
)

// The tables were gathered as four lists of 198, 210, 55 and 250 rows, of which 37, 10, 15 and
// 9 were from memory. Checking changed some; each difference has its reason here, so that a row
// lost or gained by accident is seen.
func TestRowsByConfidence(t *testing.T) {
	l, err := embedded()
	if err != nil {
		t.Fatal(err)
	}
	type counts struct{ read, part, memory int }
	count := func(all ...Provenance) (c counts) {
		for _, p := range all {
			switch p.Confidence {
			case Read:
				c.read++
			case Part:
				c.part++
			case Memory:
				c.memory++
			}
		}
		return c
	}
	tests := []struct {
		table, name string
		gathered    counts
		want        counts
		why         string
	}{
		{"bands", "US", counts{62, 0, 1}, counts{61, 2, 1}, "a row for beacons on 33 cm and shorter; the emissions of 33 and 23 cm are from memory"},
		{"bands", "US-R1", counts{3, 0, 0}, counts{15, 1, 5}, "the segments and bars of 97.305, 97.205, 97.201; 10 m"},
		{"bands", "US-R3", counts{4, 0, 0}, counts{21, 1, 5}, "the segments and bars of 97.305, 97.205, 97.201; 10 m"},
		{"bands", "CA", counts{24, 0, 0}, counts{25, 0, 0}, "10 m cut by power"},
		{"bands", "GB", counts{17, 0, 11}, counts{17, 0, 11}, ""},
		{"bands", "DE", counts{18, 0, 0}, counts{20, 2, 0}, "23 cm cut in three for two classes"},
		{"bands", "AT", counts{3, 0, 0}, counts{3, 0, 0}, ""},
		{"bands", "AU", counts{10, 0, 5}, counts{10, 0, 5}, ""},
		{"bands", "NZ", counts{0, 0, 5}, counts{0, 4, 1}, "edges equal those of ITU Region 3, which were read"},
		{"bands", "JP", counts{4, 0, 6}, counts{4, 3, 12}, "2nd class, 23 cm for all, the bar on the main channels"},
		{"bands", "IN", counts{3, 0, 1}, counts{3, 0, 1}, ""},
		{"bands", "ITU-R1", counts{4, 0, 0}, counts{4, 0, 3}, "10 m; 52-54 and 70.0-70.5 where national rules allow them"},
		{"bands", "ITU-R2", counts{4, 0, 2}, counts{4, 0, 5}, "10 m; RR 5.270"},
		{"bands", "ITU-R3", counts{4, 0, 0}, counts{4, 0, 3}, "10 m; RR 5.270"},
		{"bands", "any", counts{1, 0, 6}, counts{1, 0, 6}, ""},
		{"bandplans", "US", counts{71, 0, 1}, counts{71, 0, 1}, ""},
		{"bandplans", "CA", counts{15, 0, 1}, counts{15, 0, 1}, ""},
		{"bandplans", "GB", counts{32, 0, 0}, counts{31, 1, 0}, "the lower edge of the inputs at 438.4125"},
		{"bandplans", "DE", counts{23, 0, 0}, counts{23, 0, 0}, ""},
		{"bandplans", "IARU-R1", counts{53, 0, 2}, counts{53, 0, 2}, ""},
		{"bandplans", "IARU-R1-2011", counts{3, 0, 0}, counts{3, 0, 0}, ""},
		{"bandplans", "JP", counts{3, 0, 3}, counts{3, 0, 3}, ""},
		{"bandplans", "AU", counts{0, 0, 3}, counts{0, 0, 3}, ""},
		{"splits", "US", counts{16, 0, 3}, counts{16, 0, 4}, "145.1-145.2"},
		{"splits", "CA", counts{1, 0, 3}, counts{1, 0, 4}, "145.1-145.5"},
		{"splits", "R1", counts{5, 0, 1}, counts{5, 0, 1}, ""},
		{"splits", "DE", counts{4, 0, 1}, counts{4, 0, 1}, ""},
		{"splits", "GB", counts{7, 0, 1}, counts{7, 0, 1}, ""},
		{"splits", "AU", counts{2, 0, 2}, counts{2, 0, 2}, ""},
		{"splits", "NZ", counts{0, 0, 2}, counts{0, 0, 3}, "both signs of 2 m cut in two"},
		{"splits", "JP", counts{0, 0, 2}, counts{0, 0, 2}, ""},
		{"services", "US", counts{114, 0, 4}, counts{114, 0, 4}, ""},
		{"services", "US-CA", counts{96, 0, 0}, counts{96, 0, 0}, ""},
		{"services", "CEPT", counts{16, 0, 0}, counts{16, 0, 0}, ""},
		{"services", "ITU", counts{12, 0, 2}, counts{12, 0, 5}, "channels 6, 16 and 70, which hold everywhere"},
		{"services", "any", counts{3, 0, 3}, counts{3, 0, 3}, ""},
	}
	for _, tt := range tests {
		var rows []Provenance
		switch tt.table {
		case "bands":
			rows = provenances(l.bands[tt.name])
		case "bandplans":
			rows = provenances(l.plans[tt.name])
		case "splits":
			rows = provenances(l.splits[tt.name])
		case "services":
			rows = provenances(l.services[tt.name])
		}
		if got := count(rows...); got != tt.want {
			t.Errorf("%s %s: %v; want %v", tt.table, tt.name, got, tt.want)
		}
		if (tt.gathered != tt.want) != (tt.why != "") {
			t.Errorf("%s %s: gathered %v, now %v, because %q", tt.table, tt.name, tt.gathered, tt.want, tt.why)
		}
	}
}

func provenances[T interface{ provenance() Provenance }](rows []T) (all []Provenance) {
	for _, row := range rows {
		all = append(all, row.provenance())
	}
	return all
}

func (p Provenance) provenance() Provenance { return p }

// Every row says where it is from; one from memory says so in its edition as well as in what
// the program prints.
func TestEveryRowHasItsSource(t *testing.T) {
	l, err := embedded()
	if err != nil {
		t.Fatal(err)
	}
	var all []Provenance
	for _, rows := range l.bands {
		all = append(all, provenances(rows)...)
	}
	for _, rows := range l.plans {
		all = append(all, provenances(rows)...)
	}
	for _, rows := range l.splits {
		all = append(all, provenances(rows)...)
	}
	for _, rows := range l.services {
		all = append(all, provenances(rows)...)
	}
	all = append(all, provenances(l.content)...)
	for _, place := range l.places {
		all = append(all, place.Provenance)
	}
	for _, p := range all {
		if len(p.Source) < 5 || len(p.Edition) < 4 || p.Line < 2 || p.File == "" {
			t.Errorf("%s:%d: source %q, edition %q", p.File, p.Line, p.Source, p.Edition)
		}
		if p.Confidence != Read && !strings.Contains(p.Cite(), fromMemory) {
			t.Errorf("%s:%d: %s does not say that it is from memory", p.File, p.Line, p.Cite())
		}
		if p.Confidence == Part && p.Note == "" && !strings.Contains(p.Edition, fromMemory) {
			t.Errorf("%s:%d: nothing says which part was not read", p.File, p.Line)
		}
	}
	if len(all) < 713 {
		t.Errorf("only %d rows; 713 were gathered", len(all))
	}
}

// All regions can be made, and each class that they declare is in a row.
func TestEveryRegionAndClassIsUsed(t *testing.T) {
	l, err := embedded()
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range slices.Concat(l.regions, l.countries) {
		tables, err := For(r.Code)
		if err != nil || len(tables.Rows()) == 0 || tables.Code != r.Code {
			t.Errorf("%s: %v", r.Code, err)
			continue
		}
		for _, class := range tables.Classes() {
			if !slices.ContainsFunc(tables.Rows(), func(row *Row) bool { return slices.Contains(row.Classes, class) }) {
				t.Errorf("%s: class %s is in no row", r.Code, class)
			}
		}
	}
	if len(l.countries) != 249 {
		t.Errorf("%d countries; ISO 3166-1 has 249 codes, Antarctica is left out, and UK is added", len(l.countries))
	}
}

// What is wrong between the files is said, all of it at once.
func TestLibraryRefusesWhatDoesNotFit(t *testing.T) {
	files := fstest.MapFS{}
	entries := []string{
		"bands/us.csv", "bands/any.csv", "classes.csv", "content.csv", "countries.csv", "places.csv", "lines.csv", "jurisdictions.csv",
		"bandplans/us.csv", "splits/us.csv", "services/us.csv",
	}
	for _, name := range entries {
		text, err := data.ReadFile("data/" + name)
		if err != nil {
			t.Fatal(err)
		}
		files[name] = &fstest.MapFile{Data: text}
	}
	us := string(files["bands/us.csv"].Data)
	us = strings.Replace(us, "novice|technician,", "novice|techncian,", 1)
	us = strings.Replace(us, ",line-a,", ",line-b,", 1)
	files["bands/us.csv"] = &fstest.MapFile{Data: []byte(us)}
	files["bands/xx.csv"] = &fstest.MapFile{Data: []byte(rowColumns + "\n")}
	_, err := readLibrary(files)
	if err == nil {
		t.Fatal("no error")
	}
	for _, want := range []string{
		`bands/us.csv:3: class "techncian" is not in classes.csv`, `place "line-b" is not in places.csv`,
		"bands: XX is not in jurisdictions.csv", `DE names plans "de", which has no rows`, "DE has no file in bands",
	} {
		if !strings.Contains(err.Error(), want) {
			t.Errorf("the error lacks %q:\n%v", want, err)
		}
	}
}
