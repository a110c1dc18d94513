package post

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"sync"
)

// A Side is the side of a diff that a comment stands on.
type Side uint8

// The sides.
const (
	NewSide Side = iota // added lines, and those shown around them
	OldSide             // lines that are gone
)

// A DiffLine is a line that a diff shows, with its number in each file, counted
// from 1; 0 where the file does not have it.
type DiffLine struct{ Old, New int32 }

// A Hunk is a run of lines that a diff shows together.
type Hunk []DiffLine

// has reports whether a line of one side is shown.
func (h Hunk) has(side Side, line int32) bool {
	for _, l := range h {
		if side == NewSide && l.New == line || side == OldSide && l.Old == line && l.New == 0 {
			return line > 0
		}
	}
	return false
}

// whole reports whether the lines from one to another of the new file are shown,
// with none between them that is gone.
func (h Hunk) whole(from, to int32) bool {
	next := from
	for _, l := range h {
		switch {
		case l.New == next:
			next++
		case l.New == 0 && next > from && next <= to:
			return false
		}
	}
	return from > 0 && from <= to && next > to
}

var hunkHead = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`^@@ -(\d+)(?:,(\d+))? \+(\d+)(?:,(\d+))? @@`)
})

// ParsePatch reads the hunks of one file in a unified diff, as git writes it and
// GitHub gives it for each file. Lines before the first hunk are skipped.
func ParsePatch(patch string) ([]Hunk, error) {
	var hunks []Hunk
	var old, new, oldEnd, newEnd int32
	for line := range strings.Lines(patch) {
		open := old < oldEnd || new < newEnd
		if head := hunkHead().FindStringSubmatch(line); head != nil && !open {
			var err error
			if old, oldEnd, new, newEnd, err = hunkSpan(head); err != nil {
				return nil, err
			}
			hunks = append(hunks, nil)
			continue
		}
		if !open || strings.HasPrefix(line, `\`) {
			continue // the head of the file, or "\ No newline at end of file"
		}
		at, ok := lineOf(line, &old, &new)
		if !ok {
			return nil, fmt.Errorf("a diff has the line %q, which is none of a hunk", line)
		}
		h := &hunks[len(hunks)-1]
		*h = append(*h, at)
	}
	if old < oldEnd || new < newEnd {
		return nil, fmt.Errorf("a diff ends in the middle of a hunk")
	}
	return hunks, nil
}

// lineOf counts a line of a hunk.
func lineOf(line string, old, new *int32) (at DiffLine, ok bool) {
	switch line[0] {
	case '-':
		at.Old = *old
		*old++
	case '+':
		at.New = *new
		*new++
	case ' ', '\n', '\r': // an empty line may have lost its space
		at = DiffLine{*old, *new}
		*old++
		*new++
	default:
		return at, false
	}
	return at, true
}

// hunkSpan reads where a hunk begins and ends. One without lines on a side names the
// line before it.
func hunkSpan(head []string) (old, oldEnd, new, newEnd int32, err error) {
	var n [4]int32
	for i, text := range head[1:] {
		if n[i] = 1; text == "" {
			continue
		}
		v, err := strconv.ParseInt(text, 10, 31)
		if err != nil || v > 1<<30 {
			return 0, 0, 0, 0, fmt.Errorf("a diff has a hunk at line %s, which no file has", text)
		}
		n[i] = int32(v)
	}
	return n[0], n[0] + n[1], n[2], n[2] + n[3], nil
}
