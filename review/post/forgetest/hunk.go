package forgetest

import (
	"fmt"
	"strings"
)

// hunkOf gives the number of the hunk, counted from 1, that shows a line of one side;
// 0 if none does. It is written apart from package post on purpose.
func hunkOf(patch, side string, line int) int {
	hunk, old, new := 0, 0, 0
	for _, text := range strings.Split(patch, "\n") {
		if strings.HasPrefix(text, "@@ ") {
			hunk++
			fields := strings.Fields(text)
			old, new = start(fields[1]), start(fields[2])
			continue
		}
		if hunk == 0 || text == "" || text[0] == '\\' {
			continue
		}
		switch text[0] {
		case '-':
			if side == "LEFT" && old == line {
				return hunk
			}
			old++
		case '+':
			if side == "RIGHT" && new == line {
				return hunk
			}
			new++
		default:
			if side == "RIGHT" && new == line {
				return hunk
			}
			old++
			new++
		}
	}
	return 0
}

func start(field string) (n int) {
	_, _ = fmt.Sscanf(field[1:], "%d", &n)
	return n
}
