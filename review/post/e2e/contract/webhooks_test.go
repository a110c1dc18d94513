package contract

import (
	"bytes"
	"crypto/hmac"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"maps"
	"net/http/httptest"
	"os"
	"strings"
	"testing"
	"time"

	"passband.example/review/serve"
)

// TestWebhooks delivers GitHub's own examples of every event to the server. Each is
// answered as done, and of which events there are jobs is told here.
func TestWebhooks(t *testing.T) {
	text, err := os.ReadFile("testdata/webhooks.json")
	if err != nil {
		t.Fatal(err)
	}
	var examples []struct {
		Event   string
		Payload json.RawMessage
	}
	if err := json.Unmarshal(text, &examples); err != nil {
		t.Fatal(err)
	}
	queue, err := serve.OpenQueue(t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	secret := []byte("only for this test")
	s := &serve.Server{Secret: secret, Repositories: []string{"owner/plan"}, Queue: queue}
	got, events, jobs := map[string]int{}, map[string]bool{}, 0
	for _, e := range examples {
		events[e.Event] = true
		mac := hmac.New(sha256.New, secret)
		mac.Write(e.Payload)
		r := httptest.NewRequest("POST", "/hook", bytes.NewReader(e.Payload))
		r.Header.Set("X-GitHub-Event", e.Event)
		r.Header.Set("X-Hub-Signature-256", "sha256="+hex.EncodeToString(mac.Sum(nil)))
		w := httptest.NewRecorder()
		s.Handler().ServeHTTP(w, r)
		if w.Code >= 300 {
			t.Errorf("%s is answered %d %s", e.Event, w.Code, w.Body)
		}
		if strings.Contains(w.Body.String(), "JSON") || strings.Contains(w.Body.String(), "two ends") {
			t.Errorf("an event of the forge is not understood: %s: %s", e.Event, w.Body)
		}
		var payload struct{ Action string }
		if err := json.Unmarshal(e.Payload, &payload); err != nil {
			t.Fatal(err)
		}
		if waits, _ := queue.Counts(); waits > 0 {
			got[e.Event+" "+payload.Action] += waits
			jobs += waits
		}
		for j, ok := take(queue); ok; j, ok = take(queue) {
			if _, err := queue.Done(j, nil, time.Now()); err != nil {
				t.Fatal(err)
			}
		}
	}
	want := map[string]int{
		"pull_request opened": 3, "pull_request synchronize": 1, "pull_request reopened": 1, "pull_request ready_for_review": 1,
		"merge_group checks_requested": 2, "check_suite rerequested": 1,
	}
	if !maps.Equal(got, want) {
		t.Errorf("jobs: %v, want %v", got, want)
	}
	t.Logf("%d payloads of %d events, %d jobs", len(examples), len(events), jobs)
}

func take(q *serve.Queue) (serve.Job, bool) {
	j, ok, _, _ := q.Take(time.Now().Add(time.Second))
	return j, ok
}
