package plan

import "regexp"

// frequency is in MHz, watt in W.
var (
	frequency = decimal{"frequency", 6, 100_000, 9_999_999_999, unsigned}
	watt      = decimal{"watts", 3, 1, 1_000_000_000, unsigned}
)

// gridForm is that of a Maidenhead locator of two to five pairs.
const gridForm = `[A-Ra-r]{2}[0-9]{2}(?:[A-Xa-x]{2}(?:[0-9]{2}(?:[A-Xa-x]{2})?)?)?`

// dateForm is that of a day of the Gregorian calendar, ISO 8601.
const dateForm = `[0-9]{4}-(?:(?:0[13578]|1[02])-(?:0[1-9]|[12][0-9]|3[01])|(?:0[469]|11)-(?:0[1-9]|[12][0-9]|30)|02-(?:0[1-9]|1[0-9]|2[0-8]))` +
	`|(?:[0-9]{2}(?:0[48]|[2468][048]|[13579][26])|(?:[02468][048]|[13579][26])00)-02-29`

// callsignSpelling is that of three to ten letters and digits, of each at least one.
func callsignSpelling() Spelling {
	return patterned("callsign", `[A-Za-z]+[0-9][A-Za-z0-9]*[A-Za-z0-9]|[A-Za-z]{2,}[0-9]|[0-9]+[A-Za-z][A-Za-z0-9]*[A-Za-z0-9]|[0-9]{2,}[A-Za-z]`, 10, nil)()
}

// bandSpelling is that of two frequencies with a hyphen; that the first is the lower one
// no pattern says.
func bandSpelling() Spelling {
	blank, f := "["+blankClass(false)+"]*", "(?:"+frequency.sizes(frequency.low, frequency.high)+")"
	return patterned("band", blank+f+blank+"-"+blank+f+blank, 0, nil)()
}

func powerSpelling() Spelling {
	s := watt.spelling()
	s.Name, s.Pattern = "power", "^(?:low|medium|high|"+watt.sizes(watt.low, watt.high)+")$"
	return s
}

func yesNoSpelling() Spelling {
	return Spelling{Name: "yes_no", Words: []string{"yes", "no", "on", "off", "true", "false"}, Truth: true}
}

// neighborsSpelling is that of a path to a neighbor list inside the plan.
func neighborsSpelling() Spelling {
	refused := hiddenClass(false) + `/\\:`
	return patterned("neighbors", `(?:[^.`+refused+`][^`+refused+`]*/)*`+regexp.QuoteMeta(NeighborsFile), maxText, nil)()
}
