package forge

import (
	"bufio"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// TestWebhookOnGitea has the server deliver its own webhooks to a running "passband serve",
// which fetches the proposal, reviews it and posts: nothing else is at work. A push to the
// branch has it reviewed again, a merge to main gets a status, and the server's button to
// try a webhook is answered.
func TestWebhookOnGitea(t *testing.T) {
	b := newBench(t)
	address, said := b.serve()
	b.must("owner", "POST", "/repos/owner/plan/hooks", map[string]any{
		"type": "gitea", "active": true, "events": []string{"push", "pull_request", "pull_request_sync"},
		"config": map[string]string{"url": "http://" + address + "/hook", "content_type": "json", "secret": "s3cret"},
	}, nil)
	b.must("owner", "PATCH", fmt.Sprintf("/repos/owner/plan/pulls/%d", b.number), map[string]any{"title": "Repeaters in the north"}, nil) // edited
	until(t, "the review is posted", func() bool { return len(b.summaries()) == 1 && b.status() == "failure" })
	first := b.lines()
	if len(first) < 10 {
		t.Errorf("%d comments\n%s", len(first), said())
	}

	b.git("checkout", "-q", "new-repeater-north")
	b.git("checkout", "-q", "origin/main", "--", ".")
	b.replace("messages.yaml", "Running late", "I am running late")
	b.push("Keep only what is in order") // synchronized
	until(t, "it is reviewed again", func() bool { return b.status() == "success" })
	for _, c := range b.lines() {
		if !strings.Contains(c.Body, "No longer found") {
			t.Errorf("still open: %s", c.Body)
		}
	}
	if n := len(b.summaries()); n != 1 || len(b.lines()) != len(first) {
		t.Errorf("%d summaries, %d comments", n, len(b.lines()))
	}

	if got := b.merge(); !strings.HasPrefix(got, "200") {
		t.Fatalf("the merge answers %s", got)
	}
	b.git("fetch", "-q", "origin")
	merged := strings.TrimSpace(b.git("rev-parse", "origin/main"))
	until(t, "what came to main has a status", func() bool {
		var status struct{ State string }
		b.must("owner", "GET", "/repos/owner/plan/commits/"+merged+"/status", nil, &status)
		return status.State == "success"
	})
	var hooks []struct{ ID int64 }
	b.must("owner", "GET", "/repos/owner/plan/hooks", nil, &hooks)
	b.must("owner", "POST", fmt.Sprintf("/repos/owner/plan/hooks/%d/tests", hooks[0].ID), nil, nil)
	if text := said(); strings.Contains(text, "failed") {
		t.Error(text)
	} else {
		t.Logf("serve says:\n%s", text)
	}
}

// serve runs "passband serve" for the repository until the test ends, and gives its
// address and what it has said.
func (b *bench) serve() (address string, said func() string) {
	b.t.Helper()
	cmd := exec.Command(b.passband, "serve", "--listen", "127.0.0.1:0", "--dir", filepath.Join(b.dir, "serve"), "--api", b.url+"/api/v1", "--git", b.url, "--repository", "owner/plan")
	cmd.Env = append(os.Environ(), "PASSBAND_SECRET=s3cret", "PASSBAND_TOKEN="+b.tokens["owner"])
	log, err := os.Create(filepath.Join(b.dir, "serve.log"))
	if err != nil {
		b.t.Fatal(err)
	}
	cmd.Stderr = log
	if err := cmd.Start(); err != nil {
		b.t.Fatal(err)
	}
	b.t.Cleanup(func() {
		_ = cmd.Process.Signal(os.Interrupt)
		if err := cmd.Wait(); err != nil {
			b.t.Errorf("serve ends with %v", err)
		}
		log.Close()
	})
	said = func() string {
		text, err := os.ReadFile(log.Name())
		if err != nil {
			b.t.Fatal(err)
		}
		return string(text)
	}
	until(b.t, "it listens", func() bool {
		for lines := bufio.NewScanner(strings.NewReader(said())); lines.Scan(); {
			if _, at, ok := strings.Cut(lines.Text(), "listening on "); ok {
				address = at
			}
		}
		return address != ""
	})
	return address, said
}
