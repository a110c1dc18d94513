package license

import "fmt"

// Confidence says how much of a row was read in its source while the tables were made.
type Confidence uint8

const (
	Read   Confidence = iota // every limit in the row was read in the source or a reprint of it
	Part                     // the rule was read, a figure of it was not; Note says which
	Memory                   // nothing was read: the row may warn, it never blocks alone
)

var confidenceNames = names[Confidence]{"read", "part", "memory"}

// String returns the word that stands in the tables: read, part or memory.
func (c Confidence) String() string { return confidenceNames.of(c) }

// Provenance says where a row comes from. Every row of every table has one.
type Provenance struct {
	Source     string // the document and section: 47 CFR 97.205(b)
	Edition    string // which text of it was read, or "from memory"
	Confidence Confidence
	Note       string // what was changed or doubted when the row was checked; may be empty
	File       string // the table: bands/us.csv, or the club's own file
	Line       int    // the line in it, counted from 1
}

// Cite returns the source with its edition, and says so where the row rests on memory.
//
//	47 CFR 97.205(b) [97.205: text current to 31 October 2024]
//	RR Article 5 [from memory]
func (p Provenance) Cite() string {
	switch edition := p.Edition; {
	case p.Confidence == Read, edition == fromMemory:
		return fmt.Sprintf("%s [%s]", p.Source, edition)
	case p.Confidence == Part:
		return fmt.Sprintf("%s [%s; in part from memory]", p.Source, edition)
	default:
		return fmt.Sprintf("%s [%s; from memory]", p.Source, edition)
	}
}

const fromMemory = "from memory"

// names are the words of an enumeration that counts from zero.
type names[T ~uint8] []string

func (n names[T]) of(value T) string {
	if int(value) < len(n) {
		return n[value]
	}
	return fmt.Sprintf("unknown (%d)", value)
}
