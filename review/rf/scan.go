package rf

import (
	"math"
	"time"

	"passband.example/plandiff/signal"
)

// ScanTimes are the assumptions of a scan estimate. Radios differ, and no maker's figure is behind
// them, so a finding prints them with its result.
type ScanTimes struct {
	Carrier time.Duration // to see whether a channel has a carrier
	Tone    time.Duration // more, to tell whether an FM carrier has the right tone
	Address time.Duration // more, to read the address of a DMR call
}

// UsualScanTimes are 50 ms for a carrier and 250 ms for a tone (common practice, no source), and 360 ms
// for an address: a group's address is sent once a superframe (ETSI TS 102 361-1).
func UsualScanTimes() ScanTimes {
	return ScanTimes{Carrier: 50 * time.Millisecond, Tone: 250 * time.Millisecond, Address: 360 * time.Millisecond}
}

// ScanChannel is one channel of a scan list.
type ScanChannel struct {
	Receive signal.Hertz
	DMR     bool
	Slot    signal.Slot // of a DMR channel; 0 otherwise
	Tone    bool        // of an FM channel: the radio waits for a tone

	// Others is the share of time, 0 to 1, that the channel carries something not meant for this
	// radio, hang time included. Outside of that it counts as the nearer end.
	Others float64
}

// decide is how long the radio stays on a carrier to find out whether it is meant.
func (t ScanTimes) decide(c ScanChannel) time.Duration {
	switch {
	case c.DMR:
		return t.Address
	case c.Tone:
		return t.Tone
	default:
		return 0
	}
}

// share brings a share to 0 to 1; what is not a number counts as 0.
func share(x float64) float64 {
	if !(x > 0) {
		return 0
	}
	return math.Min(x, 1)
}

// ScanEstimate is how long a list takes.
type ScanEstimate struct {
	Sweep     time.Duration // once around, on average
	MeanWait  time.Duration // until a call that starts at random is heard
	WorstWait time.Duration
	Times     ScanTimes // what it assumes
}

// Scan estimates how long a radio takes to sweep a list and to hear a call on it:
//
//	sweep = sum of (carrier + others x time to decide)
//
// The wait is half a sweep on average and a whole one at worst, plus the longest time to decide.
// It leaves out what a priority channel and a rest on a call add.
func Scan(channels []ScanChannel, times ScanTimes) ScanEstimate {
	e := ScanEstimate{Times: times}
	var decide time.Duration
	for _, c := range channels {
		own := times.decide(c)
		e.Sweep += times.Carrier + time.Duration(share(c.Others)*float64(own))
		decide = max(decide, own)
	}
	e.MeanWait, e.WorstWait = e.Sweep/2+decide, e.Sweep+decide
	return e
}

// Missed returns the share, 0 to 1, of calls of the given length that are over before the sweep
// comes by: max(0, 1 - length/sweep).
func (e ScanEstimate) Missed(call time.Duration) float64 {
	if e.Sweep <= 0 {
		return 0
	}
	return share(1 - float64(call)/float64(e.Sweep))
}

// Resting returns the share of time, 0 to 1, in which a scan that rests on every call it finds hears
// nothing of one channel, since it rests on another: 1 - product of (1 - busy). busy has the
// share of time that each of the other channels holds the scan, hang time included.
func Resting(busy []float64) float64 {
	free := 1.0
	for _, b := range busy {
		free *= 1 - share(b)
	}
	return 1 - free
}

// OneCarrier returns the groups of channels, two or more, that look at one carrier: the same receive
// frequency, and the same slot of it for DMR. A receive list on one of them hears the DMR
// groups at once, and the sweep is shorter by all but one of each.
func OneCarrier(channels []ScanChannel) [][]int {
	type carrier struct {
		f    signal.Hertz
		dmr  bool
		slot signal.Slot
	}
	members := map[carrier][]int{}
	var order []carrier
	for i, c := range channels {
		key := carrier{c.Receive, c.DMR, c.Slot}
		if len(members[key]) == 0 {
			order = append(order, key)
		}
		members[key] = append(members[key], i)
	}
	var groups [][]int
	for _, key := range order {
		if len(members[key]) > 1 {
			groups = append(groups, members[key])
		}
	}
	return groups
}
