package license

// ContentRow says whether a way of sending is allowed, whatever the frequency.
type ContentRow struct {
	Jurisdiction string
	Practice     Practice
	Allowed      bool
	Exception    string
	Provenance
}

// Practice is a way of sending that a rule speaks of.
type Practice uint8

// ObscuredMeaning is a message encoded so that others can't read it: a scrambler, a privacy
// setting. A color code, a tone or a DCS code is selective calling and is not meant.
const ObscuredMeaning Practice = 0

var practiceNames = names[Practice]{"obscured-meaning"}

// String returns the word of the tables.
func (p Practice) String() string { return practiceNames.of(p) }

const contentColumns = "jurisdiction,practice,allowed,exception,source,edition,confidence,note"

func readContent(file string, data []byte) ([]*ContentRow, error) {
	return readSheet(file, data, contentColumns, func(c *cells) *ContentRow {
		return &ContentRow{
			Jurisdiction: c.need("jurisdiction"), Practice: word(c, "practice", practiceNames),
			Allowed: word(c, "allowed", names[uint8]{"no", "yes"}) == 1, Exception: c.text("exception"), Provenance: c.provenance(),
		}
	})
}

// Content returns the row on a practice: the country's own, or else the one that the Radio
// Regulations have for all, which is from memory.
func (t *Tables) Content(p Practice) *ContentRow {
	var found *ContentRow
	for _, row := range t.content {
		if row.Practice == p && (row.Jurisdiction == t.owner() || row.Jurisdiction == everywhere && found == nil) {
			found = row
		}
	}
	return found
}
