package main

import (
	"bytes"
	"context"
	"crypto/hmac"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"net/http"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"testing"
	"time"

	"passband.example/plandiff/demo"
)

// A sink is a stream that is read while it is written.
type sink struct {
	mu   sync.Mutex
	text bytes.Buffer
}

func (s *sink) Write(p []byte) (int, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.text.Write(p)
}

func (s *sink) String() string {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.text.String()
}

// TestServe receives a webhook, fetches the pull request and posts its review, then ends
// when it is interrupted.
func TestServe(t *testing.T) {
	b := newBench(t)
	b.git("update-ref", "refs/pull/7/head", demo.Proposal)
	forgeDir := t.TempDir()
	if err := os.MkdirAll(filepath.Join(forgeDir, "owner"), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.Rename(b.dir, filepath.Join(forgeDir, "owner", "plan.git")); err != nil {
		t.Fatal(err)
	}
	b.env = map[string]string{"PASSBAND_SECRET": "s3cret", "PASSBAND_TOKEN": "right"}
	ctx, stop := context.WithCancel(context.Background())
	defer stop()
	var stderr sink
	ended := make(chan int, 1)
	go func() {
		ended <- run(ctx, []string{"serve", "--listen", "127.0.0.1:0", "--dir", t.TempDir(), "--api", b.forge.URL, "--git", "file://" + forgeDir, "--repository", "owner/plan"},
			&sink{}, &stderr, func(k string) string { return b.env[k] }, time.Now)
	}()
	wait := func(what string) string {
		for end := time.Now().Add(20 * time.Second); time.Now().Before(end); time.Sleep(10 * time.Millisecond) {
			if m := regexp.MustCompile(what).FindStringSubmatch(stderr.String()); m != nil {
				return m[len(m)-1]
			}
		}
		t.Fatalf("%q never came:\n%s", what, stderr.String())
		return ""
	}
	address := wait(`listening on (\S+)`)
	body := fmt.Appendf(nil, `{"action":"opened","pull_request":{"number":7,"base":{"ref":"main","sha":%q},"head":{"ref":%q,"sha":%q}},"repository":{"full_name":"owner/plan"}}`, b.main, demo.Proposal, b.north)
	mac := hmac.New(sha256.New, []byte("s3cret"))
	mac.Write(body)
	req, err := http.NewRequest("POST", "http://"+address+"/hook", bytes.NewReader(body))
	if err != nil {
		t.Fatal(err)
	}
	req.Header.Set("X-GitHub-Event", "pull_request")
	req.Header.Set("X-Hub-Signature-256", "sha256="+hex.EncodeToString(mac.Sum(nil)))
	resp, err := http.DefaultClient.Do(req)
	if err != nil {
		t.Fatal(err)
	}
	resp.Body.Close()
	if resp.StatusCode != http.StatusAccepted {
		t.Errorf("the delivery is answered %s", resp.Status)
	}
	wait(`owner/plan#7 passband: (Blocked: .*)`)
	stop()
	if status := <-ended; status != exitFine {
		t.Errorf("it ends with status %d:\n%s", status, stderr.String())
	}
	b.forge.Lock()
	defer b.forge.Unlock()
	if len(b.forge.LineComments) < 10 || len(b.forge.Comments) != 1 || len(b.forge.Statuses) != 1 {
		t.Errorf("%d comments, %d summaries, %d statuses", len(b.forge.LineComments), len(b.forge.Comments), len(b.forge.Statuses))
	}
}

// TestServeNeeds wants it said what is missing.
func TestServeNeeds(t *testing.T) {
	for _, c := range []struct {
		env  map[string]string
		args []string
		want string
	}{
		{nil, nil, "PASSBAND_SECRET is not set"},
		{map[string]string{"PASSBAND_SECRET": "s"}, nil, "PASSBAND_TOKEN is not set"},
		{map[string]string{"PASSBAND_SECRET": "s", "PASSBAND_TOKEN": "t"}, []string{"--dir", t.TempDir()}, "--repository are needed"},
		{map[string]string{"PASSBAND_SECRET": "s", "PASSBAND_TOKEN": "t"}, []string{"--dir", t.TempDir(), "--api", "http://x", "--git", "http://x", "--repository", "a/b", "--listen", "256.0.0.1:1"}, "cannot be listened on"},
	} {
		var stderr bytes.Buffer
		status := run(context.Background(), append([]string{"serve"}, c.args...), &stderr, &stderr, func(k string) string { return c.env[k] }, time.Now)
		if status != exitFailed || !strings.Contains(stderr.String(), c.want) {
			t.Errorf("%q: status %d, %s", c.want, status, stderr.String())
		}
	}
}
