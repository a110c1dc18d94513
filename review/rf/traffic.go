package rf

import (
	"math"
	"time"
)

// OfferedErlangs returns the traffic of so many calls an hour that hold a channel for so long
// each, hang time included.
func OfferedErlangs(callsPerHour float64, hold time.Duration) float64 {
	return callsPerHour * hold.Hours()
}

const mostServers = 10_000 // far more than any station has; bounds the recursion

// ErlangB returns the share of calls, 0 to 1, that find all servers busy, if calls come at random
// and give up when blocked: B(n) = A B(n-1) / (n + A B(n-1)), B(0) = 1. A net, or the answer in
// a conversation, is neither, so it is a yardstick, not a forecast. Traffic below zero, no
// server at all or more than 10,000 are a *RangeError.
//
// The two slots of a DMR repeater are not a pool of two servers, because a group lives
// on one of them: ask for each slot apart, with one server.
func ErlangB(offeredErlangs float64, servers int) (blocking float64, err error) {
	err = inRange("Erlang B",
		bound{"a traffic", offeredErlangs, 0, 1e9, "erlang"},
		bound{"a number", float64(servers), 1, mostServers, "servers"})
	if err != nil {
		return 0, err
	}
	return erlangB(offeredErlangs, servers), nil
}

func erlangB(offered float64, servers int) float64 {
	blocking := 1.0
	for n := 1; n <= servers; n++ {
		blocking = offered * blocking / (float64(n) + offered*blocking)
	}
	return blocking
}

// ErlangBTraffic returns the traffic in erlang at which the given share of calls is blocked: the
// inverse of ErlangB, as the printed tables have it. A share outside 0 to 0.99 is a
// *RangeError.
func ErlangBTraffic(servers int, blocking float64) (offeredErlangs float64, err error) {
	err = inRange("Erlang B",
		bound{"a number", float64(servers), 1, mostServers, "servers"},
		bound{"a blocking", blocking, 0, 0.99, "of calls"})
	if err != nil || blocking == 0 {
		return 0, err
	}
	most := float64(servers) / (1 - blocking) // what is carried, A (1-B), is at most one erlang a server
	miss := func(offered float64) float64 { return erlangB(offered, servers) - blocking }
	return between(0, -blocking, most, math.Max(miss(most), 0), most*blocking, miss), nil
}
