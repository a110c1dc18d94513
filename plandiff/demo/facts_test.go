package demo_test

// Facts from outside the project that the demo must agree with.

// outputs are the blocks of the US national band plan (ARRL) where repeaters transmit, with the
// split that members use there, as drawn in an open teaching diagram of the plan; for 2 m also
// question T2A01 and for 70 cm T2A03 of the NCVEC Technician pool 2026-2030. In Hz.
var outputs = []struct{ low, high, split int64 }{
	{145_200_000, 145_500_000, -600_000},
	{146_610_000, 146_970_000, -600_000},
	{147_000_000, 147_390_000, +600_000},
	{223_850_000, 224_980_000, -1_600_000},
	{442_000_000, 445_000_000, +5_000_000},
}

// voice is where a US Technician may send FM and DMR voice. In Hz.
// Source: 47 CFR 97.301(a), 97.305(c); 144.0-144.1 is for Morse telegraphy, 97.305(a).
var voice = []struct{ low, high int64 }{
	{144_100_000, 148_000_000},
	{222_000_000, 225_000_000},
	{420_000_000, 450_000_000},
}

// noRepeater is where a US repeater may neither receive nor transmit. In Hz.
// Source: 47 CFR 97.205(b).
var noRepeater = []struct{ low, high int64 }{
	{144_000_000, 144_500_000},
	{145_500_000, 146_000_000},
	{222_000_000, 222_150_000},
	{431_000_000, 433_000_000},
	{435_000_000, 438_000_000},
}

// simplexBlocks are where the US national band plan puts FM simplex; the 70 cm block is shared
// by local option. In Hz. Source: US national band plan (ARRL), as above.
var simplexBlocks = []struct{ low, high int64 }{
	{146_400_000, 146_580_000},
	{147_420_000, 147_570_000},
	{223_400_000, 223_520_000},
	{445_000_000, 447_000_000},
}

// calling are the FM calling frequencies. In Hz. Source: 146.52, NCVEC Technician pool 2026-2030
// T2A02; 446.0, US national band plan (ARRL); 223.5, from memory.
var calling = map[string]int64{
	"calling-2m":   146_520_000,
	"calling-70cm": 446_000_000,
	"calling-125":  223_500_000,
}

// weather are the seven broadcast frequencies, in Hz.
// Source: US National Weather Service, NWR frequencies page.
var weather = []int64{162_400_000, 162_425_000, 162_450_000, 162_475_000, 162_500_000, 162_525_000, 162_550_000}

// tones are the CTCSS tones in decihertz. Source: EIA/TIA RS-220 (TIA-603) groups A, B and C,
// as reprinted in section 2.4 of a land-mobile radio installation manual.
var tones = []int{
	670, 719, 744, 770, 797, 825, 854, 885, 915, 948, 1000, 1035, 1072, 1109, 1148, 1188, 1230, 1273, 1318,
	1365, 1413, 1462, 1514, 1567, 1622, 1679, 1738, 1799, 1862, 1928, 2035, 2107, 2181, 2257, 2336, 2418, 2503,
}

// The widths of the emissions, in Hz. Source: 2(D+M), Carson's rule as in 47 CFR 2.202(g), with
// 5 and 2.5 kHz deviation and 3 kHz audio; for DMR the designator 7K60FXE (from memory).
const (
	wideFM   = 16_000
	narrowFM = 11_000
	dmrWidth = 7_600
)

// lastGroup is the highest number that a group or a radio may have.
// Source: ETSI TS 102 361-1 annex A table A.1, read second-hand: FFFCDF hex.
const lastGroup = 16_776_415
