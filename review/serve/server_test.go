package serve

import (
	"bytes"
	"context"
	"crypto/hmac"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"
)

var secret = []byte("It's a Secret to Everybody")

// TestSigned uses the vector that GitHub publishes (docs.github.com, validating webhook
// deliveries).
func TestSigned(t *testing.T) {
	const vector = "757107ea0eb2509fc211221cce984b8a37570b6d7586c22c46f4379c8b043e17"
	for _, c := range []struct {
		name, why, header string
		secret            []byte
		want              bool
	}{
		{"the vector", "as published", "sha256=" + vector, secret, true},
		{"upper case", "hexadecimal all the same", "sha256=" + strings.ToUpper(vector), secret, true},
		{"another body's", "one digit differs", "sha256=0" + vector[1:], secret, false},
		{"cut", "a part is none", "sha256=" + vector[:62], secret, false},
		{"none", "unsigned", "", secret, false},
		{"the weaker one", "SHA-1 is not looked at", "sha1=" + vector[:40], secret, false},
		{"no secret", "nothing would be checked", "sha256=" + sign([]byte("Hello, World!"), nil), nil, false},
	} {
		id, ok := signed(http.Header{"X-Hub-Signature-256": {c.header}}, []byte("Hello, World!"), c.secret)
		if ok != c.want || ok && id != vector {
			t.Errorf("%s: %s: %q, %t", c.name, c.why, id, ok)
		}
		if bare, ok := strings.CutPrefix(c.header, "sha256="); ok {
			if id, ok := signed(http.Header{"X-Gitea-Signature": {bare}}, []byte("Hello, World!"), c.secret); ok != c.want || ok && id != vector {
				t.Errorf("%s, in Gitea's header: %s: %q, %t", c.name, c.why, id, ok)
			}
		}
	}
	both := http.Header{"X-Hub-Signature-256": {"sha1=" + vector[:40]}, "X-Gitea-Signature": {vector}}
	if _, ok := signed(both, []byte("Hello, World!"), secret); ok {
		t.Error("a header that does not hold is made up for by another")
	}
}

func sign(body, key []byte) string {
	mac := hmac.New(sha256.New, key)
	mac.Write(body)
	return hex.EncodeToString(mac.Sum(nil))
}

// pullBody is a delivery about pull request n, whose head begins with a digit.
func pullBody(n int, head, action string) []byte {
	return fmt.Appendf(nil, `{"action":%q,"pull_request":{"number":%d,"base":{"ref":"main","sha":"%s"},"head":{"ref":"new","sha":"%s"}},"repository":{"full_name":"club/plan"}}`,
		action, n, strings.Repeat("b", 40), strings.Repeat(head, 40))
}

// A post is how a delivery is sent.
func deliver(t *testing.T, s *Server, event string, body []byte, key []byte) (int, string) {
	t.Helper()
	r := httptest.NewRequest("POST", "/hook", bytes.NewReader(body))
	r.Header.Set("X-GitHub-Event", event)
	r.Header.Set("X-Hub-Signature-256", "sha256="+sign(body, key))
	w := httptest.NewRecorder()
	s.Handler().ServeHTTP(w, r)
	return w.Code, strings.TrimSpace(w.Body.String())
}

func newServer(t *testing.T, dir string, review func(context.Context, Job) error) *Server {
	t.Helper()
	q, err := OpenQueue(dir)
	if err != nil {
		t.Fatal(err)
	}
	return &Server{Secret: secret, Repositories: []string{"club/plan"}, Queue: q, Workers: 2, Review: review, Log: t.Logf, Grace: 20 * time.Millisecond}
}

