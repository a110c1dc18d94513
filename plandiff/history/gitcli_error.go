package history

import (
	"errors"
	"fmt"
	"strings"
	"sync"
)

// gitError turns the end of a git process and its last words into a text that
// says what to do. The wordings are those of git 2.39 in the C locale; one that
// is not known is passed on as git wrote it.
func (s *commandStore) gitError(err error, words string) error {
	has := func(text string) bool { return strings.Contains(words, text) }
	switch {
	case has("dubious ownership"):
		return fmt.Errorf("git refuses to read %s because it belongs to another user (%w); "+
			"if you trust it, run: git config --global --add safe.directory '%s'", s.at.home(), err, s.at.home())
	case has("unknown repository extension"), has("unknown repository version"), has("Expected git repo version"),
		has("unknown ref storage"), has("invalid value for 'extensions."):
		return fmt.Errorf("the installed git is too old for this repository: %s; update git, or make an ordinary clone (%w)", firstWords(words), err)
	case has("from promisor remote"), has("lazy fetching disabled"):
		return missing("")
	case has("corrupt"), has("inflate"), has("unable to unpack"), has("bad object"), has("unable to parse"), has("unable to read"), has("unable to stream"):
		return fail(ErrDamaged, "the repository is damaged: git says %q; \"git fsck\" says how much is lost, and a fresh clone is the usual cure", firstWords(words))
	case words == "":
		return fmt.Errorf("git failed and did not say why (%w)", err)
	}
	return fmt.Errorf("git cannot read the repository in %s: %s (%w)", s.at.home(), firstWords(words), err)
}

// conversationError says which object it was about.
func (s *commandStore) conversationError(id string, err error) error {
	var end *ended
	switch {
	case err == nil:
		return nil
	case errors.Is(err, errNoSuchObject):
		return missing(id)
	case errors.As(err, &end):
		if err = s.gitError(end.err, end.words); errors.Is(err, ErrMissing) {
			return missing(id)
		}
	}
	return err
}

// firstWords is the first line that matters of what git wrote, without its prefix.
func firstWords(words string) string {
	for line := range strings.Lines(words) {
		line = strings.TrimSpace(line)
		if text, ok := strings.CutPrefix(line, "fatal: "); ok {
			return text
		}
		if text, ok := strings.CutPrefix(line, "error: "); ok {
			return text
		}
	}
	first, _, _ := strings.Cut(words, "\n")
	return first
}

// A lastWords keeps the beginning of what a process writes to its standard error;
// the rest is dropped, so that a chatty process costs no memory.
type lastWords struct {
	mu   sync.Mutex
	text []byte
}

const mostWords = 8 << 10

func (t *lastWords) Write(p []byte) (int, error) {
	t.mu.Lock()
	defer t.mu.Unlock()
	t.text = append(t.text, p[:min(len(p), mostWords-len(t.text))]...)
	return len(p), nil
}

func (t *lastWords) String() string {
	t.mu.Lock()
	defer t.mu.Unlock()
	return strings.TrimSpace(string(t.text))
}
