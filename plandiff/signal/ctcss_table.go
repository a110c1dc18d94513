package signal

import "slices"

// standardCTCSS is the 37 tones of EIA/TIA RS-220, which TIA-603 took over, as
// reprinted in a land-mobile radio installation manual, and 97.4 Hz, the 38th of many
// lists.
var standardCTCSS = [38]CTCSS{
	670, 719, 744, 770, 797, 825, 854, 885, 915, 948,
	974, 1000, 1035, 1072, 1109, 1148, 1188, 1230, 1273, 1318,
	1365, 1413, 1462, 1514, 1567, 1622, 1679, 1738, 1799, 1862,
	1928, 2035, 2107, 2181, 2257, 2336, 2418, 2503,
}

// addedCTCSS is the 12 tones that make 50 of the standard 38, as in the list
// COMMON_CTCSS_LIST of Hamlib's src/tones.h.
var addedCTCSS = [12]CTCSS{
	693, 1598, 1655, 1713, 1773, 1835, 1899, 1966, 1995, 2065, 2291, 2541,
}

// StandardCTCSS returns the 38 standard tones from the lowest up: the 37 of EIA/TIA
// RS-220 and 97.4 Hz. Any two of them are at least 2.6 % apart.
func StandardCTCSS() []CTCSS { return slices.Clone(standardCTCSS[:]) }

// CommonCTCSS returns the 50 tones that amateur radios usually offer, from the lowest
// up: StandardCTCSS and 12 more. Some lie within 1.5 % of a neighbor, which is closer
// than a decoder can be trusted to tell apart. Source: the list COMMON_CTCSS_LIST of
// Hamlib's src/tones.h.
func CommonCTCSS() []CTCSS {
	tones := slices.Concat(standardCTCSS[:], addedCTCSS[:])
	slices.Sort(tones)
	return tones
}
