package chronicle

import (
	"passband.example/plandiff"
	"passband.example/plandiff/history"
)

// A Standing says what a commit did to the plan as a whole.
type Standing uint8

// The standings.
const (
	Changed Standing = iota + 1 // it changed the plan
	Began                       // there was no plan before it
	Ended                       // there is no plan after it
	Broken                      // the plan cannot be read after it
)

var standingNames = [...]string{Changed: "changed", Began: "began", Ended: "ended", Broken: "broken"}

// String gives the word for the standing.
func (s Standing) String() string {
	if int(s) < len(standingNames) && standingNames[s] != "" {
		return standingNames[s]
	}
	return "none"
}

// MarshalText gives the word for the standing, so that JSON shows it.
func (s Standing) MarshalText() ([]byte, error) { return []byte(s.String()), nil }

// An Entry is what one commit did to the plan.
type Entry struct {
	Commit   history.Commit
	Standing Standing
	Folder   string // the folder of the plan after the commit
	Moved    bool   // the plan stood in another folder before
	Was      string // that folder

	// Causes holds the records that the commit edited, as far as they were asked
	// for. A merge has only what it changed itself, against all of its parents.
	Causes []plandiff.Cause

	// Comparison is the whole difference from the plan before, which gives the
	// causes their names. It is nil where the plan Ended or is Broken.
	Comparison *plandiff.Comparison

	// Since is the commit that was compared with where it is not the parent,
	// because the plans in between cannot be read.
	Since *history.Commit

	Problem *Unreadable // why the plan is Broken
}

// IsMerge reports whether the commit has several parents.
func (e *Entry) IsMerge() bool { return len(e.Commit.Parents) > 1 }

// A Tally counts the commits of a stretch of history by what became of them.
type Tally struct {
	Looked      int  // commits that changed a file of the plan
	Shown       int  // entries
	Reformatted int  // commits that changed files, and nothing that the plan means
	Lighter     int  // commits that changed nothing as heavy as was asked for
	Cut         bool // a shallow clone hides what was before
}
