package plan

import "unicode/utf8"

// uses counts what the radio holds against each of its limits.
func (e *expander) uses(f *Fit, longest Use) []Use {
	p := e.plan()
	uses := make([]Use, LimitCount)
	for limit := range LimitCount {
		stated := f.Radio.Limits[limit]
		uses[limit] = Use{Limit: limit, Most: stated.Or(0), At: stated.At}
		if !stated.IsSet() {
			uses[limit].At = f.Radio.Place()
		}
	}
	uses[LimitChannels].Used = len(f.Channels)
	uses[LimitZones].Used = len(f.Zones)
	uses[LimitGroups].Used = len(f.Groups)
	uses[LimitMessages].Used = p.Messages.Len()
	uses[LimitOperators].Used = p.Operators.Len()
	uses[LimitReceiveLists].Used = f.Lists
	uses[LimitScanLists].Used = len(f.ScanLists)
	for _, z := range f.Zones {
		uses[LimitChannelsPerZone].most(len(z.Channels), z.Zone.Thing())
	}
	for _, s := range f.ScanLists {
		uses[LimitChannelsPerScanList].most(len(s.Channels), s.List.Thing())
	}
	uses[LimitMessageLength].most(longest.Used, longest.Who)
	if f.LongOf != nil {
		uses[LimitGroupsPerReceiveList].most(f.LongList, f.LongOf.Thing())
	}
	return uses
}

// longestMessage counts the characters of the longest message.
func (e *expander) longestMessage() Use {
	var longest Use
	for _, m := range e.plan().Messages.Sorted() {
		longest.most(utf8.RuneCountInString(m.Text.V), m.Thing())
	}
	return longest
}

// most keeps the largest of many counts and what has it.
func (u *Use) most(n int, who Thing) {
	if n > u.Used {
		u.Used, u.Who = n, who
	}
}
