package post

import (
	"context"
	"errors"
	"fmt"
	"net"
	"net/http"
	"strconv"
	"strings"
	"time"
)

// The kinds of failure that are told apart with errors.Is.
var (
	ErrNoRight  = errors.New("the token may not do this")
	ErrBusy     = errors.New("the forge asks to wait")
	ErrUnsure   = errors.New("it may have been done")
	ErrRejected = errors.New("the forge does not take it as it is")
	ErrMissing  = errors.New("the forge does not have it")
)

// A Failure is what a forge, or the way to it, did not do.
type Failure struct {
	Kind error
	Wait time.Duration // what the forge asks for; 0 where it does not say
	Text string        // what was asked, and the answer
}

func (f *Failure) Error() string { return fmt.Sprintf("%s: %v", f.Text, f.Kind) }
func (f *Failure) Unwrap() error { return f.Kind }

// lost makes a Failure of a request that got no answer: the forge may have done it.
func lost(ctx context.Context, what string, err error) error {
	if ctx.Err() != nil {
		return ctx.Err()
	}
	why := "the connection broke"
	if timeout := net.Error(nil); errors.As(err, &timeout) && timeout.Timeout() {
		why = "no answer in time"
	}
	return &Failure{Kind: ErrUnsure, Text: what + ": " + why}
}

// answered makes a Failure of an answer that is none of success. A forge at its limit
// says 403 or 429, with or without saying how long to wait (docs.github.com, rate
// limits for the REST API); only the headers and the words tell a 403 from one for
// want of rights.
func answered(what string, status int, header http.Header, message string, now time.Time) error {
	f := &Failure{Text: fmt.Sprintf("%s: status %d, %s", what, status, short(message))}
	switch {
	case status == http.StatusTooManyRequests, status == http.StatusForbidden && limited(header, message):
		f.Kind, f.Wait = ErrBusy, wait(header, now)
	case status >= 500, status == http.StatusRequestTimeout:
		f.Kind, f.Wait = ErrUnsure, wait(header, now)
	case status == http.StatusForbidden, status == http.StatusUnauthorized:
		f.Kind = ErrNoRight
	case status == http.StatusNotFound, status == http.StatusGone:
		f.Kind = ErrMissing
	default:
		f.Kind = ErrRejected
	}
	return f
}

func limited(h http.Header, message string) bool {
	return h.Get("Retry-After") != "" || h.Get("X-Ratelimit-Remaining") == "0" || strings.Contains(strings.ToLower(message), "rate limit")
}

// wait reads how long a forge asks to wait.
func wait(h http.Header, now time.Time) time.Duration {
	if s, err := strconv.ParseInt(h.Get("Retry-After"), 10, 32); err == nil && s > 0 {
		return time.Duration(s) * time.Second
	}
	if at, err := http.ParseTime(h.Get("Retry-After")); err == nil {
		return max(0, at.Sub(now))
	}
	if s, err := strconv.ParseInt(h.Get("X-Ratelimit-Reset"), 10, 64); err == nil && h.Get("X-Ratelimit-Remaining") == "0" {
		return max(time.Second, time.Unix(s, 0).Sub(now))
	}
	return 0
}

// short keeps an answer to one line that can be read.
func short(s string) string {
	s = strings.ToValidUTF8(strings.Join(strings.Fields(s), " "), "?")
	if runes := []rune(s); len(runes) > 200 {
		return string(runes[:200]) + "..."
	}
	return s
}

// mostPages bounds what is read of one list, so that a forge that is broken cannot hold a run
// until the time of its job is up.
const mostPages = 1_000

func endless() error {
	return &Failure{Kind: ErrRejected, Text: fmt.Sprintf("the forge gives one list in more than %d pages, or the same page again; nothing more is read", mostPages)}
}
