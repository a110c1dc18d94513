package report

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"regexp"
	"strings"
	"sync"

	"passband.example/review"
)

// A Mark is the first line of every comment that passband writes, hidden from
// readers, by which a later run knows the comment again. Nothing from a plan ever
// stands on that line, so no plan can forge one; that somebody else may have
// written it is for the reader of marks to rule out, by the author.
type Mark struct {
	Role MarkRole
	Key  string // of the finding, as FindingKeys gives it; "-" for a summary
	Plan string // which plan of the repository, as PlanMark gives it
	Text string // a digest of what stands below the line
}

// A MarkRole says what a comment is.
type MarkRole string

// The roles.
const (
	MarkSummary MarkRole = "summary" // the one comment on the whole change
	MarkFinding MarkRole = "finding" // a comment on a line
	MarkGone    MarkRole = "gone"    // the same after the finding has gone
)

// Signed puts a mark before a text.
func (m Mark) Signed(text string) string {
	m.Text = digest(text)
	return fmt.Sprintf("<!-- passband 1 %s %s %s %s -->\n%s", m.Role, m.Key, m.Plan, m.Text, text)
}

var markLine = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`^<!-- passband 1 (summary|finding|gone) ([0-9a-f]{16}(?:-[0-9]{1,6})?|-) ([0-9a-f]{12}) ([0-9a-f]{12}) -->\r?(?:\n|$)`)
})

// ParseMark reads the mark of a comment, and gives what stands below it.
func ParseMark(body string) (m Mark, text string, ok bool) {
	found := markLine().FindStringSubmatch(body)
	if found == nil {
		return Mark{}, body, false
	}
	m = Mark{Role: MarkRole(found[1]), Key: found[2], Plan: found[3], Text: found[4]}
	return m, body[len(found[0]):], (m.Key == "-") == (m.Role == MarkSummary)
}

// PlanMark tells the plans of one repository apart in marks, by their folder.
func PlanMark(folder string) string { return digest(folder) }

func digest(text string) string {
	sum := sha256.Sum256([]byte(text))
	return hex.EncodeToString(sum[:])[:12]
}

// FindingKeys gives each finding the identity that its comment carries: its ID,
// and a number behind it where several findings share one.
func FindingKeys(fs []review.Finding) []string {
	seen := make(map[string]int)
	out := make([]string, len(fs))
	for i, f := range fs {
		out[i] = f.ID()
		if seen[out[i]]++; seen[out[i]] > 1 {
			out[i] = fmt.Sprintf("%s-%d", out[i], seen[out[i]])
		}
	}
	return out
}

// clip shortens a text to about so many bytes, and says how much is left out.
func clip(s string, most int) string {
	if len(s) <= most {
		return s
	}
	kept := strings.ToValidUTF8(s[:most], "")
	return fmt.Sprintf("%s... (%d bytes more)", kept, len(s)-len(kept))
}
