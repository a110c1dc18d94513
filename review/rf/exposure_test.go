package rf

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"passband.example/plandiff/signal"
)

// eirp returns the EIRP of a line in W, by its gain or its ERP.
func (l line) eirp(t *testing.T) float64 {
	if l.has("erp_w") {
		return EIRPPerERP * l.number(t, "erp_w")
	}
	return RadiatedWatts(signal.Power(math.Round(l.number(t, "power_w")*1000)), l.number(t, "gain_dbi"), 0)
}

func (l line) hertz(t *testing.T) signal.Hertz {
	f, err := signal.ParseMegahertz(l["frequency_mhz"])
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// allowed returns how far ours may be from a published value: an absolute number, per cent of it, or feet.
func (l line) allowed(t *testing.T, published float64) float64 {
	number, unit, _ := strings.Cut(l["tolerance"], " ")
	x, err := strconv.ParseFloat(number, 64)
	switch {
	case l["tolerance"] == "rounding of the table": // two digits
		return 0.5 * math.Pow(10, math.Floor(math.Log10(published))-1)
	case l["tolerance"] == "exact":
		return 1e-9
	case err != nil:
		t.Fatalf("%s: tolerance %q", l["id"], l["tolerance"])
	case unit == "%":
		return x / 100 * published
	case unit == "ft":
		return x * footM
	}
	return x
}

// TestExposurePublished prints each published value beside ours. Every line of the file is computed; a
// line can hold a distance, a density and a threshold.
func TestExposurePublished(t *testing.T) {
	t.Logf("%-34s %11s %11s %9s %9s  %s", "id", "published", "ours", "apart", "allowed", "source")
	for _, l := range lines(t, "exposure-examples.csv") {
		published, ours := l.expose(t)
		allowed := l.allowed(t, published)
		t.Logf("%-34s %11.6g %11.6g %+9.1e %9.1e  %s (%s)", l["id"], published, ours, ours-published, allowed, l["source"], l["confidence"])
		if !(math.Abs(ours-published) <= allowed) {
			t.Errorf("%s: %v; published %v, allowed %v (%s)", l["id"], ours, published, allowed, l["source"])
		}
	}
}

// expose computes what a line publishes.
func (l line) expose(t *testing.T) (published, ours float64) {
	ground := func() Ground { return Ground(l.number(t, "ground_factor")) }
	const perMilliwattPerCm2 = 10 // W/m2
	switch id := l["id"]; {
	case id == "average-power": // 500 W at 0.4 of the time on the air, that 45 s of 360
		return l.number(t, "threshold_w"), 500 * 0.4 * 0.125
	case id == "duty-multiplier":
		return 0.71, LimitDistance(50, 2, TypicalGround) / LimitDistance(100, 2, TypicalGround)
	case strings.HasPrefix(id, "floor-"):
		return l.number(t, "distance_m"), NearestExempt(l.hertz(t))
	case strings.HasPrefix(id, "sar-"):
		return l.number(t, "threshold_w"), known(ExemptNearWatts(l.hertz(t), l.number(t, "distance_m")))
	case id == "exempt-444":
		return l.number(t, "threshold_w"), known(ExemptWatts(l.hertz(t), l.number(t, "distance_m")))
	case strings.Contains(id, "exempt"):
		return l.number(t, "distance_m"), known(ExemptDistance(l.hertz(t), l.number(t, "erp_w")))
	case strings.HasPrefix(id, "limit-"):
		group := Public
		if strings.HasSuffix(id, "-c") {
			group = Occupational
		}
		limit, err := ExposureLimit("US", group, l.hertz(t))
		if err != nil {
			t.Fatal(err)
		}
		return l.number(t, "limit_mw_cm2"), limit.WattsPerM2 / perMilliwattPerCm2
	case l.has("density_mw_cm2"):
		return l.number(t, "density_mw_cm2"), PowerDensity(l.eirp(t), l.number(t, "distance_m"), ground()) / perMilliwattPerCm2
	case strings.HasSuffix(l["tolerance"], "ft"): // printed in feet; the meters beside them are rounded again
		return l.number(t, "distance_ft") * footM, LimitDistance(l.eirp(t), l.number(t, "limit_mw_cm2")*perMilliwattPerCm2, ground())
	default:
		return l.number(t, "distance_m"), LimitDistance(l.eirp(t), l.number(t, "limit_mw_cm2")*perMilliwattPerCm2, ground())
	}
}

// The limits that a published example states are those of the table, where the table has its frequency.
func TestExposureLimitsOfExamples(t *testing.T) {
	for _, l := range lines(t, "exposure-examples.csv") {
		if !l.has("limit_mw_cm2") || !l.has("frequency_mhz") {
			continue
		}
		group := Public
		if id := l["id"]; strings.HasSuffix(id, "-c") || strings.HasSuffix(id, "-controlled") || strings.HasPrefix(id, "mpe-") && l["limit_mw_cm2"] == "1" {
			group = Occupational
		}
		limit, err := ExposureLimit("US", group, l.hertz(t))
		if err != nil || math.Abs(limit.WattsPerM2/10-l.number(t, "limit_mw_cm2")) > 0.0001 {
			t.Errorf("%s: %v mW/cm2, %v; published %s", l["id"], limit.WattsPerM2/10, err, l["limit_mw_cm2"])
		}
	}
}

func TestExposeUnknown(t *testing.T) {
	if _, err := Expose("ZZ", Transmission{146_940_000, 50, 1}); err == nil {
		t.Error("a country without rows has no error")
	}
	if _, err := Expose("ICNIRP-1998", Transmission{52_000_000_000, 50, 1}); err == nil {
		t.Error("a frequency without a row has no error")
	}
	e, err := Expose("ICNIRP-1998", Transmission{439_000_000, 50, 1})
	if err != nil || e.OccupationalM != 0 || e.ExemptM != 0 || e.Public.Confidence != "memory" {
		t.Errorf("%+v, %v; want a public limit from memory and nothing else", e, err)
	}
}

func TestExposeBelow30MHz(t *testing.T) {
	e, err := Expose("US", Transmission{29_620_000, 100, 1})
	if err != nil || e.PublicM == 0 || e.OccupationalM == 0 || e.ExemptM != 0 {
		t.Errorf("%+v, %v; want limits and no exemption", e, err)
	}
}

func TestExemptOneMilliwatt(t *testing.T) {
	if m := known(ExemptDistance(146_940_000, 0.001)); m != 0 {
		t.Errorf("1 mW is exempt from %v m; want anywhere", m)
	}
	if w := known(ExemptWatts(146_940_000, 0.1)); w != 0.001 {
		t.Errorf("%v W are exempt nearer than wavelength/(2 pi); want 1 mW", w)
	}
}

func TestExposureProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tx := Transmission{
			Frequency: signal.Hertz(rapid.Int64Range(30_000_000, 1_500_000_000).Draw(t, "f")),
			ERPWatts:  rapid.Float64Range(0.1, 2000).Draw(t, "erp"),
			Duty:      rapid.Float64Range(0.05, 1).Draw(t, "duty"),
		}
		e, err := Expose("US", tx)
		if err != nil {
			t.Fatal(err)
		}
		if !(e.OccupationalM < e.PublicM && e.PublicM < e.ExemptM) {
			t.Errorf("%v m occupational, %v m public, %v m exempt: the wider the circle the larger", e.OccupationalM, e.PublicM, e.ExemptM)
		}
		eirp := EIRPPerERP * tx.ERPWatts * tx.Duty
		if s := PowerDensity(eirp, e.PublicM, TypicalGround); math.Abs(s-e.Public.WattsPerM2) > 1e-9*s {
			t.Errorf("%v W/m2 at the distance for %v", s, e.Public.WattsPerM2)
		}
		if w := known(ExemptWatts(tx.Frequency, e.ExemptM*(1+1e-9))); w < tx.ERPWatts*tx.Duty {
			t.Errorf("%v W are exempt where %v should be", w, tx.ERPWatts*tx.Duty)
		}
		two := LimitDistance(2*eirp, e.Public.WattsPerM2, TypicalGround)
		if together := Together(e.PublicM, e.PublicM); math.Abs(two-together) > 1e-9*two {
			t.Errorf("%v m for twice the power, %v m for two", two, together)
		}
	})
}
