package review

import (
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"io"
	"slices"
	"strings"

	"passband.example/plandiff/plan"
)

// A Finding is what a rule says about a plan.
type Finding struct {
	Rule     string     `json:"rule"`
	Severity Severity   `json:"severity"`
	At       plan.Place `json:"at"`

	// About names the records that the finding is about, the most important
	// first. With Rule and Values it is what makes the finding the same one in
	// another revision.
	About []plan.Thing `json:"about"`

	// Values holds the values that make it wrong, in canonical text: a frequency,
	// an ID. No key of a record: those stand in About, where renames are followed.
	Values []string `json:"values,omitempty"`

	What   string    `json:"what"`             // what is wrong
	Why    string    `json:"why,omitempty"`    // why it matters
	Fix    string    `json:"fix,omitempty"`    // what to do
	Source string    `json:"source,omitempty"` // what the verdict rests on
	Also   []Related `json:"also,omitempty"`   // other places that it is about
	Mend   Mend      `json:"mend,omitempty"`   // how to mend it, where a machine can tell

	Standing Standing `json:"standing"`
	Eased    string   `json:"eased,omitempty"` // why it is milder than its rule
}

// Related is another place that a finding is about, and what stands there.
type Related struct {
	At   plan.Place `json:"at"`
	Text string     `json:"text"`
}

// Standing says whether a finding is there in both revisions.
type Standing uint8

// The standings. In the check of one plan all findings are New.
const (
	New   Standing = iota // it came with the change
	Still                 // it was there before
	Gone                  // it was there before and is not any more
)

var standingNames = [...]string{New: "new", Still: "still there", Gone: "gone"}

// String gives the words for the standing.
func (s Standing) String() string {
	if int(s) < len(standingNames) {
		return standingNames[s]
	}
	return "new"
}

// MarshalText gives the words for the standing, so that JSON shows them.
func (s Standing) MarshalText() ([]byte, error) { return []byte(s.String()), nil }

// ID is the same for the same finding on every push: it follows from the rule,
// the keys of what it is about and the values that make it wrong, and from no
// line, column or wording.
func (f Finding) ID() string { return f.identity(nil) }

// identity gives the ID that the finding has once the keys are renamed.
func (f Finding) identity(ren plan.Renames) string {
	h := sha256.New()
	io.WriteString(h, f.Rule)
	for _, t := range f.About {
		io.WriteString(h, "\x00"+t.Kind.String()+"\x01"+keyNow(t, ren))
	}
	for _, v := range f.Values {
		io.WriteString(h, "\x02"+v)
	}
	return hex.EncodeToString(h.Sum(nil))[:16]
}

// keyNow gives the key of a thing once the keys are renamed: that of a talk path
// and of an acceptance is made of other keys.
func keyNow(t plan.Thing, ren plan.Renames) string {
	switch rule, at, found := strings.Cut(t.Key, " at "); {
	case t.Kind == plan.KindAcceptance && found:
		return rule + " at " + ren.Translate(plan.RefAcceptance, at)
	case t.Kind == plan.KindChannel:
		return ren.Translate(plan.RefEntry, t.Key)
	}
	return ren.Key(t.Kind, t.Key)
}

// sortFindings orders by place, then rule, then what they are about, so that
// the same plan gives the same bytes, in whatever order a rule found them.
func sortFindings(fs []Finding) { slices.SortStableFunc(fs, compareFindings) }

func compareFindings(a, b Finding) int {
	if order := cmp.Or(a.At.Compare(b.At), cmp.Compare(a.Rule, b.Rule), cmp.Compare(a.What, b.What)); order != 0 {
		return order
	}
	return cmp.Compare(a.ID(), b.ID())
}
