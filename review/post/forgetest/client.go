package forgetest

import (
	"bytes"
	"io"
	"net/http"
	"net/http/httptest"
	"os"
	"syscall"
)

// Client gives a client that asks the forge without a network: what would be lost there
// is lost at once, and no clock has to run for a time-out. For the many runs of a fault
// table; that the network itself fails in these ways is for a few others to show.
func (s *server) Client() *http.Client { return &http.Client{Transport: atHand{s}} }

// atHand is the way to a forge in the same program.
type atHand struct{ forge *server }

func (a atHand) RoundTrip(r *http.Request) (*http.Response, error) {
	if err := r.Context().Err(); err != nil {
		return nil, err
	}
	e, kill := a.forge.exchange(r.Clone(r.Context()))
	defer a.forge.tell(e)
	answer := httptest.NewRecorder()
	switch e.Fault {
	case NoFault:
		return &http.Response{StatusCode: e.Status, Header: e.AnswerHeader, Body: io.NopCloser(bytes.NewReader(e.Answer)), Request: r}, nil
	case Hang, HangDone:
		return nil, os.ErrDeadlineExceeded // a net.Error that is a time-out
	case Reset, ResetDone:
		return nil, syscall.ECONNRESET
	case Kill, KillDone:
		kill()
		return nil, r.Context().Err()
	}
	e.Fault.answer(answer, r, kill)
	resp := answer.Result()
	resp.Request = r
	return resp, nil
}
