package plan

import (
	"fmt"
	"slices"
	"strings"

	"passband.example/plandiff/plan/tree"
	"passband.example/plandiff/signal"
)

// hint says what to write in the place of a key that is not known.
func hint(key string, known []string) string {
	if isDigits(key) {
		return "if it is the rest of a number, write the number with a point"
	}
	if word, _, several := strings.Cut(key, " "); several && slices.Contains(known, word) {
		return "write a colon behind " + word
	}
	if numbered := numberedAs(key, known); len(numbered) > 1 {
		return "write " + strings.Join(numbered, " or ")
	}
	if near := Nearest(key, known); near != "" {
		return "did you mean " + near + "?"
	}
	return "the keys here are: " + strings.Join(known, ", ")
}

// numberedAs gives the keys that differ from one in their number alone: of slot3 and slot
// these are slot1 and slot2, and nobody knows which is meant.
func numberedAs(key string, known []string) []string {
	word := strings.TrimRight(key, "0123456789")
	var all []string
	for _, k := range known {
		if rest, ok := strings.CutPrefix(k, word); ok && isDigits(rest) {
			all = append(all, k)
		}
	}
	return all
}

// hint says what to write in the place of a key that the layout does not know, by its value
// too: a locator has one key. A key may be known one step further in.
func (lay *layout) hint(key string, value tree.Node) string {
	if locator := lay.locator(value); locator != "" {
		return "write grid: " + locator
	}
	var within []string
	for _, block := range lay.keys {
		if inner := lay.of[block].block; inner != nil && slices.Contains(inner.keys, key) {
			within = append(within, block+": {"+key+": ...}")
		}
	}
	if len(within) > 0 {
		return "it stands within another key: write " + strings.Join(within, " or ")
	}
	return hint(key, lay.keys)
}

// locator gives the text of a value that is a locator, where the layout has a key for one.
func (lay *layout) locator(value tree.Node) string {
	if lay.of["grid"].field == nil || value.Kind() != tree.Scalar {
		return ""
	}
	if _, err := signal.ParseGrid(value.Value()); err != nil {
		return ""
	}
	return value.Value()
}

// mostShown is how many keys of a block a hint shows.
const mostShown = 3

// instead says what to write where a block of keys has a single value or a list in their
// place; nothing where it has neither. Some blocks may be empty.
func (lay *layout) instead(key string, empty bool, value tree.Node) string {
	single := value.Kind() == tree.Scalar && !value.IsNull()
	if _, tagged := value.Tag(); tagged || !single && value.Kind() != tree.Sequence {
		return ""
	}
	if locator := lay.locator(value); locator != "" {
		return "write " + key + ": {grid: " + locator + "}"
	}
	var keys []string
	for _, k := range lay.keys[:min(mostShown, len(lay.keys))] {
		keys = append(keys, k+": ...")
	}
	if len(lay.keys) > mostShown {
		keys = append(keys, "...")
	}
	fix := "write its keys, as in " + key + ": {" + strings.Join(keys, ", ") + "}"
	if empty {
		fix += ", or " + key + ": {} where there is nothing to say"
	}
	return fix
}

// angle reads a coordinate, and says where a locator belongs.
func angle(parse func(string) (signal.MicroDegrees, error)) func(string) (signal.MicroDegrees, error) {
	return func(text string) (signal.MicroDegrees, error) {
		v, err := parse(text)
		if err == nil {
			return v, nil
		}
		if _, no := signal.ParseGrid(text); no == nil {
			return 0, fmt.Errorf("%q is a locator; write grid: %s in the place of lat and lon", text, text)
		}
		return 0, err
	}
}
