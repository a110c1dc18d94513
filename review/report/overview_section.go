package report

import (
	"fmt"
	"strings"
)

// longestNotice bounds the line that says how much a section holds back.
const longestNotice = 200

// A section is a part of the text that can be cut between its pieces.
type section struct {
	before, after string
	pieces        []string
	what          string // what the pieces are, for saying how many are held back
	text          string // as much of it as fits
}

// fit puts in as many pieces as there is room for, and gives what they take.
func (s *section) fit(room int, rest string) int {
	if len(s.pieces) == 0 {
		return 0
	}
	taken, n := len(s.before)+len(s.after), 0
	for n < len(s.pieces) && taken+len(s.pieces[n]) <= room {
		taken += len(s.pieces[n])
		n++
	}
	held := ""
	if left := len(s.pieces) - n; left > 0 {
		held = fmt.Sprintf("\nThis text has a limit: %d more %s not shown here", left, s.what)
		if rest != "" {
			held += "; " + rest + " has all"
		}
		held += ".\n"
	}
	if n == 0 && taken > room {
		s.text = held
		return len(held)
	}
	s.text = s.before + strings.Join(s.pieces[:n], "") + s.after + held
	return taken
}
