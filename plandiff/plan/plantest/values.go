package plantest

import (
	"fmt"
	"strings"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/signal"
	"pgregory.net/rapid"
)

// values draws the texts of a field. A field that it does not know fails the
// test, so that a new one cannot go untested.
func (d *draft) values(t *rapid.T, kind plan.Kind, f *plan.Field, name string) []string {
	one := d.value(kind, f)
	if one == nil {
		t.Fatalf("plantest does not know the field %s of a %s", f.Name, kind)
	}
	if f.Form == plan.List || f.Form == plan.Set {
		return rapid.SliceOfN(one, 1, 5).Draw(t, name)
	}
	return []string{one.Draw(t, name)}
}

func (d *draft) value(kind plan.Kind, f *plan.Field) *rapid.Generator[string] {
	switch {
	case f.Form == plan.Flag:
		return rapid.Just("yes")
	case f.Name == plan.FieldWas:
		return keyOf(kind)
	case f.Ref == plan.RefEntry && f.Form == plan.Scalar:
		return d.channel()
	case f.Ref != plan.NoRef:
		return d.reference(f.Ref)
	case strings.HasPrefix(f.Name, "limits."):
		return number(0, 2000)
	case strings.HasPrefix(f.Name, "fm.tone."):
		return tone()
	case kind == plan.KindGroup && f.Name == "id":
		return number(1, 16777215)
	case kind == plan.KindLicenseRow:
		return rapid.SampledFrom([]string{
			",amateur,,,145.2,145.3,no,all,,,,our nets stay clear,decision of the club,2026-03,read,",
			",amateur,repeater,,439.0,439.5,no,all,,,,,x,y,memory,", ",amateur,,,70.0,70.5,yes,all,,10,ERP,\"ours, read\",notice,2026-01,read,",
		})
	case kind == plan.KindSeparationRow:
		return rapid.SampledFrom([]string{
			"our valley,2m,0,60 mi,any,decision of the council,read,", "any,70cm,25000,5 km,dmr,\"council, by letter\",memory,high sites",
			"US-AL,any,0,0 mi,any,x,y,",
		})
	case kind == plan.KindNeighbor || kind == plan.KindCoordination || strings.HasPrefix(f.Name, "busy_hour."):
		return onTheAir(f.Name)
	case kind == plan.KindMessage || f.Name == "reason" || f.Name == "plan":
		return line()
	}
	return byName(f.Name)
}

// byName gives the values of a field that means the same wherever it stands.
func byName(name string) *rapid.Generator[string] {
	switch name {
	case "label", "region", "license", "name", "when":
		return line()
	case "note":
		return note()
	case "edition":
		return number(2026, 2030)
	case "callsign":
		return rapid.StringMatching(`[NW][0-9]QR[A-Z]`)
	case "output", "input", "simplex", "receive":
		return frequency()
	case "split":
		return rapid.SampledFrom([]string{"+5", "-5", "+0.6", "-0.6", "-100", "+100", "+0.000001"})
	case "fm.width":
		return rapid.SampledFrom([]string{"wide", "narrow"})
	case "fm.access":
		return rapid.SampledFrom([]string{"always", "channel free", "tone free"})
	case "dmr.access":
		return rapid.SampledFrom([]string{"impolite", "polite to all", "polite to own color code"})
	case "dmr.color_code":
		return number(0, 15)
	case "dmr.slot":
		return number(1, 2)
	case "power":
		return rapid.SampledFrom([]string{"low", "medium", "high", "5", "0.5", "100"})
	case "timeout_s":
		return number(0, 3600)
	case "transmit", "dmr.privacy":
		return rapid.SampledFrom([]string{"yes", "no"})
	case "call":
		return rapid.SampledFrom([]string{"group", "private", "all"})
	}
	return siteOrPolicy(name)
}

