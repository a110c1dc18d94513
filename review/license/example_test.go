package license_test

import (
	"fmt"

	"passband.example/review/license"
)

// A Technician's FM channel at the top of 2 m.
func ExampleTables_Transmit() {
	t, err := license.For("US")
	if err != nil {
		fmt.Println(err)
		return
	}
	v := t.Transmit(license.Query{Center: 147_995_000, Emission: license.FMWide(), Class: "technician"})
	first := v.Objections[0]
	fmt.Println(v.Outcome, "-", first.Reason, "by", int64(first.Above), "Hz")
	fmt.Println("the nearest that fits:", v.Nearest)
	fmt.Println(first.Rows[0].Cite())
	// Output:
	// denied - over a band edge by 3000 Hz
	// the nearest that fits: 147.992
	// 47 CFR 97.301(a), 97.305(c)(4)(iii), 97.313(b) [97.301: 2009 text, same limits in 2026 quotations; 97.305: 2023 text (88 FR 85171); 97.313: text of 28 July 2026, quoted]
}

// What else lives at a frequency.
func ExampleTables_At() {
	t, err := license.For("DE")
	if err != nil {
		fmt.Println(err)
		return
	}
	l := t.At(439_000_000)
	for _, row := range l.Rows {
		fmt.Println(row.Right, row.Classes, row.Station, row.Low, "-", row.High, row.Limit())
	}
	for _, s := range l.Segments {
		fmt.Println(s.Plan, s.Use, s.Force)
	}
	for _, s := range l.Splits {
		fmt.Println(s.Band, s.Split)
	}
	// Output:
	// yes [] repeater-output 30.000 - 1300.000 50 W ERP
	// yes [a]  430.000 - 440.000 750 W PEP
	// yes [e]  430.000 - 440.000 75 W PEP
	// yes [n]  430.000 - 440.000 6.14 W ERP
	// DE FM repeater output custom
	// IARU-R1 FM repeater output (HB, DL, OE) custom
	// 70cm -7.6
}

// A country without a table.
func ExampleFor() {
	t, err := license.For("fr")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(t.Name)
	fmt.Println(t.Fallback())
	_, err = license.For("Germny")
	fmt.Println(err)
	// Output:
	// France
	// there is no license table for France; the limits of ITU Region 1 stand in, and national rules decide
	// region "Germny" is not known, so nothing can be checked against a license; there are tables for AT, AU, CA, DE, GB, IN, ITU-R1, ITU-R2, ITU-R3, JP, NZ, US, US-R1, US-R3, and any other country by its two-letter code of ISO 3166-1
}
