package license

import (
	"errors"
	"slices"
	"strings"
	"sync"
	"testing"
)

func TestFor(t *testing.T) {
	tests := []struct {
		region, code, fallback string
		itu                    int
		why                    string
	}{
		{"US", "US", "", 2, "a table of its own"},
		{"us", "US", "", 2, "case does not matter"},
		{" DE ", "DE", "", 1, "nor does space"},
		{"PR", "PR", "", 2, "Puerto Rico: the FCC's table"},
		{"GU", "GU", "", 3, "Guam: the FCC's table for Region 3"},
		{"UK", "UK", "", 1, "ISO 3166-1 keeps UK for the United Kingdom, and people write it"},
		{"IM", "IM", "", 1, "Isle of Man: Ofcom's table"},
		{"FR", "FR", "there is no license table for France; the limits of ITU Region 1 stand in, and national rules decide", 1, "no table"},
		{"BR", "BR", "ITU Region 2 stand in", 2, "no table"},
		{"KE", "KE", "ITU Region 1 stand in", 1, "no table"},
		{"ITU-R3", "ITU-R3", "ITU Region 3 stand in", 3, "asked for by name"},
		{"AT", "AT", "the table of Austria has only a part of its bands", 1, "some bands were found"},
	}
	for _, tt := range tests {
		tables, err := For(tt.region)
		if err != nil {
			t.Errorf("%q: %v", tt.region, err)
			continue
		}
		if tables.Code != tt.code || tables.ITU != tt.itu || !strings.Contains(tables.Fallback(), tt.fallback) || (tt.fallback == "") != (tables.Fallback() == "") {
			t.Errorf("%q: %s, Region %d, %q: %s", tt.region, tables.Code, tables.ITU, tables.Fallback(), tt.why)
		}
	}
}

// A country without a table is judged by the limits of its ITU Region, and the verdict says so.
func TestFallback(t *testing.T) {
	tests := []struct {
		region, mhz string
		want        Outcome
		fallback    bool
		why         string
	}{
		{"FR", "145.500", Allowed, true, "144-146 in Region 1"},
		{"FR", "146.500", Denied, true, "not in Region 1"},
		{"FR", "70.2", Doubtful, true, "in some countries of Region 1 only"},
		{"BR", "146.500", Allowed, true, "144-148 in Region 2"},
		{"JM", "446.0", Doubtful, true, "RR 5.270: in some countries only"},
		{"AT", "145.500", Allowed, true, "not in the Austrian table: Region 1"},
		{"AT", "51.0", Allowed, false, "in the Austrian table"},
		{"PR", "146.52", Allowed, false, "the FCC's table"},
		{"IN", "432.0", Denied, false, "India has 434-438; Region 3 does not widen it"},
	}
	for _, tt := range tests {
		v := region(t, tt.region).Transmit(Query{Center: mhz(t, tt.mhz), Emission: FMNarrow()})
		if v.Outcome != tt.want || v.Fallback != tt.fallback {
			t.Errorf("%s %s: %v, fallback %v; want %v, %v: %s", tt.region, tt.mhz, v.Outcome, v.Fallback, tt.want, tt.fallback, tt.why)
		}
	}
}

func TestUnknownRegion(t *testing.T) {
	tests := []struct{ region, nearest string }{
		{"USA", "US"}, {"Germany", "DE"}, {"canada", "CA"}, {"ITU-R4", "ITU-R1"}, {"", ""}, {"nowhere at all", ""}, {strings.Repeat("X", 1<<20), ""},
	}
	for _, tt := range tests {
		_, err := For(tt.region)
		var unknown *UnknownRegion
		if !errors.As(err, &unknown) {
			t.Errorf("%.20q: %v; want an *UnknownRegion", tt.region, err)
			continue
		}
		if unknown.Nearest != tt.nearest || !slices.Contains(unknown.Known, "US") || !strings.Contains(err.Error(), "AT, AU, CA, DE, GB") || len(err.Error()) > 500 {
			t.Errorf("%.20q: nearest %q, want %q: %.300v", tt.region, unknown.Nearest, tt.nearest, err)
		}
	}
}

func TestClass(t *testing.T) {
	tests := []struct {
		region, name string
		want         Class
	}{
		{"US", "technician", "technician"}, {"US", "Technician", "technician"}, {"US", "Amateur Extra", "extra"}, {"US", "tech", "technician"},
		{"CA", "Basic with Honours", "basic-honours"}, {"CA", "basic_with_honors", "basic-honours"}, {"CA", "Basic+Morse", "basic-morse"},
		{"DE", "Klasse N", "n"}, {"DE", "A", "a"}, {"JP", "4th class", "4th"}, {"AT", "class 1", "1"}, {"GU", "General", "general"},
		{"FR", "anything", "anything"}, {"US", "", ""},
	}
	for _, tt := range tests {
		if got, err := region(t, tt.region).Class(tt.name); err != nil || got != tt.want {
			t.Errorf("%s %q: %q, %v; want %q", tt.region, tt.name, got, err, tt.want)
		}
	}
	_, err := region(t, "US").Class("tehcnician")
	var unknown *UnknownClass
	if !errors.As(err, &unknown) || unknown.Nearest != "technician" || !strings.Contains(err.Error(), "novice, technician, general, advanced, extra") {
		t.Errorf("a slip of the pen: %v", err)
	}
	if _, err := region(t, "GB").Class(strings.Repeat("\x1b", 1<<20)); err == nil || len(err.Error()) > 400 || strings.ContainsRune(err.Error(), '\x1b') {
		t.Errorf("a class of a megabyte of escapes: %.300v", err)
	}
	if label := region(t, "CA").ClassLabel("basic-honours"); label != "Basic with Honours" {
		t.Errorf("the label of basic-honours is %q", label)
	}
}

func TestRegions(t *testing.T) {
	all, err := Regions()
	var codes []string
	for _, r := range all {
		codes = append(codes, r.Code)
	}
	want := []string{"AT", "AU", "CA", "DE", "GB", "IN", "ITU-R1", "ITU-R2", "ITU-R3", "JP", "NZ", "US", "US-R1", "US-R3"}
	if err != nil || !slices.Equal(codes, want) {
		t.Errorf("%v, %v; want %v", codes, err, want)
	}
}

// Many goroutines may ask at once, also for the first time.
func TestTablesAreSafeForGoroutines(t *testing.T) {
	var group sync.WaitGroup
	for i := range 16 {
		group.Go(func() {
			tables, err := For([]string{"NO", "SE", "FI", "DK"}[i%4])
			if err != nil {
				t.Error(err)
				return
			}
			if v := tables.Transmit(Query{Center: 145_500_000, Emission: FMNarrow()}); v.Outcome != Allowed {
				t.Errorf("%v", v.Outcome)
			}
		})
	}
	group.Wait()
}
