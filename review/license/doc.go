// Package license holds what the law lets an amateur transmit, and what else a frequency is
// used for: license tables, band plans, usual splits of repeaters, and channels of other
// services. Every row names its source and the edition that was read.
//
// It judges single transmissions and knows nothing of plans. The license holder answers for
// every transmission; a frequency coordinator and local law have the last word.
//
// # Asking
//
//	t, err := license.For("US")              // or GB, DE, ITU-R1, any ISO 3166-1 code
//	class, err := t.Class("Technician")      // as a plan writes it
//	v := t.Transmit(license.Query{
//		Center:   147_995_000,               // Hz
//		Emission: license.FMWide(),          // 16K0F3E
//		Class:    class,
//		Station:  license.RepeaterInput,
//	})
//	v.Outcome                                // denied
//	v.Objections[0].Reason, .Above           // over a band edge, by 3000 Hz
//	v.Objections[0].Rows[0].Cite()           // 47 CFR 97.301(a), ... [...]
//	v.Nearest                                // 147.992 MHz would do
//
// Transmit documents the steps. A verdict is Denied where a rule that was read forbids,
// and Doubtful where the tables can't tell: a site is missing, powers are of unlike kinds, a
// permission of one's own is needed, or all that speaks against it is from memory.
// Allowed says that no table forbids it; FromMemory and Fallback say what that is worth.
//
// At lists everything at a frequency, Closest how near to the edges of a band an emission may
// go, KeptAgainst and CallingOn what band plans keep clear, Raster the channel steps. Segments, Calling, UsualSplits, FitSplit, Services and
// Content answer single questions. All lookups are indexed: a plan of 100,000 channels is
// judged in well under a second.
//
// # What a repeater asks
//
// A repeater is asked about twice: its output as RepeaterOutput, and its input as
// RepeaterInput, which is what the members send on and what the repeater hears. The class of a
// plan is that of its members, so it goes with the input; the output is the repeater
// holder's, whose class a plan does not know: leave Class empty there.
//
// # The tables
//
// They are CSV files below data, one a jurisdiction in each folder, lines that begin with #
// left out. Frequencies are in MHz, widths and rasters in Hz, powers in W, all exact. These
// columns end every table:
//
//	source       the document and section
//	edition      which text of it was read, or "from memory"
//	confidence   read; part (a figure was not read, the note says which); memory
//	note         what was changed or doubted when the row was checked
//
// The columns of bands/, one row a right or a bar:
//
//	classes        license classes joined by a bar; empty: everybody
//	service        amateur, or the service that the range belongs to
//	station        empty: every station; repeater (what it hears and sends), repeater-output,
//	               auxiliary, beacon, space, earth: that kind of station alone
//	place          empty: everywhere; else a place of places.csv
//	low_mhz        lower edge, inside
//	high_mhz       upper edge, inside
//	transmit       yes; no, which wins over every row it overlaps; permit: with a permission
//	               of one's own, or in some countries of an ITU Region only
//	emissions      all, or words joined by a bar: see Kind
//	max_width_hz   occupied width; empty: no number in the rule
//	max_power_w    the number as the rule has it
//	power_kind     what it measures: PEP, carrier, mean, ERP, EIRP, unstated
//	condition      what else must hold
//
// bandplans/ has center_mhz for a single channel, use, kept_for (what FM or DMR would drown
// there: see Kept), raster_hz (the channel steps, joined by a bar), force (custom, or law where the plan
// is prescribed) and superseded. splits/ has split_mhz, input minus output, for outputs from
// low_mhz to high_mhz. services/ has rx_mhz, what a listener tunes, and tx_mhz, what the far
// user sends on. jurisdictions.csv says which files apply where, countries.csv the ITU
// Region of every other country, classes.csv the license classes, content.csv what
// a transmission may say.
//
// A club reads a file of its own in the form of bands/ with ReadRows, and lays it over
// the tables with Tables.With.
//
// # What is not here
//
// Bands below 28 MHz. Above 1300 MHz only the US and Canada have rows. The areas of 2.106(c)(270)
// and the cities of 97.303(m)(2) have no limits here, so a site decides nothing there. No
// text was found of the IARU plans of Regions 2 and 3. What a row's note calls "added on
// checking" rests on memory unless its confidence says more.
package license
