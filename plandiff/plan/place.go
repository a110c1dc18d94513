package plan

import (
	"cmp"
	"fmt"
)

// A Place is where something stands in the files of a plan. Line and Col
// count from 1, Col in characters; Line 0 means the file as a whole.
type Place struct {
	File string `json:"file"`
	Line int32  `json:"line,omitempty"`
	Col  int32  `json:"column,omitempty"`
}

// IsZero reports whether the place is unknown.
func (p Place) IsZero() bool { return p.File == "" }

// String gives file:line:column, or the file alone.
func (p Place) String() string {
	if p.Line == 0 {
		return p.File
	}
	return fmt.Sprintf("%s:%d:%d", p.File, p.Line, p.Col)
}

// Compare orders places by file, line and column.
func (p Place) Compare(q Place) int {
	return cmp.Or(cmp.Compare(p.File, q.File), cmp.Compare(p.Line, q.Line), cmp.Compare(p.Col, q.Col))
}

// A Value is one scalar of a plan: what it means, how it was written, and where.
// A Value whose At is zero was not written. One that is Bad was written but could
// not be read: a Problem tells why, and nothing else should be said about it.
type Value[T any] struct {
	V    T
	Bad  bool
	Text string // as the author wrote it: "446.00625"
	At   Place
}

// IsSet reports whether the value was written and could be read.
func (v Value[T]) IsSet() bool { return !v.At.IsZero() && !v.Bad }

// Written reports whether something was written, readable or not.
func (v Value[T]) Written() bool { return !v.At.IsZero() }

// Or gives the value, or def where it was not written or could not be read.
func (v Value[T]) Or(def T) T {
	if v.IsSet() {
		return v.V
	}
	return def
}
