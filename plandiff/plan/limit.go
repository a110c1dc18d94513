package plan

// A Limit is one of the counts that a radio's memory sets.
type Limit uint8

// The limits that a radio may state.
const (
	LimitChannels Limit = iota
	LimitZones
	LimitChannelsPerZone
	LimitGroups
	LimitMessages
	LimitMessageLength
	LimitOperators
	LimitReceiveLists
	LimitGroupsPerReceiveList
	LimitScanLists
	LimitChannelsPerScanList
	LimitCount // how many there are
)

var limitNames = [LimitCount]string{
	"channels", "zones", "channels_per_zone", "groups", "messages", "message_length", "operators",
	"receive_lists", "groups_per_receive_list", "scan_lists", "channels_per_scan_list",
}

// String gives the limit as it is written in a plan.
func (l Limit) String() string {
	if l < LimitCount {
		return limitNames[l]
	}
	return "limit"
}
