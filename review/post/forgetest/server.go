package forgetest

import (
	"bytes"
	"encoding/json"
	"io"
	"net/http"
	"net/http/httptest"
	"strings"
	"sync"
)

// An Exchange is a request that a forge got, and what it answered. A request that was
// not answered has the status 0.
type Exchange struct {
	Method, URL  string
	Header       http.Header
	Body         []byte
	Status       int
	AnswerHeader http.Header
	Answer       []byte
	Fault        Fault
}

// Writes reports whether the request changes something on the forge: all but reading,
// and but asking a question by GraphQL.
func (e Exchange) Writes() bool {
	return e.Method != http.MethodGet && !bytes.Contains(e.Body, []byte(`"query":"query`))
}

// A server is the part that all forges share.
type server struct {
	sync.Mutex
	URL string

	Token    string // the one that is taken
	ReadOnly bool   // it may read and no more
	Fault    func(n int, r *http.Request) Fault
	OnKill   func()
	Seen     func(Exchange)

	Requests int
	Writes   int // that were done

	mux *http.ServeMux
}

// start begins to serve on loopback, until cleanup.
func (s *server) start(cleanup func(func())) {
	s.mux = http.NewServeMux()
	h := httptest.NewServer(http.HandlerFunc(s.serve))
	s.URL = h.URL
	cleanup(func() {
		h.CloseClientConnections()
		h.Close()
	})
}

func (s *server) serve(w http.ResponseWriter, r *http.Request) {
	e, kill := s.exchange(r)
	if e.Fault != NoFault {
		e.Fault.answer(w, r, kill)
	} else {
		for key, values := range e.AnswerHeader {
			w.Header()[key] = values
		}
		w.WriteHeader(e.Status)
		w.Write(e.Answer)
	}
	s.tell(e)
}

// exchange does what a request asks for, unless a fault comes before. It answers nothing
// yet.
func (s *server) exchange(r *http.Request) (e Exchange, kill func()) {
	var body []byte
	if r.Body != nil {
		body, _ = io.ReadAll(r.Body)
	}
	r.Body = io.NopCloser(bytes.NewReader(body))
	s.Lock()
	defer s.Unlock()
	s.Requests++
	fault := NoFault
	if s.Fault != nil {
		fault = s.Fault(s.Requests, r)
	}
	e = Exchange{Method: r.Method, URL: r.URL.RequestURI(), Header: r.Header.Clone(), Body: body, Fault: fault}
	if fault == NoFault || fault.Done() {
		answer := httptest.NewRecorder()
		s.authorized(answer, r, e)
		e.Status, e.AnswerHeader, e.Answer = answer.Code, answer.Header(), answer.Body.Bytes()
		if e.Writes() && answer.Code < 300 {
			s.Writes++
		}
	}
	return e, s.OnKill
}

// tell tells an exchange to who wants to know.
func (s *server) tell(e Exchange) {
	s.Lock()
	seen := s.Seen
	s.Unlock()
	if e.Fault != NoFault {
		e.Status = 0
	}
	if seen != nil {
		seen(e)
	}
}

// authorized answers, unless the token is wrong or may not do it.
func (s *server) authorized(w http.ResponseWriter, r *http.Request, e Exchange) {
	_, token, _ := strings.Cut(r.Header.Get("Authorization"), " ")
	switch {
	case token != s.Token:
		fail(w, http.StatusUnauthorized, "Bad credentials")
	case s.ReadOnly && e.Writes():
		fail(w, http.StatusForbidden, "Resource not accessible by integration")
	default:
		s.mux.ServeHTTP(w, r)
	}
}

func answer(w http.ResponseWriter, status int, v any) {
	w.Header().Set("Content-Type", "application/json; charset=utf-8")
	w.WriteHeader(status)
	_ = json.NewEncoder(w).Encode(v)
}

// body reads the body of a request.
func body[T any](r *http.Request) (v T) {
	_ = json.NewDecoder(r.Body).Decode(&v)
	return v
}
