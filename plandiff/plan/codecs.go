package plan

import (
	"encoding"
	"fmt"
	"strconv"

	"passband.example/plandiff/signal"
)

// The codecs of the values in a plan.
var (
	texts       = words(parseText).spelled(shown("text", maxText, false))
	notes       = words(parseNote).spelled(shown("note", maxNote, true))
	rows        = words(parseRow)
	cellTexts   = words(parseCell)
	names       = words(parseKey).spelled(keySpelling("key", keyForm))
	entries     = words(parseEntry).spelled(keySpelling("entry", entryForm))
	paths       = words(parsePath).spelled(keySpelling("path", pathForm))
	powers      = words(parsePower).spelled(powerSpelling)
	widths      = oneWord("width", "wide", "narrow")
	fmAccess    = oneWord("fm_access", "always", "channel free", "tone free")
	dmrAccess   = oneWord("dmr_access", "impolite", "polite to all", "polite to own color code")
	calls       = oneWord("call", "group", "private", "all")
	areas       = words(parseArea).spelled(patterned("area", `[A-Za-z]{2}-[A-Za-z0-9]{1,3}`, 0, nil))
	lists       = words(parseList).spelled(neighborsSpelling)
	levels      = oneWord("severity", "block", "warn", "note", "off")
	yesNos      = exact(parseYesNo, yesNo).spelled(yesNoSpelling)
	counts      = exact(parseCount, strconv.Itoa).spelled(counted("count", 0, 10_000_000))
	seconds     = exact(parseSeconds, strconv.Itoa).spelled(counted("seconds", 0, 3600))
	percents    = exact(parsePercent, strconv.Itoa).spelled(counted("percent", 1, 100))
	editions    = exact(parseEdition, strconv.Itoa).spelled(counted("edition", FirstEdition, 2999))
	dates       = printed(ParseDate).spelled(patterned("date", dateForm, 0, nil))
	bands       = printed(ParseBand).spelled(bandSpelling)
	frequencies = printed(signal.ParseMegahertz).spelled(frequency.spelling)
	splits      = printed(signal.ParseSplit).spelled(decimal{"split", 6, 1, 100_000_000, both}.spelling)
	colorCodes  = printed(signal.ParseColorCode).spelled(decimal{"color_code", 0, 0, 15, unsigned}.spelling)
	slots       = printed(signal.ParseSlot).spelled(decimal{"slot", 0, 1, 2, unsigned}.spelling)
	groupIDs    = printed(signal.ParseGroupID).spelled(decimal{"group_id", 0, 1, signal.AllCall, unsigned}.spelling)
	radioIDs    = printed(signal.ParseRadioID)
	callsigns   = exact(signal.ParseCallsign, func(c signal.Callsign) string { return string(c) }).spelled(callsignSpelling)
	grids       = exact(signal.ParseGrid, func(g signal.Grid) string { return string(g) }).spelled(patterned("grid", gridForm, 0, nil))
	latitudes   = printed(angle(signal.ParseLatitude)).spelled(decimal{"latitude", 6, -90_000_000, 90_000_000, minus}.spelling)
	longitudes  = printed(angle(signal.ParseLongitude)).spelled(decimal{"longitude", 6, -180_000_000, 180_000_000, minus}.spelling)
	heights     = exact(signal.ParseMeters, unitless).spelled(decimal{"height", 1, -5_000, 100_000, minus}.spelling)
	distances   = exact(parseDistance, unitless).spelled(decimal{"distance", 1, 0, 100_000, minus}.spelling)
	watts       = exact(signal.ParseWatts, unitless).spelled(watt.spelling)
	ratios      = exact(signal.ParseDecibels, unitless).spelled(decimal{"ratio", 2, -5_000, 10_000, minus}.spelling)
	losses      = exact(parseLoss, unitless).spelled(decimal{"loss", 2, 0, 10_000, minus}.spelling)
	tones       = codec[signal.Tone]{parse: signal.ParseTone, format: signal.Tone.String, same: signal.Tone.Same, spelling: toneSpelling}
	modes       = exact(parseMode, func(m Mode) string { return string(m) }).spelled(worded("mode", string(ModeFM), string(ModeDMR)))
	charsets    = exact(parseCharset, func(c Charset) string { return string(c) }).spelled(shown("text", maxText, false))
)

func equal[T comparable](a, b T) bool { return a == b }

func exact[T comparable](parse func(string) (T, error), format func(T) string) codec[T] {
	return codec[T]{parse: parse, format: format, same: equal[T]}
}

// printed makes the codec of a type that prints what its parser reads.
func printed[T interface {
	comparable
	String() string
}](parse func(string) (T, error)) codec[T] {
	return codec[T]{parse: parse, format: T.String, same: equal[T]}
}

func words(parse func(string) (string, error)) codec[string] {
	return exact(parse, func(s string) string { return s })
}

// oneWord makes the codec of a closed list of words.
func oneWord(name string, all ...string) codec[string] {
	return words(oneOf(all...)).spelled(worded(name, all...))
}

func parseMode(text string) (Mode, error) {
	w, err := oneOf(string(ModeFM), string(ModeDMR))(text)
	return Mode(w), err
}

func parseCharset(text string) (Charset, error) {
	if _, err := parseText(text); err != nil {
		return "", fmt.Errorf("the set of characters is not one that can be shown: %w", err)
	}
	return Charset(text), nil
}

// unitless gives a quantity as its parser reads it: without the unit, which
// the key names.
func unitless[T encoding.TextMarshaler](v T) string {
	text, _ := v.MarshalText() // never fails for these
	return string(text)
}
