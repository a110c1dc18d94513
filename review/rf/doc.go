// Package rf computes the radio side of a plan: how far apart stations are, whether that is as far as
// coordinators ask, what transmitters of one hill mix to, which pairs are worth asking for,
// how busy a slot is, how long a scan takes, and at what distance an antenna meets exposure
// limits. It is arithmetic with its sources, for rules to speak from; it knows nothing of plans.
//
// What it finds is worth a warning or a note, never more. Terrain is not in it. The local
// frequency coordinator, local law and the license holder have the last word.
//
// # Distance
//
//	way := rf.Geodesic(ridge, knob)          // signal.Position, WGS 84
//	way.Meters, way.Bearing                  // 117096.9, 319.6
//
// A locator names a cell, not a point. A Place carries how far it may be off, Distance returns an
// Interval, and a comparison answers Yes, No or CannotTell:
//
//	d := rf.Distance(rf.PlaceOf("DN70"), rf.Place{At: hill})
//	d.NearerThan(160_934)                    // cannot tell from a locator
//
// RadioHorizon, FreeSpaceLoss, EgliLoss, ServiceRadius and EdgeRatio estimate; RadiatedWatts and its
// neighbors turn power, gain and loss into ERP. A formula that is asked outside the
// range in which it holds returns a *RangeError, and no number.
//
// # Separation
//
//	table := rf.Separations("US-AL", own)    // own: rows from ReadRows, or nil
//	review := table.Review(stations)         // []Station, ours and neighbors
//	for _, c := range review.Conflicts {     // the gravest first
//		c.Kind, c.Short, c.Access            // co-channel, yes, the same access tone
//		c.Distance.Least, c.Row.RequiredM    // the two distances, in meters
//		c.Row.Cite()                         // who asks
//	}
//	review.Unplaced, review.Unasked          // what was not looked at
//
// The table is CSV; lines that begin with # are left out. A club's own file has the same columns:
//
//	region       US-AL (ISO 3166-2), or any; in a club's own file only a label
//	band         2m, 70cm ..., or any
//	spacing_hz   between two outputs or two inputs: this or more, up to the next row; at most 100000
//	required     distance with its unit, as in 100 mi or 161 km; 0 mi asks nothing from here on
//	applies      any; fm: both FM; tones: both FM with different tones; dmr: both DMR; mixed: DMR
//	             beside FM. shared and one-system are kept for reference, never applied
//	source       who asks, as a finding is to name it
//	confidence   read, derived (from rows that were read), memory
//	note         what else the source says
//
// Rows are laid over each other: the proposed defaults, the country's, the region's, the club's. A row
// replaces one below it with the same band and spacing, and a row that asks 0 ends the table there.
//
// # Mixing products
//
//	sites, unsure := rf.Sites(places, rf.OneSiteM)
//	mix, err := rf.Mixing(transmit, receive) // signal.Hertz; Receiver
//	mix.Products[0].Formula(transmit)        // 2 x 146.940 - 147.330 = 146.550
//
// Frequencies are whole hertz throughout, so a hit is a hit.
//
// # Pairs to ask for
//
//	choice := table.Choose(rf.Wish{Station: here, Pairs: rf.Raster(...), Stations: stations, Allowed: law})
//	choice.Candidates[0].Reasons
//
// Allowed is where the caller asks its license tables and band plan.
//
// # Traffic, scanning, exposure
//
// ErlangB is asked for each slot with one server: two slots are not a pool of two. Scan returns its
// assumptions with its result. Expose is arithmetic, not an evaluation and never a clearance:
// print ExposureNotice with it.
//
// # What is not here
//
// Terrain, coverage maps, receiver images, desensitization, mixing products of even or of seventh
// order, assignment of channels to a whole plan. A distance between two cells is the distance of
// their centers with the half diagonals of both, so an interval is sometimes wider than it must be.
// The defaults of separation rest on US councils alone, and exposure rules on the US, with
// ICNIRP's public limits of 1998 from memory.
//
// # How it is checked
//
// Every published value of the reference lists is a test row, or named there with the reason why it is
// not built (go test -v prints published, ours and the difference): the geodesics against 683 pairs of the library geographiclib-geodesic, Egli's loss
// against Rec. ITU-R P.1546-6, Erlang B and exposure against printed tables. Review, Mixing and Sites
// have oracles that try everything.
package rf
