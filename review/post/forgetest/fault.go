package forgetest

import (
	"fmt"
	"net/http"
	"strings"
)

// A Fault is a way in which a request fails.
type Fault uint8

// The faults. Those that say Done happen after the forge has done what it was asked.
const (
	NoFault        Fault = iota
	Broken               // 500
	BrokenDone           // 502
	Limited              // 403, with the headers of the primary limit
	LimitedSoon          // 403, of the secondary limit, with retry-after
	LimitedBare          // 429, without a word on how long
	Refused              // 422
	Hang                 // no answer until the client gives up
	HangDone             // the same
	Reset                // the connection breaks
	ResetDone            // the same
	Kill                 // the program that asks is stopped: see OnKill
	KillDone             // the same
	Forbidden            // 403, for want of rights
	NumberOfFaults       // how many there are
)

// String names the fault.
func (f Fault) String() string {
	return [...]string{"none", "500", "502 but done", "403 rate limit", "403 retry-after", "429", "422", "time-out", "time-out but done",
		"reset", "reset but done", "kill", "kill but done", "403 forbidden"}[f]
}

// Done reports whether the forge does its work before the fault.
func (f Fault) Done() bool {
	return f == BrokenDone || f == HangDone || f == ResetDone || f == KillDone
}

// answer plays the fault.
func (f Fault) answer(w http.ResponseWriter, r *http.Request, kill func()) {
	switch f {
	case Broken, BrokenDone:
		fail(w, map[Fault]int{Broken: 500, BrokenDone: 502}[f], "Server Error")
	case Limited:
		w.Header().Set("X-RateLimit-Limit", "1000")
		w.Header().Set("X-RateLimit-Remaining", "0")
		w.Header().Set("X-RateLimit-Reset", "1") // long ago: the caller's clock need not run
		fail(w, 403, "API rate limit exceeded for installation.")
	case LimitedSoon:
		w.Header().Set("Retry-After", "1")
		fail(w, 403, "You have exceeded a secondary rate limit. Please wait a few minutes before you try again.")
	case LimitedBare:
		fail(w, 429, "Too Many Requests")
	case Refused:
		refuse(w, "Validation Failed")
	case Forbidden:
		fail(w, 403, "Resource not accessible by integration")
	case Hang, HangDone:
		<-r.Context().Done()
	case Kill, KillDone:
		kill()
		<-r.Context().Done()
	case Reset, ResetDone:
		conn, _, err := w.(http.Hijacker).Hijack()
		if err == nil {
			conn.Close()
		}
	}
}

func fail(w http.ResponseWriter, status int, message string) {
	w.Header().Set("Content-Type", "application/json; charset=utf-8")
	w.WriteHeader(status)
	fmt.Fprintf(w, `{"message":%q,"documentation_url":"https://docs.example/rest","status":"%d"}`, message, status)
}

// refuse answers as GitHub does to what it cannot take: errors are texts, and none
// says which comment it is about.
func refuse(w http.ResponseWriter, errors ...string) {
	w.Header().Set("Content-Type", "application/json; charset=utf-8")
	w.WriteHeader(http.StatusUnprocessableEntity)
	fmt.Fprintf(w, `{"message":"Unprocessable Entity","errors":["%s"],"documentation_url":"https://docs.example/rest"}`, strings.Join(errors, `","`))
}