func TestHook(t *testing.T) {
	s := newServer(t, t.TempDir(), nil)
	for _, c := range []struct {
		name, why, event string
		body             []byte
		key              []byte
		status           int
		said             string
	}{
		{"a ping", "the forge asks whether somebody is there", "ping", []byte("{}"), secret, 200, "ready"},
		{"a pull request", "it is kept before it is answered", "pull_request", pullBody(7, "1", "opened"), secret, 202, "queued"},
		{"the same again", "a replay does nothing", "pull_request", pullBody(7, "1", "opened"), secret, 200, "before"},
		{"Gitea's word", "synchronized", "pull_request", pullBody(7, "2", "synchronized"), secret, 202, "queued"},
		{"another action", "there is nothing to judge", "pull_request", pullBody(7, "1", "labeled"), secret, 202, "action"},
		{"another event", "the same", "star", []byte("{}"), secret, 202, "event"},
		{"another repository", "it is not served", "pull_request", bytes.ReplaceAll(pullBody(7, "1", "opened"), []byte("club/plan"), []byte("club/other")), secret, 202, "not served"},
		{"another secret", "anybody can send", "pull_request", pullBody(8, "1", "opened"), []byte("x"), 401, "not signed"},
		{"a ref that is an option", "nothing of a delivery becomes a word of a command", "pull_request", bytes.ReplaceAll(pullBody(7, "1", "opened"), []byte(`"main"`), []byte(`"--upload-pack=x"`)), secret, 202, "two ends"},
		{"no hash", "the same", "pull_request", bytes.ReplaceAll(pullBody(7, "1", "opened"), []byte("bbbb"), []byte("../x")), secret, 202, "two ends"},
		{"no JSON", "it cannot be read", "pull_request", []byte("<html>"), secret, 202, "JSON"},
		{"too large", "more than forges send", "pull_request", bytes.Repeat([]byte(" "), mostDelivery+1), secret, 413, "larger"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if status, said := deliver(t, s, c.event, c.body, c.key); status != c.status || !strings.Contains(said, c.said) {
				t.Errorf("%s: %d %s", c.why, status, said)
			}
		})
	}
	if waits, _ := s.Queue.Counts(); waits != 2 {
		t.Errorf("%d jobs wait", waits)
	}
	w := httptest.NewRecorder()
	s.Handler().ServeHTTP(w, httptest.NewRequest("GET", "/metrics", nil))
	for _, want := range []string{"passband_deliveries_total{result=\"queued\"} 2\n", "passband_deliveries_total{result=\"refused\"} 2\n", "passband_deliveries_total{result=\"replayed\"} 1\n", "passband_waiting 2\n", "# TYPE passband_working gauge\n"} {
		if !strings.Contains(w.Body.String(), want) {
			t.Errorf("%q is not in\n%s", want, w.Body)
		}
	}
}

// until waits for something to be so.
func until(t *testing.T, what string, so func() bool) {
	t.Helper()
	for end := time.Now().Add(5 * time.Second); !so(); time.Sleep(time.Millisecond) {
		if time.Now().After(end) {
			t.Fatalf("it never came that %s", what)
		}
	}
}

// work runs a server until the test ends, and gives what stops it and waits.
func work(s *Server) (stop func()) {
	ctx, cancel := context.WithCancel(context.Background())
	ended := make(chan struct{})
	go func() { s.Work(ctx); close(ended) }()
	return func() { cancel(); <-ended }
}

// TestWork judges many at once, but never two of one pull request, nor one that a later
// one has overtaken, nor more than there are workers.
func TestWork(t *testing.T) {
	var mu sync.Mutex
	at, most, seen := map[int]int{}, 0, []string{}
	s := newServer(t, t.TempDir(), func(_ context.Context, j Job) error {
		mu.Lock()
		at[j.Number]++
		sum := 0
		for _, n := range at {
			sum += n
			if n > 1 {
				t.Errorf("pull request %d is judged twice at once", j.Number)
			}
		}
		most = max(most, sum)
		seen = append(seen, fmt.Sprintf("%d:%.1s", j.Number, j.Head))
		mu.Unlock()
		time.Sleep(5 * time.Millisecond)
		mu.Lock()
		at[j.Number]--
		mu.Unlock()
		return nil
	})
	for n := 1; n <= 6; n++ {
		for _, head := range []string{"1", "2", "3"} {
			deliver(t, s, "pull_request", pullBody(n, head, "opened"), secret)
		}
	}
	stop := work(s)
	until(t, "all are judged", func() bool { waits, works := s.Queue.Counts(); return waits+works == 0 })
	stop()
	slices.Sort(seen)
	if most != 2 || !slices.Equal(seen, []string{"1:3", "2:3", "3:3", "4:3", "5:3", "6:3"}) {
		t.Errorf("%d at once, %q", most, seen)
	}
	if status, said := deliver(t, s, "pull_request", pullBody(9, "1", "opened"), secret); status != 503 {
		t.Errorf("after the end: %d %s", status, said)
	}
}

