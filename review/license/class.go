package license

import (
	"fmt"
	"strings"

	"github.com/agnivade/levenshtein"
)

// Classes returns the license classes of the region, from the least rights to the most; none
// where there is no national table.
func (t *Tables) Classes() []Class {
	var all []Class
	for _, c := range t.classes {
		all = append(all, c.class)
	}
	return all
}

// Class returns a license class as the tables write it, from what a plan says: Technician,
// amateur extra, Basic with Honours. Where there is no national table any name will do,
// since no row there asks for one. An unknown class is an *UnknownClass.
func (t *Tables) Class(name string) (Class, error) {
	normal := normalClass(name)
	if len(t.classes) == 0 || normal == "" {
		return Class(normal), nil
	}
	e := &UnknownClass{Region: t.Code, Class: name}
	best := 3
	for _, c := range t.classes {
		if c.is(normal) {
			return c.class, nil
		}
		e.Known = append(e.Known, c.class)
		if d := levenshtein.ComputeDistance(normal[:min(len(normal), 60)], string(c.class)); d < min(best, len(c.class)) {
			best, e.Nearest = d, c.class
		}
	}
	return "", e
}

// ClassLabel returns a class as people write it: Basic with Honours.
func (t *Tables) ClassLabel(class Class) string {
	for _, c := range t.classes {
		if c.class == class {
			return c.label
		}
	}
	return string(class)
}

// UnknownClass is the error for a license class that a region does not have.
type UnknownClass struct {
	Region  string
	Class   string
	Nearest Class // one that is written much like it; may be empty
	Known   []Class
}

// Error says what there is, and what may have been meant.
func (e *UnknownClass) Error() string {
	hint := ""
	if e.Nearest != "" {
		hint = fmt.Sprintf("did you mean %s? ", e.Nearest)
	}
	var known []string
	for _, c := range e.Known {
		known = append(known, string(c))
	}
	return fmt.Sprintf("license %.40q is no class of %s, so no channel can be judged; %sthe classes there are %s",
		e.Class, e.Region, hint, strings.Join(known, ", "))
}
