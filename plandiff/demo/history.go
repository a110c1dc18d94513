package demo

import (
	"embed"
	"fmt"
	"io/fs"
	"slices"
	"sync"
	"time"
)

// The names in the repository that a command or a test may want to say.
const (
	Main          = "main"               // the branch that the club's radios are programmed from
	Proposal      = "new-repeater-north" // the branch that waits for review, with mistakes in it
	FirstRelease  = "2026.1"             // the tag on the plan with the storm group
	SecondRelease = "2026.2"             // the tag on the tip of main
)

// A Commit is one step in the history of the demo plan.
type Commit struct {
	Name    string    // the folder it is kept in, such as 03-retune-mill
	Parent  string    // the Name of the commit it grew from; empty for the first
	Branch  string    // the branch it was made on
	Tag     string    // the annotated tag on it; empty for most
	Author  string    // who made it, by name
	Email   string    // and by address, always at example.org
	When    time.Time // when, to the second
	Message string    // subject and body, ending in a newline
	Plan    fs.FS     // the whole plan as it stood after the commit
}

//go:embed data
var data embed.FS

// replayed is read once, and only if somebody asks.
var replayed = sync.OnceValues(func() ([]Commit, error) {
	folder, err := fs.Sub(data, "data")
	if err != nil {
		return nil, err
	}
	return replay(folder)
})

// History returns the commits of the demo in the order in which they were made, those
// of [Proposal] among those of [Main].
func History() []Commit {
	commits, err := replayed()
	if err != nil {
		// The text is part of the program, and a test reads all of it.
		panic(fmt.Sprintf("demo: the embedded history is broken: %v", err))
	}
	return slices.Clone(commits)
}

// Plan returns the plan at the tip of [Main].
func Plan() fs.FS { return tip(Main) }

// Branch returns the plan at the tip of [Proposal].
func Branch() fs.FS { return tip(Proposal) }

func tip(branch string) fs.FS {
	for _, c := range slices.Backward(History()) {
		if c.Branch == branch {
			return c.Plan
		}
	}
	panic("demo: no commit on the branch " + branch)
}
