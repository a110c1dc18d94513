package report

import (
	"fmt"
	"regexp"
	"strings"
	"sync"
)

// verdictsTitle heads the verdicts of a pull request so far.
const verdictsTitle = "Verdicts so far"

// mostVerdicts is how many verdicts are kept.
const mostVerdicts = 20

// Verdicts gives the lines for Overview.Earlier: those that stand in the summary
// so far, which is passband's own text, and the one of this document. The same
// commit judged again has one line.
func (d *Document) Verdicts(standing string) []string {
	var lines []string
	if _, list, ok := strings.Cut(standing, "\n<details><summary>"+verdictsTitle+"</summary>\n"); ok {
		for line := range strings.Lines(list) {
			if line = strings.TrimRight(line, "\r\n"); verdictLine().MatchString(line) {
				lines = append(lines, line)
			}
		}
	}
	now := fmt.Sprintf("- `%s`: %s", d.New.short(), d.Status())
	if n := len(lines); n > 0 && strings.HasPrefix(lines[n-1], fmt.Sprintf("- `%s`:", d.New.short())) {
		lines = lines[:n-1]
	}
	lines = append(lines, now)
	return lines[max(0, len(lines)-mostVerdicts):]
}

var verdictLine = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile("^- `[0-9a-f]{4,10}`: (Blocked|Nothing blocks): [a-z0-9 ,;]+$")
})