// TestRestart ends a server in the middle of a review, and wants the next one to do it,
// and what was queued behind it.
func TestRestart(t *testing.T) {
	dir := t.TempDir()
	begun := make(chan struct{}, 10)
	s := newServer(t, dir, func(ctx context.Context, _ Job) error {
		begun <- struct{}{}
		<-ctx.Done()
		return ctx.Err()
	})
	s.Workers = 1
	deliver(t, s, "pull_request", pullBody(1, "1", "opened"), secret)
	deliver(t, s, "pull_request", pullBody(2, "1", "opened"), secret)
	stop := work(s)
	<-begun
	stop()
	if err := os.WriteFile(filepath.Join(dir, waiting, ".tmp-left"), []byte("{"), 0o600); err != nil {
		t.Fatal(err)
	}
	var judged atomic.Int32
	again := newServer(t, dir, func(_ context.Context, j Job) error {
		if j.Tries != 0 {
			t.Errorf("a review that was cut off counts as tried: %+v", j)
		}
		judged.Add(1)
		return nil
	})
	if status, said := deliver(t, again, "pull_request", pullBody(1, "1", "opened"), secret); status != 200 {
		t.Errorf("what waits is taken again: %d %s", status, said)
	}
	stop = work(again)
	until(t, "both are judged", func() bool { waits, works := again.Queue.Counts(); return waits+works == 0 })
	stop()
	if judged.Load() != 2 {
		t.Errorf("%d were judged", judged.Load())
	}
	third := newServer(t, dir, nil)
	if status, said := deliver(t, third, "pull_request", pullBody(2, "1", "opened"), secret); status != 200 || !strings.Contains(said, "before") {
		t.Errorf("what is done is taken again: %d %s", status, said)
	}
}

// TestGrace lets a review end that is under way.
func TestGrace(t *testing.T) {
	begun, judged := make(chan struct{}), atomic.Int32{}
	s := newServer(t, t.TempDir(), func(ctx context.Context, _ Job) error {
		close(begun)
		time.Sleep(30 * time.Millisecond)
		judged.Add(1)
		return ctx.Err()
	})
	s.Grace = 5 * time.Second
	deliver(t, s, "pull_request", pullBody(1, "1", "opened"), secret)
	stop := work(s)
	<-begun
	stop()
	if waits, works := s.Queue.Counts(); judged.Load() != 1 || waits+works != 0 {
		t.Errorf("%d judged, %d wait, %d at work", judged.Load(), waits, works)
	}
}

// TestFailing tries what fails later again, longer each time, and gives up; then the same
// delivery is taken when somebody has it sent again.
func TestFailing(t *testing.T) {
	s := newServer(t, t.TempDir(), nil)
	deliver(t, s, "pull_request", pullBody(1, "1", "opened"), secret)
	now := time.Now().Add(time.Second)
	for i, wait := range []time.Duration{time.Minute, 4 * time.Minute, 16 * time.Minute, 64 * time.Minute, 0} {
		j, ok, _, _ := s.Queue.Take(now)
		if !ok {
			t.Fatalf("try %d: there is no job", i)
		}
		given, err := s.Queue.Done(j, errors.New("the forge is away"), now)
		if err != nil || (given == "failed") != (wait == 0) {
			t.Errorf("try %d: %s, %v", i, given, err)
		}
		if _, ok, again, _ := s.Queue.Take(now); ok || wait > 0 && again != min(wait, time.Hour) {
			t.Errorf("try %d: it waits %s", i, again)
		}
		now = now.Add(wait)
	}
	if status, said := deliver(t, s, "pull_request", pullBody(1, "1", "opened"), secret); status != 202 {
		t.Errorf("sent again: %d %s", status, said)
	}
}

// TestPanic lets a review break, and wants the server to go on.
func TestPanic(t *testing.T) {
	var judged atomic.Int32
	s := newServer(t, t.TempDir(), func(_ context.Context, j Job) error {
		if j.Number == 1 {
			panic("oh")
		}
		judged.Add(1)
		return nil
	})
	s.Workers = 1
	deliver(t, s, "pull_request", pullBody(1, "1", "opened"), secret)
	deliver(t, s, "pull_request", pullBody(2, "1", "opened"), secret)
	stop := work(s)
	until(t, "the other is judged", func() bool { return judged.Load() == 1 })
	stop()
}

func TestHealth(t *testing.T) {
	s := newServer(t, t.TempDir(), nil)
	ask := func() int {
		w := httptest.NewRecorder()
		s.Handler().ServeHTTP(w, httptest.NewRequest("GET", "/healthz", nil))
		return w.Code
	}
	if got := ask(); got != 200 {
		t.Errorf("ready: %d", got)
	}
	if err := os.RemoveAll(s.Queue.dir); err != nil {
		t.Fatal(err)
	}
	if got := ask(); got != 503 {
		t.Errorf("without a folder: %d", got)
	}
	if status, said := deliver(t, s, "pull_request", pullBody(1, "1", "opened"), secret); status != 503 {
		t.Errorf("a delivery that cannot be kept: %d %s", status, said)
	}
}