func siteOrPolicy(name string) *rapid.Generator[string] {
	switch name {
	case "site.grid":
		return rapid.SampledFrom([]string{"DN70", "DN70vc", "JO62qm"})
	case "site.lat":
		return rapid.SampledFrom([]string{"40.1", "-90", "90", "0", "0.000001"})
	case "site.lon":
		return rapid.SampledFrom([]string{"-104.2", "-180", "180", "0"})
	case "site.height_m":
		return rapid.SampledFrom([]string{"0", "30", "12.5", "-3"})
	case "site.power_w", "site.erp_w":
		return rapid.SampledFrom([]string{"50", "0.001", "1000000"})
	case "site.gain_dbd":
		return rapid.SampledFrom([]string{"6", "-3", "2.15", "0"})
	case "site.loss_db":
		return rapid.SampledFrom([]string{"0", "1.5", "100"})
	case "site.duty_percent":
		return number(1, 100)
	case "site.people_m":
		return rapid.SampledFrom([]string{"0", "3", "12.5"})
	case "area":
		return rapid.SampledFrom([]string{"US-AL", "DE-BY", "FR-75"})
	case "neighbors":
		return rapid.SampledFrom([]string{"neighbors.csv", "neighbors.csv", "lists/neighbors.csv"})
	case "bands":
		return rapid.SampledFrom([]string{"144-148", "420-450", "0.1-9999.999999", "26.965-27.405"})
	case "modes":
		return rapid.SampledFrom([]string{"fm", "dmr"})
	case "label_length":
		return number(0, 20)
	case "characters":
		return rapid.SampledFrom([]string{"ascii", "latin-1", "unicode", "A-Z0-9 /-", "-", "023"})
	case "id":
		return number(9990001, 9990040)
	case "level":
		return rapid.SampledFrom([]string{"block", "warn", "note", "off"})
	case "rule":
		return rapid.SampledFrom([]string{"co-channel", "label-too-long", "off-band"})
	case "until":
		return rapid.SampledFrom([]string{"2027-06-01", "2028-02-29", "0001-01-01", "9999-12-31"})
	}
	return nil
}

// onTheAir gives the values of the records about stations of others and of what was said of them.
func onTheAir(name string) *rapid.Generator[string] {
	switch name {
	case "label", "by", "source":
		return line()
	case "text":
		return note()
	case "tone":
		return tone()
	case "color_code":
		return number(0, 15)
	case "grid", "lat", "lon", "height_m", "erp_w":
		return siteOrPolicy("site." + name)
	case "date":
		return siteOrPolicy("until")
	case "busy_hour.calls":
		return number(0, 500)
	case "busy_hour.seconds":
		return number(0, 3600)
	}
	return byName(name)
}

func tone() *rapid.Generator[string] {
	return rapid.SampledFrom([]string{"67.0", "103.5", "254.1", "D023N", "D047I", "D023I", "D754N"})
}

func number(low, high int) *rapid.Generator[string] {
	return rapid.Map(rapid.IntRange(low, high), func(n int) string { return fmt.Sprint(n) })
}

// frequency draws one of the amateur bands, or one at an end of what can be written.
func frequency() *rapid.Generator[string] {
	return rapid.OneOf(
		rapid.Map(rapid.Int64Range(144_000_000, 148_000_000), func(hz int64) string { return signal.Hertz(hz).String() }),
		rapid.Map(rapid.Int64Range(420_000_000, 450_000_000), func(hz int64) string { return signal.Hertz(hz).String() }),
		rapid.SampledFrom([]string{"0.1", "0.100001", "9999.999999", "9999.999998", "146.52", "444.325", "446.00625"}),
	)
}

// traps are texts that a reader of YAML or CSV could take for something else.
var traps = []string{
	"yes", "no", "on", "off", "null", "~", "true", "-", "--", "---", "...", ".", "+", "/", "?", ":", "|", ">", "%", "@", "`", "!", "&a", "*a",
	"023", "0o17", "1_000", "1e3", "0x10", "146:52", "2024-03-01", ".inf", ".nan", "1.0", "+5", "=", "<<", "a: b", "a #b", "#", "a, b", "[x]",
	"{x}", "'", "\"", "it's", `say "hi"`, `\n`, " x", "x ", "  ", "é", "Zoë", "日本", "- a", "? a", "a:", "\u00a0x", "\U0001f4fb", "key: |",
}

// line draws a text of one line.
func line() *rapid.Generator[string] {
	printable := rapid.StringOfN(rapid.RuneFrom([]rune("ab:#,-'\"\\[]{}&*!|>% 0.é日")), 1, 8, -1)
	return rapid.OneOf(rapid.SampledFrom(traps), printable).Filter(notBlank)
}

// note draws a text of one or more lines.
func note() *rapid.Generator[string] {
	lines := rapid.SliceOfN(rapid.OneOf(line(), rapid.SampledFrom([]string{"", " ", "# x", "key: value", "  indented", "---"})), 1, 4)
	return rapid.Map(lines, func(lines []string) string { return strings.Join(lines, "\n") }).Filter(notBlank)
}

func notBlank(s string) bool { return strings.TrimSpace(s) != "" }
