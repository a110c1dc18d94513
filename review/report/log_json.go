package report

import (
	"time"

	"passband.example/plandiff/chronicle"
	"passband.example/plandiff/history"
	"passband.example/plandiff/plan"
)

// LogForm is the JSON form of a log, newest commit first.
type LogForm struct {
	Passband    string      `json:"passband"`
	Version     int         `json:"version"`
	Plan        string      `json:"plan"`
	Of          *Origin     `json:"of"`
	Since       *Origin     `json:"since,omitempty"`
	Thing       string      `json:"thing,omitempty"`
	By          string      `json:"by,omitempty"`
	Weight      string      `json:"at_least,omitempty"`
	Entries     []EntryForm `json:"entries"`
	Reformatted int         `json:"reformatted"`
	Lighter     int         `json:"lighter"`
	Shallow     bool        `json:"shallow"`
}

// CommitForm is a commit; its texts are untrusted.
type CommitForm struct {
	Hash    string   `json:"hash"`
	Author  string   `json:"author"`
	Email   string   `json:"email"`
	When    string   `json:"when"` // RFC 3339, in the author's zone; "" where the commit has no date
	Subject string   `json:"subject"`
	Parents []string `json:"parents"`
}

// EntryForm is what one commit did to the plan.
type EntryForm struct {
	Commit   CommitForm         `json:"commit"`
	Standing chronicle.Standing `json:"standing"`
	Folder   string             `json:"folder,omitempty"`
	Moved    *string            `json:"moved_from,omitempty"` // the folder of the plan before
	Since    string             `json:"compared_with,omitempty"`
	Causes   []LogCauseForm     `json:"causes"`
	Problem  *ProblemForm       `json:"problem,omitempty"`
}

// LogCauseForm is a record that a commit edited; what it reaches is there only
// where it was asked for.
type LogCauseForm struct {
	Thing   plan.Thing   `json:"thing"`
	Weight  plan.Weight  `json:"weight"`
	Changes []ChangeJSON `json:"changes"`
	Reach   *ReachJSON   `json:"reach,omitempty"`
}

// ProblemForm is the first of the reasons why a plan cannot be read.
type ProblemForm struct {
	At    plan.Place `json:"at"`
	What  string     `json:"what"`
	Why   string     `json:"why,omitempty"`
	Fix   string     `json:"fix,omitempty"`
	Count int        `json:"count"`
}

// Form begins the JSON form of the log.
func (l *Log) Form() *LogForm {
	f := &LogForm{Passband: "log", Version: version, Plan: l.Plan, Of: l.Of, Since: l.From, Thing: l.Query.Thing, By: l.Query.By, Entries: []EntryForm{}}
	if l.Query.Least != 0 {
		f.Weight = l.Query.Least.String()
	}
	return f
}

// Add puts an entry in.
func (f *LogForm) Add(l *Log, e *chronicle.Entry) {
	out := EntryForm{Commit: commitForm(e.Commit), Standing: e.Standing, Folder: e.Folder, Causes: []LogCauseForm{}}
	if e.Moved {
		out.Moved = &e.Was
	}
	if e.Since != nil {
		out.Since = e.Since.Hash
	}
	for i := range e.Causes {
		full := causeJSON(&e.Causes[i])
		cause := LogCauseForm{Thing: full.Thing, Weight: full.Weight, Changes: full.Changes}
		if l.Query.Reach {
			cause.Reach = &full.Reach
		}
		out.Causes = append(out.Causes, cause)
	}
	if u := e.Problem; u != nil {
		out.Problem = &ProblemForm{At: u.First.At, What: u.First.What, Why: u.First.Why, Fix: u.First.Fix, Count: u.Count}
	}
	f.Entries = append(f.Entries, out)
}

// Finish puts the counts in.
func (f *LogForm) Finish(t chronicle.Tally) {
	f.Reformatted, f.Lighter, f.Shallow = t.Reformatted, t.Lighter, t.Cut
}

func commitForm(c history.Commit) CommitForm {
	f := CommitForm{Hash: c.Hash, Author: c.Author, Email: c.AuthorEmail, Subject: c.Subject, Parents: orEmpty(c.Parents)}
	if !c.When.IsZero() {
		f.When = c.When.Format(time.RFC3339)
	}
	return f
}
