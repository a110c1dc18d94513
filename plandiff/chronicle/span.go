package chronicle

import (
	"context"
	"strings"

	"passband.example/plandiff/history"
)

// A Span is a stretch of history: what can be reached from To and not from From.
// The zero From means the whole history.
type Span struct {
	From, To         history.Commit
	FromName, ToName string // as a person wrote them
}

// ParseSpan reads REV..REV, where a side that is left out means HEAD, or REV for
// all that led to it.
func ParseSpan(ctx context.Context, repo *history.Repository, text string) (Span, error) {
	from, to, isRange := strings.Cut(text, "..")
	if !isRange {
		from, to = "", text
	} else if from == "" {
		from = "HEAD"
	}
	if to == "" {
		to = "HEAD"
	}
	s := Span{FromName: from, ToName: to}
	var err error
	if s.To, err = repo.Resolve(ctx, to); err != nil {
		return Span{}, err
	}
	if from != "" {
		s.From, err = repo.Resolve(ctx, from)
	}
	return s, err
}
