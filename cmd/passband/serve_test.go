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

// A served is a running server, and the double of the forge that it serves.
type served struct {
	*bench
	address string
	stderr  *sink
	end     func() int // interrupts it, and gives its status
}

// newServed starts a server for the demo's repository, with the proposal as pull request 7.
func newServed(t *testing.T) *served {
	b := newBench(t)
	b.git("update-ref", "refs/pull/7/head", demo.Proposal)
	forgeDir := t.TempDir()
	if err := os.MkdirAll(filepath.Join(forgeDir, "owner"), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.Rename(b.dir, filepath.Join(forgeDir, "owner", "plan.git")); err != nil {
		t.Fatal(err)
	}
	b.dir = filepath.Join(forgeDir, "owner", "plan.git")
	b.env = map[string]string{"PASSBAND_SECRET": "s3cret", "PASSBAND_TOKEN": "right"}
	ctx, stop := context.WithCancel(context.Background())
	t.Cleanup(stop)
	s := &served{bench: b, stderr: new(sink)}
	ended := make(chan int, 1)
	go func() {
		ended <- run(ctx, []string{"serve", "--listen", "127.0.0.1:0", "--dir", t.TempDir(), "--api", b.forge.URL, "--git", "file://" + forgeDir, "--repository", "owner/plan"},
			&sink{}, s.stderr, func(k string) string { return b.env[k] }, time.Now)
	}()
	s.end = func() int { stop(); return <-ended }
	s.address = s.wait(`listening on (\S+)`)
	return s
}

// wait waits until the server says something.
func (s *served) wait(what string) string {
	s.t.Helper()
	for end := time.Now().Add(20 * time.Second); time.Now().Before(end); time.Sleep(10 * time.Millisecond) {
		if m := regexp.MustCompile(what).FindStringSubmatch(s.stderr.String()); m != nil {
			return m[len(m)-1]
		}
	}
	s.t.Fatalf("%q never came:\n%s", what, s.stderr.String())
	return ""
}

// deliver sends an event as GitHub does, and wants it to be queued.
func (s *served) deliver(event, payload string) {
	s.t.Helper()
	body := []byte(payload)
	mac := hmac.New(sha256.New, []byte("s3cret"))
	mac.Write(body)
	req, err := http.NewRequest("POST", "http://"+s.address+"/hook", bytes.NewReader(body))
	if err != nil {
		s.t.Fatal(err)
	}
	req.Header.Set("X-GitHub-Event", event)
	req.Header.Set("X-Hub-Signature-256", "sha256="+hex.EncodeToString(mac.Sum(nil)))
	resp, err := http.DefaultClient.Do(req)
	if err != nil {
		s.t.Fatal(err)
	}
	resp.Body.Close()
	if resp.StatusCode != http.StatusAccepted {
		s.t.Errorf("the delivery is answered %s", resp.Status)
	}
}

// TestServe receives a webhook, fetches the pull request and posts its review, then ends
// when it is interrupted.
func TestServe(t *testing.T) {
	s := newServed(t)
	s.deliver("pull_request", fmt.Sprintf(`{"action":"opened","pull_request":{"number":7,"base":{"ref":"main","sha":%q},"head":{"ref":%q,"sha":%q}},"repository":{"full_name":"owner/plan"}}`, s.main, demo.Proposal, s.north))
	s.wait(`owner/plan#7 passband: (Blocked: .*)`)
	if status := s.end(); status != exitFine {
		t.Errorf("it ends with status %d:\n%s", status, s.stderr)
	}
	s.forge.Lock()
	defer s.forge.Unlock()
	if len(s.forge.LineComments) < 10 || len(s.forge.Comments) != 1 || len(s.forge.Statuses) != 1 {
		t.Errorf("%d comments, %d summaries, %d statuses", len(s.forge.LineComments), len(s.forge.Comments), len(s.forge.Statuses))
	}
}

// TestServeStatus receives what a merge queue would merge and what was pushed to the
// default branch: each gets a status and no comment.
func TestServeStatus(t *testing.T) {
	s := newServed(t)
	const queue = "gh-readonly-queue/main/pr-7-1"
	s.git("update-ref", "refs/heads/"+queue, demo.Proposal)
	before := s.git("rev-parse", demo.Main+"~1")
	s.deliver("merge_group", fmt.Sprintf(`{"action":"checks_requested","merge_group":{"base_ref":"refs/heads/main","base_sha":%q,"head_ref":"refs/heads/%s","head_sha":%q},"repository":{"full_name":"owner/plan"}}`, s.main, queue, s.north))
	s.wait(`owner/plan ` + queue + ` passband: (Blocked: .*)`)
	s.deliver("push", fmt.Sprintf(`{"ref":"refs/heads/main","before":%q,"after":%q,"repository":{"full_name":"owner/plan","default_branch":"main"}}`, before, s.main))
	s.wait(`owner/plan main passband: (Nothing blocks.*)`)
	if status := s.end(); status != exitFine {
		t.Errorf("it ends with status %d:\n%s", status, s.stderr)
	}
	s.forge.Lock()
	defer s.forge.Unlock()
	if len(s.forge.LineComments)+len(s.forge.Comments) != 0 || len(s.forge.Statuses) != 2 {
		t.Fatalf("%d comments, %d summaries, statuses %+v", len(s.forge.LineComments), len(s.forge.Comments), s.forge.Statuses)
	}
	if queued, pushed := s.forge.Statuses[0], s.forge.Statuses[1]; queued.Commit != s.north || queued.State != "failure" || pushed.Commit != s.main || pushed.State != "success" {
		t.Errorf("%+v %+v", queued, pushed)
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
