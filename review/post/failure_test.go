package post

import (
	"context"
	"errors"
	"net/http"
	"testing"
	"time"
)

// TestAnswered tells answers apart as GitHub documents them: a limit is a 403 or a 429,
// with or without headers, and a 403 for want of rights has neither headers nor words of
// a limit (docs.github.com, rate limits for the REST API).
func TestAnswered(t *testing.T) {
	now := time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC)
	h := func(pairs ...string) http.Header {
		out := http.Header{}
		for i := 0; i < len(pairs); i += 2 {
			out.Set(pairs[i], pairs[i+1])
		}
		return out
	}
	for _, c := range []struct {
		name, why string
		status    int
		header    http.Header
		message   string
		kind      error
		wait      time.Duration
	}{
		{"no rights", "a fork's token", 403, h(), "Resource not accessible by integration", ErrNoRight, 0},
		{"no rights, with what is left", "the header alone does not make it a limit", 403, h("X-RateLimit-Remaining", "4999"), "Resource not accessible by integration", ErrNoRight, 0},
		{"primary limit", "wait until it is reset", 403, h("X-RateLimit-Remaining", "0", "X-RateLimit-Reset", "1795608060"), "API rate limit exceeded", ErrBusy, time.Minute},
		{"primary limit, reset just now", "clocks differ: never not at all", 403, h("X-RateLimit-Remaining", "0", "X-RateLimit-Reset", "1795607999"), "API rate limit exceeded", ErrBusy, time.Second},
		{"secondary limit", "it says how long", 403, h("Retry-After", "60"), "You have exceeded a secondary rate limit", ErrBusy, time.Minute},
		{"secondary limit without a header", "its words tell", 403, h(), "You have exceeded a secondary rate limit", ErrBusy, 0},
		{"429", "the same limit", 429, h("Retry-After", "5"), "", ErrBusy, 5 * time.Second},
		{"429 bare", "nothing is said", 429, h(), "", ErrBusy, 0},
		{"429 with a date", "RFC 9110, 10.2.3", 429, h("Retry-After", now.Add(time.Hour).Format(http.TimeFormat)), "", ErrBusy, time.Hour},
		{"a broken server", "it may have been done", 502, h(), "Server Error", ErrUnsure, 0},
		{"not to be had for now", "it says how long", 503, h("Retry-After", "7"), "", ErrUnsure, 7 * time.Second},
		{"a bad line", "the review as it is", 422, h(), "Unprocessable Entity", ErrRejected, 0},
		{"bad credentials", "no rights", 401, h(), "Bad credentials", ErrNoRight, 0},
		{"not there", "or not to be seen", 404, h(), "Not Found", ErrMissing, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			err := answered("asking", c.status, c.header, c.message, now)
			f := (*Failure)(nil)
			if !errors.As(err, &f) || !errors.Is(err, c.kind) || f.Wait != c.wait {
				t.Errorf("%s: %+v", c.why, err)
			}
		})
	}
}

// TestPatience repeats what fails for now, as long as it has said it would.
func TestPatience(t *testing.T) {
	busy, unsure, rejected := &Failure{Kind: ErrBusy}, &Failure{Kind: ErrUnsure, Wait: 3 * time.Second}, &Failure{Kind: ErrRejected}
	for _, c := range []struct {
		name   string
		fails  []error
		total  time.Duration
		tries  int
		waited time.Duration
		kind   error // that it ends with; nil where it is done
	}{
		{"at once", nil, time.Hour, 1, 0, nil},
		{"the second time", []error{unsure}, time.Hour, 2, 3 * time.Second, nil},
		{"a limit that says nothing", []error{busy, busy}, time.Hour, 3, 3 * time.Minute, nil},
		{"for good", []error{unsure, unsure, unsure, unsure, unsure, unsure}, time.Hour, 5, 12 * time.Second, ErrUnsure},
		{"longer than it may", []error{busy, busy}, 90 * time.Second, 2, time.Minute, ErrBusy},
		{"no use", []error{rejected}, time.Hour, 1, 0, ErrRejected},
	} {
		var waited time.Duration
		p := &Patience{Tries: 5, Total: c.total, Sleep: func(_ context.Context, d time.Duration) error { waited += d; return nil }}
		tries := 0
		err := repeat(context.Background(), p, func() error {
			if tries++; tries <= len(c.fails) {
				return c.fails[tries-1]
			}
			return nil
		})
		if tries != c.tries || waited != c.waited || !errors.Is(err, c.kind) {
			t.Errorf("%s: %d tries, %s waited, %v", c.name, tries, waited, err)
		}
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if err := repeat(ctx, DefaultPatience(), func() error { return busy }); !errors.Is(err, context.Canceled) {
		t.Errorf("stopped while it waits: %v", err)
	}
}
