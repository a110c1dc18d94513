package plan

import (
	"encoding"
	"fmt"
	"strconv"

	"passband.example/plandiff/signal"
)

// The codecs of the values in a plan.
var (
	texts       = words(parseText)
	notes       = words(parseNote)
	rows        = words(parseRow)
	cellTexts   = words(parseCell)
	names       = words(parseKey)
	entries     = words(parseEntry)
	paths       = words(parsePath)
	powers      = words(parsePower)
	widths      = words(oneOf("wide", "narrow"))
	fmAccess    = words(oneOf("always", "channel free", "tone free"))
	dmrAccess   = words(oneOf("impolite", "polite to all", "polite to own color code"))
	calls       = words(oneOf("group", "private", "all"))
	areas       = words(parseArea)
	lists       = words(parseList)
	levels      = words(oneOf("block", "warn", "note", "off"))
	yesNos      = exact(parseYesNo, yesNo)
	counts      = exact(parseCount, strconv.Itoa)
	seconds     = exact(parseSeconds, strconv.Itoa)
	percents    = exact(parsePercent, strconv.Itoa)
	editions    = exact(parseEdition, strconv.Itoa)
	dates       = printed(ParseDate)
	bands       = printed(ParseBand)
	frequencies = printed(signal.ParseMegahertz)
	splits      = printed(signal.ParseSplit)
	colorCodes  = printed(signal.ParseColorCode)
	slots       = printed(signal.ParseSlot)
	groupIDs    = printed(signal.ParseGroupID)
	radioIDs    = printed(signal.ParseRadioID)
	callsigns   = exact(signal.ParseCallsign, func(c signal.Callsign) string { return string(c) })
	grids       = exact(signal.ParseGrid, func(g signal.Grid) string { return string(g) })
	latitudes   = printed(signal.ParseLatitude)
	longitudes  = printed(signal.ParseLongitude)
	heights     = codec[signal.Meters]{signal.ParseMeters, unitless[signal.Meters], equal[signal.Meters]}
	watts       = codec[signal.Power]{signal.ParseWatts, unitless[signal.Power], equal[signal.Power]}
	ratios      = codec[signal.Decibels]{signal.ParseDecibels, unitless[signal.Decibels], equal[signal.Decibels]}
	losses      = codec[signal.Decibels]{parseLoss, unitless[signal.Decibels], equal[signal.Decibels]}
	tones       = codec[signal.Tone]{signal.ParseTone, signal.Tone.String, signal.Tone.Same}
	modes       = codec[Mode]{parseMode, func(m Mode) string { return string(m) }, equal[Mode]}
	charsets    = codec[Charset]{parseCharset, func(c Charset) string { return string(c) }, equal[Charset]}
)

func equal[T comparable](a, b T) bool { return a == b }

func exact[T comparable](parse func(string) (T, error), format func(T) string) codec[T] {
	return codec[T]{parse, format, equal[T]}
}

// printed makes the codec of a type that prints what its parser reads.
func printed[T interface {
	comparable
	String() string
}](parse func(string) (T, error)) codec[T] {
	return codec[T]{parse, T.String, equal[T]}
}

func words(parse func(string) (string, error)) codec[string] {
	return exact(parse, func(s string) string { return s })
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
