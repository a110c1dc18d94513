package plan

// Blocks of keys that a record does not have. Most records have one or two of the blocks that
// they may have, and a block that nobody wrote takes no room in them.
var (
	absentFM          = new(FM)
	absentRepeaterDMR = new(RepeaterDMR)
	absentChannelDMR  = new(ChannelDMR)
	absentSite        = new(Site)
	absentExtra       = new(Extra)
)

func newRepeater() *Repeater {
	return &Repeater{FM: absentFM, DMR: absentRepeaterDMR, Site: absentSite, Extra: absentExtra}
}

func newChannelSpec() *ChannelSpec {
	return &ChannelSpec{FM: absentFM, DMR: absentChannelDMR, Extra: absentExtra}
}

// blockOf says that the fields stand in a block of keys, and where a record holds the block
// and what stands there while it is absent.
func blockOf[R Record, B any](block func(R) **B, absent *B, fields ...Field) []Field {
	present := func(r Record) {
		if at := block(r.(R)); *at == absent {
			*at = new(B)
		}
	}
	for i := range fields {
		fields[i].into(present)
	}
	return fields
}
