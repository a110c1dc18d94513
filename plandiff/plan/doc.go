// Package plan holds a club's channel plan: the model, reading it from text
// with the place of every value, and expanding it into the channels that a
// radio needs.
//
// # What a plan is
//
// A plan is a folder of text files. The file plan.yaml marks its root. Any
// other file below it that ends in .yaml or .yml may hold any section; a table
// of operators stands in operators.csv, one of neighbors in neighbors.csv. Files and folders whose name begins
// with a dot are left alone, and so is a folder with a plan.yaml of its own:
// that is another plan.
//
// The keys of plan.yaml that stand nowhere else:
//
//	plan: Harrow Valley Repeater Group   # the name of the plan
//	edition: 2026                        # which year's rules may block
//	region: US                           # which license tables apply
//	license: technician                  # the lowest class it must be legal for
//	area: US-AL                          # whose distances apply; need not be
//	neighbors: neighbors.csv             # the neighbor list; need not be
//
// Every section is a mapping from a key to a record. Keys are identities: lower-case
// letters, digits and hyphens. The order of keys in a mapping means nothing; the
// order of a list does.
//
// A record that gets a new key is recognised by what it is. Where much else changes with
// the key, say so for as long as the change is under review, and take it out after the
// merge: rock: {was: ridge, ...}. Repeaters, groups, receive lists, channels, zones, scan
// lists and radios may say it.
//
// # Repeaters
//
//	repeaters:
//	  ridge:
//	    label: Ridge                # first in channel labels; or the key
//	    callsign: N0QRV
//	    output: 444.325             # MHz, what members hear
//	    split: +5                   # MHz, with its sign; or input: 449.325
//	    fm: {tone: 103.5}           # there is an FM side; the tone members send
//	    dmr:                        # there is a DMR side
//	      color_code: 4
//	      slot1: [statewide, tri-county]
//	      slot2: [local]
//	    site: {grid: DN70, lat: 40.1, lon: -104.2, height_m: 30, erp_w: 50}
//	    when: The net on Mondays at 19:00   # for newcomers, on their cards
//	    note: Coordinated 2024-03
//
// A tone is a CTCSS frequency in hertz or a DCS code with its polarity (D023N,
// D023I). Where the repeater sends another tone than it hears, or a member needs
// one to open the squelch: tone: {send: 103.5, receive: D023N}.
//
// The fm side may also say width (wide, the default, or narrow) and access
// (always, channel free, tone free). The dmr side may also say receive_list
// (see below) and access, in the words of ETSI TS 102 361: impolite, polite to
// all, polite to own color code; and privacy: yes where its channels encode speech so
// that others can't hear it, which amateur radio does not allow. A repeater may say
// power, timeout_s and scan_list for all its channels.
//
// A site may also say from what its radiated power comes: power_w of the transmitter,
// gain_dbd of the antenna over a half-wave dipole, loss_db of all lines and filters between.
// duty_percent is the share of the time that it sends, where that was measured; people_m is the
// nearest that anybody can come to the antenna, in meters. Exposure arithmetic uses them.
//
// # Coordination
//
// What a frequency coordinator remarked about a repeater, and about whom:
//
//	coordination:
//	  ridge-knob:
//	    repeater: ridge
//	    with: N0QRX   # the other party: a callsign, or a repeater by its key
//	    by: Front Hills Coordinators
//	    date: 2024-03-12
//	    text: the pass lies between them, 70 mi are enough
//
// A repeater may have several. A warning about that pair becomes a note that quotes the
// remark; without with, so do those about the repeater and whomever.
//
// # Neighbors
//
// A neighbor list holds the repeaters that others answer for: a file neighbors.csv, beside
// plan.yaml or in a folder of the plan, which counts where the key neighbors names it. Its
// first line names its columns, in any order; only output is needed:
//
//	callsign,label,output,input,tone,color_code,lat,lon,source,date
//	N0QRX,Knob,146.940,146.340,103.5,,40.52,-104.91,council list,2026-03-01
//
// Further columns are grid, height_m, erp_w, and split in the place of input. A row with a
// color_code is a DMR repeater; with a tone, or without either, an FM one. A row without
// coordinates or grid is not compared. A change is held against the rows that it takes out, too.
//
// # Groups and receive lists
//
//	groups:
//	  statewide: {id: 99931, label: State, when: To reach the other valleys}
//	  control:   {id: 9990001, label: Ctrl, call: private}   # or group, all
//	  local:     {id: 99911, busy_hour: {calls: 12, seconds: 20}}
//
//	receive_lists:
//	  emergency: {label: Emerg, groups: [statewide, local]}
//
// busy_hour says how many calls a group has in its busy hour, and how long each holds the
// slot on average, hang time included; where it is known.
//
// What a DMR channel listens for besides its own group is its receive_list:
// slot (the default: all groups of its slot), repeater (all that the repeater
// carries), none, or the key of a receive list.
//
// # Talk paths and channels
//
// A talk path is one way for a voice to travel: ridge/fm, ridge/1/statewide
// (repeater, time slot, group), or a simplex channel, which is named by its key.
// Every talk path of a repeater becomes a channel without a word being written.
// The section channels holds what is not on a repeater, and what is special:
//
//	channels:
//	  calling-2m: {label: Call 2m, simplex: 146.52, fm: {}}
//	  hot-spot:
//	    label: Hotspot
//	    simplex: 433.45
//	    dmr: {color_code: 1, slot: 1, group: local}
//	  weather-1:  {label: WX 1, receive: 162.55, fm: {}}       # never transmits
//	  net:        {label: Net, path: ridge/1/statewide, power: high}
//
// A channel with a path stands in the place of the one that passband would have
// made for that talk path; two channels may share a path (one at low power, say).
// transmit: no makes a path channel listen only. Other keys: power (low, medium,
// high or watts), timeout_s (seconds), scan_list, when, note.
//
// When to use a channel is said by when: of the channel, else of its group, else of
// its repeater. It stands on the cards that passband card prints for newcomers; no
// radio holds it.
//
// # Zones and scan lists
//
//	zones:
//	  valley: {label: Valley, channels: [ridge/fm, ridge/1/*, calling-2m]}
//	  travel: {label: Travel, channels: [zone:valley, "*/*/statewide"]}
//
//	scan_lists:
//	  hills: {channels: [ridge/fm, calling-2m], priority: calling-2m}
//
// An entry is the key of a channel, a talk path, a talk path with * for any
// repeater, slot or group, or zone: and the key of another zone, whose channels
// stand in at that place. A channel reached twice counts once, at its first place.
//
// # Messages, shortcuts, radios
//
//	messages:
//	  late: "Running late, start the net without me"
//
//	shortcuts: {1: statewide, 2: local, 9: N0QRV}   # a group, or an operator
//
//	radios:
//	  pocket:
//	    label: Pocket
//	    bands: [144-148, 420-450]     # MHz
//	    modes: [fm, dmr]
//	    label_length: 12              # characters
//	    characters: ascii             # latin-1, unicode, or a set "A-Z0-9 -"
//	    zones: [valley, travel]       # all zones if left out
//	    limits:
//	      {channels: 1000, zones: 150, channels_per_zone: 16, groups: 256,
//	       messages: 32, message_length: 140, operators: 1000,
//	       receive_lists: 64, groups_per_receive_list: 16,
//	       scan_lists: 64, channels_per_scan_list: 32}
//
// A radio carries the channels of its zones and scan lists that fit its bands and
// modes. A limit that is left out is not checked.
//
// # Operators
//
// operators.csv has the columns id, callsign and name. One person may use one
// radio ID on several radios; two people may not share one.
//
// # The club's own license rows
//
// license.csv beside plan.yaml adds rows to the license tables of the region: what the
// club does not want to use, or what its law allows and the tables lack. Lines that begin
// with # are left out, and it has at most 200 rows. Its first line is these names, joined by
// commas:
//
//	classes       the license classes, joined by |; empty: everybody
//	service       amateur
//	station       empty: every station; repeater (what it hears and sends),
//	              repeater-output, auxiliary or beacon: that kind alone
//	place         empty: everywhere
//	low_mhz       lower edge in MHz
//	high_mhz      upper edge in MHz
//	transmit      yes; no, which wins over every row it overlaps; or permit:
//	              with a permission of one's own
//	emissions     all, or words joined by |: CW, phone-analog, phone-digital,
//	              phone-ssb, phone, digital, data, image
//	max_width_hz  occupied width in Hz; empty: no number
//	max_power_w   power in W; empty: no number
//	power_kind    what that measures: PEP, carrier, mean, ERP, EIRP or unstated
//	condition     what else must hold
//	source        the document and section
//	edition       which text of it
//	confidence    read, part or memory
//	note          what else to know
//
// This row keeps members off a part of the 2 m band:
//
//	,amateur,,,145.8,146,no,all,,,,,club decision,2026,read,for satellites
//
// # The distances that the club's coordinator asks
//
// separation.csv beside plan.yaml lays rows over the separation table of the area: how far
// apart two repeaters must be that use one frequency, or frequencies so far from each other.
// Lines that begin with # are left out, and it has at most 200 rows. Its first line is these
// names, joined by commas:
//
//	region        whose rows they are, in a few words
//	band          2m, 70cm and so on
//	spacing_hz    between two outputs or two inputs, in Hz: this or more, up
//	              to the next row, at most 100000; 0 for the same frequency
//	required      the distance with its unit: 100 mi or 161 km; 0 mi asks
//	              nothing from there on
//	applies       any; fm: both FM; tones: both FM with different tones;
//	              dmr: both DMR; mixed: DMR beside FM
//	source        who asks it, and where that is written
//	confidence    read, derived (from rows that were read) or memory
//	note          what else to know
//
// As in:
//
//	region,band,spacing_hz,required,applies,source,confidence,note
//	our valley,2m,0,60 mi,any,decision of the council,read,
//
// # Policy
//
//	review:
//	  severity: {label-too-long: block}      # rule: block, warn, note or off
//	  accept:
//	    - rule: group-on-both-slots
//	      at: ridge                      # the key of what the finding is about
//	      until: 2027-06-01
//	      reason: agreed with the owner
//
// # What is refused
//
// A file is UTF-8 text without control characters, at most 16 MB of
// YAML or 64 MB of CSV, and no link. A value is its text as written: 023,
// 1e3, yes and 2024-03-01 are no numbers, truths or dates unless their key asks
// for one. Of YAML, tags (!), merge keys (<<) and a second document are refused;
// an alias (*) stands for the value that it names. Labels and notes hold no
// characters that nobody sees. Each limit is told when it is reached, and so are at
// most 1000 problems.
//
// # The flow
//
// Load turns an fs.FS into a Plan and a list of Problems, all of them at once.
// Expand turns a Plan into an Expansion: talk paths, channels, zones and lists,
// and for each radio what fits it. Every value knows its file, line and column;
// every channel knows the lines that caused it.
//
// A plan is data. Nothing in it is executed, and no link in it is followed.
// The package does not judge: what is wrong with a plan that can be read is the
// business of package review.
package plan
