package history

import (
	"strconv"
	"strings"
)

// A revision is what a person writes for a commit: a name, and steps from there
// to its ancestors.
type revision struct {
	name  string
	steps []step
}

// A step goes back generations along first parents (~3), or once to one parent (^2).
type step struct {
	generations int
	parent      int // counted from 1; 0 when generations is used
}

// parseRevision reads the part of gitrevisions that means one commit: NAME,
// NAME~, NAME~3, NAME^, NAME^2, NAME^0, NAME^{}, NAME^{commit} and
// combinations. The rest is refused here, because backings disagree on it.
func parseRevision(text string) (revision, error) {
	if err := refuse(text); err != nil {
		return revision{}, err
	}
	end := strings.IndexAny(text, "~^")
	if end < 0 {
		end = len(text)
	}
	rev := revision{name: text[:end]}
	if rev.name == "@" {
		rev.name = "HEAD"
	}
	if !isName(rev.name) {
		return revision{}, notRevision(text, "it is not a name that a branch, a tag or a commit can have")
	}
	for rest := text[end:]; rest != ""; {
		s, after, ok := parseStep(rest)
		if !ok {
			return revision{}, notRevision(text, "after the name, only ~ and ^ with a number are understood, such as HEAD~2")
		}
		if s != (step{}) {
			rev.steps = append(rev.steps, s)
		}
		rest = after
	}
	return rev, nil
}

func notRevision(text, why string) error {
	return fail(ErrUnknownRevision, "%q does not name a commit: %s", text, why)
}

// refuse turns down what means something to git but not one commit.
func refuse(text string) error {
	switch {
	case text == "":
		return fail(ErrUnknownRevision, "the revision is empty; write a branch, a tag, a commit hash or HEAD~1")
	case strings.Contains(text, ".."):
		return notRevision(text, "it is a range; give the two ends as two words")
	case strings.Contains(text, "@{"):
		return notRevision(text, "@{...} depends on this one clone; give a branch, a tag or a commit hash")
	case strings.Contains(text, ":"):
		return notRevision(text, "a colon picks a file; give the revision alone")
	case text[0] == '-':
		return notRevision(text, "it begins with a hyphen")
	}
	return nil
}

// parseStep reads one ~N, ^N, ^{} or ^{commit} from the front of text.
func parseStep(text string) (s step, rest string, ok bool) {
	for _, peel := range []string{"^{}", "^{commit}"} {
		if rest, ok := strings.CutPrefix(text, peel); ok {
			return step{}, rest, true
		}
	}
	digits := len(text[1:]) - len(strings.TrimLeft(text[1:], "0123456789"))
	rest = text[1+digits:]
	n := 1
	if digits > 0 {
		const most = 1_000_000 // no history is that long
		var err error
		if n, err = strconv.Atoi(text[1 : 1+digits]); err != nil || n > most {
			return step{}, "", false
		}
	}
	switch {
	case text[0] == '~':
		return step{generations: n}, rest, true
	case text[0] == '^':
		return step{parent: n}, rest, true
	}
	return step{}, "", false
}

// isName applies the rules for names of references (git-check-ref-format).
func isName(name string) bool {
	for part := range strings.SplitSeq(name, "/") {
		if part == "" || part[0] == '.' || strings.HasSuffix(part, ".lock") {
			return false
		}
	}
	bad := func(c rune) bool { return c <= ' ' || c == 0x7f || strings.ContainsRune(`~^:?*[\`, c) }
	return !strings.HasSuffix(name, ".") && !strings.ContainsFunc(name, bad)
}
