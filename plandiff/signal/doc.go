// Package signal holds the value types of the trade: what a frequency, a tone, a
// talkgroup number or a locator is, how it is written in a plan, and what is wrong with
// one that is written otherwise.
//
// # The types
//
//	type          written              kept as                   parser
//	Hertz         146.520              hertz                     ParseMegahertz
//	Split         +5, -0.6             hertz, signed             ParseSplit
//	CTCSS         103.5                tenths of a hertz         ParseCTCSS
//	DCS           D023N, D023I         code and polarity         ParseDCS
//	Tone          103.5, D023N         a CTCSS or a DCS          ParseTone
//	ColorCode     0 to 15              the number                ParseColorCode
//	Slot          1, 2                 the number                ParseSlot
//	GroupID       99931                24-bit address            ParseGroupID
//	RadioID       9990001              24-bit address            ParseRadioID
//	Callsign      N0QRV                the text in capitals      ParseCallsign
//	Grid          DN70vc               the text                  ParseGrid
//	MicroDegrees  -104.2               millionths of a degree    ParseLatitude, ParseLongitude
//	Power         5, 0.5               milliwatts                ParseWatts
//	Meters        30, 12.5             tenths of a meter         ParseMeters
//
// All values are exact integers or short texts, and can be compared with == and used as
// keys of a map. No float touches a frequency: two texts of one frequency (443.4 and
// 443.400) are one value, and output plus split is the input to the hertz.
//
// # Reading
//
// A parser takes the text as it stands in the plan, which is untrusted, and never panics,
// rounds or guesses. Where it fails it returns an *Error of one shape, what is wrong and
// what to write instead, with the likely intent where one can be told:
//
//	frequency "146,940" has a decimal comma; write a point: 146.940
//	frequency "146520" looks like kHz; write MHz: did you mean 146.520
//	split "5" has no sign; write +5 or -5
//	DCS code "D023" lacks its polarity; write D023N for normal or D023I for inverted
//
// A parser refuses what cannot be the value at all. What can be one and is still odd (a tone
// that no list has, a callsign of a form that the Radio Regulations do not know, a group
// number in a reserved block) is for the checks of package review; the methods
// Standard, Nearest, ITUForm, Country and Range answer their questions.
//
// # Writing
//
// String returns the form that people read, and MarshalText the form that the parser
// reads, so that JSON shows the same text as the plan. They differ only for Power and
// Meters, where String adds the unit. Where a type says that its zero value stands for
// "not given", the zero value is written as an empty text and read from one.
//
// # Sources
//
// Every table and figure names its source beside it: ITU Radio Regulations (Article 19 and
// Appendix 42), ITU-T E.212, ETSI TS 102 361-1, EIA/TIA RS-220 and TIA-603 as reprinted,
// the IARU Region 1 VHF Managers Handbook. What is a habit of the trade without a document
// says so.
package signal
