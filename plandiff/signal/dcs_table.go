package signal

// standardDCS is the 104 codes that amateur radios usually offer, from the lowest up: the
// 83 of TIA-603-E and 21 more, as listed in Hamlib's src/tones.h.
var standardDCS = [104]uint16{
	0o023, 0o025, 0o026, 0o031, 0o032, 0o036, 0o043, 0o047, 0o051, 0o053,
	0o054, 0o065, 0o071, 0o072, 0o073, 0o074, 0o114, 0o115, 0o116, 0o122,
	0o125, 0o131, 0o132, 0o134, 0o143, 0o145, 0o152, 0o155, 0o156, 0o162,
	0o165, 0o172, 0o174, 0o205, 0o212, 0o223, 0o225, 0o226, 0o243, 0o244,
	0o245, 0o246, 0o251, 0o252, 0o255, 0o261, 0o263, 0o265, 0o266, 0o271,
	0o274, 0o306, 0o311, 0o315, 0o325, 0o331, 0o332, 0o343, 0o346, 0o351,
	0o356, 0o364, 0o365, 0o371, 0o411, 0o412, 0o413, 0o423, 0o431, 0o432,
	0o445, 0o446, 0o452, 0o454, 0o455, 0o462, 0o464, 0o465, 0o466, 0o503,
	0o506, 0o516, 0o523, 0o526, 0o532, 0o546, 0o565, 0o606, 0o612, 0o624,
	0o627, 0o631, 0o632, 0o654, 0o662, 0o664, 0o703, 0o712, 0o723, 0o731,
	0o732, 0o734, 0o743, 0o754,
}

// StandardDCS returns the 104 codes that amateur radios usually offer, in normal polarity
// and from the lowest up. No two are the same signal, and the inverse of each is among
// them under another code. Source: the list of 104 in Hamlib's src/tones.h.
func StandardDCS() []DCS {
	codes := make([]DCS, 0, len(standardDCS))
	for _, code := range standardDCS {
		codes = append(codes, DCS{Code: code})
	}
	return codes
}
