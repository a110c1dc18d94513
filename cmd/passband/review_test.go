package main

import (
	"bytes"
	"context"
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"passband.example/plandiff/demo"
	"passband.example/review/post/forgetest"
)

// A bench is the demo's proposal as a pull request on a forge, and the run of a job.
type bench struct {
	t     *testing.T
	dir   string
	forge *forgetest.GitHub
	env   map[string]string
	main  string
	north string
}

func newBench(t *testing.T) *bench {
	b := &bench{t: t, dir: filepath.Join(t.TempDir(), "club"), forge: forgetest.NewGitHub(t.Cleanup)}
	if err := demo.Write(context.Background(), b.dir); err != nil {
		t.Fatal(err)
	}
	b.main, b.north = b.git("rev-parse", demo.Main), b.git("rev-parse", demo.Proposal)
	patches := make(map[string]string)
	for _, file := range strings.Split("\n"+b.git("diff", "--no-ext-diff", "-U3", demo.Main+"..."+demo.Proposal), "\ndiff --git ")[1:] {
		_, name, _ := strings.Cut(strings.SplitN(file, "\n", 2)[0], " b/")
		patches[name] = file[strings.Index(file, "\n@@ ")+1:] + "\n"
	}
	b.forge.Push(b.north, patches, nil)
	b.env = map[string]string{
		"GITHUB_ACTIONS": "true", "GITHUB_API_URL": b.forge.URL, "GITHUB_GRAPHQL_URL": b.forge.URL + "/graphql", "GITHUB_REPOSITORY": "owner/plan", "GITHUB_TOKEN": "right",
		"GITHUB_EVENT_PATH": filepath.Join(b.dir, "event.json"), "GITHUB_STEP_SUMMARY": filepath.Join(b.dir, "summary.md"),
	}
	return b
}

func (b *bench) git(args ...string) string {
	b.t.Helper()
	out, err := exec.Command("git", append([]string{"-C", b.dir}, args...)...).Output()
	if err != nil {
		b.t.Fatalf("git %q: %v", args, err)
	}
	return strings.TrimSpace(string(out))
}

// review runs the program on an event.
func (b *bench) review(name string, event map[string]any, args ...string) (status int, stdout, stderr string) {
	b.t.Helper()
	event["repository"] = map[string]any{"full_name": "owner/plan", "default_branch": "main"}
	text, err := json.Marshal(event)
	if err != nil {
		b.t.Fatal(err)
	}
	if err := os.WriteFile(b.env["GITHUB_EVENT_PATH"], text, 0o644); err != nil {
		b.t.Fatal(err)
	}
	b.env["GITHUB_EVENT_NAME"] = name
	var out, errs bytes.Buffer
	today := func() time.Time { return time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC) }
	status = run(context.Background(), append([]string{"review", "--plan", b.dir}, args...), &out, &errs, func(k string) string { return b.env[k] }, today)
	return status, out.String(), errs.String()
}

func (b *bench) pull() map[string]any {
	return map[string]any{"pull_request": map[string]any{
		"number": 7, "base": map[string]any{"ref": "main", "sha": b.main},
		"head": map[string]any{"ref": demo.Proposal, "sha": b.north, "repo": map[string]any{"full_name": "stranger/plan"}},
	}}
}

// TestReviewPosts runs the whole way on a pull request: twice, and with a token that
// may only read.
func TestReviewPosts(t *testing.T) {
	b := newBench(t)
	status, stdout, stderr := b.review("pull_request", b.pull(), "--post")
	if status != exitBlocks || len(b.forge.LineComments) < 10 || len(b.forge.Comments) != 1 {
		t.Fatalf("status %d, %d comments, %d summaries\n%s", status, len(b.forge.LineComments), len(b.forge.Comments), stderr)
	}
	if s := b.forge.Statuses[0]; s.State != "failure" || s.Context != "passband" || s.Commit != b.north {
		t.Errorf("%+v", s)
	}
	if !strings.Contains(stdout, "::error file=zones.yaml,line=10,") || strings.Contains(stdout, "## Blocked") {
		t.Errorf("it prints\n%s", stdout)
	}
	if lines := strings.Split(strings.TrimSpace(stderr), "\n"); !strings.HasPrefix(lines[len(lines)-1], "passband: Blocked: the change brings") {
		t.Errorf("the last line is not the verdict:\n%s", stderr)
	}
	writes := b.forge.Writes
	if status, _, _ := b.review("pull_request", b.pull(), "--post"); status != exitBlocks || b.forge.Writes != writes+1 {
		t.Errorf("status %d, and the second run writes %d times", status, b.forge.Writes-writes)
	}

	b = newBench(t)
	b.forge.ReadOnly = true
	status, stdout, stderr = b.review("pull_request", b.pull(), "--post")
	if status != exitBlocks || b.forge.Writes != 0 || !strings.Contains(stderr, "all findings are in the summary") || !strings.Contains(stdout, "::error ") {
		t.Errorf("status %d\n%s", status, stderr)
	}
	if text, err := os.ReadFile(b.env["GITHUB_STEP_SUMMARY"]); err != nil || !strings.Contains(string(text), "## Blocked") {
		t.Errorf("the summary of the job: %v", err)
	}
}

// TestReviewAfterRun comments on a pull request of a fork from a trusted run, which
// looks it up by its head.
func TestReviewAfterRun(t *testing.T) {
	b := newBench(t)
	event := func(head string) map[string]any {
		return map[string]any{"workflow_run": map[string]any{"head_sha": head, "head_branch": demo.Proposal, "head_repository": map[string]any{"full_name": "stranger/plan", "owner": map[string]any{"login": "stranger"}}}}
	}
	b.forge.Base = b.main
	if status, _, stderr := b.review("workflow_run", event(b.north), "--post"); status != exitBlocks || len(b.forge.LineComments) < 10 {
		t.Errorf("status %d, %d comments\n%s", status, len(b.forge.LineComments), stderr)
	}
	writes := b.forge.Writes
	if status, _, stderr := b.review("workflow_run", event(b.main), "--post"); status != exitFailed || b.forge.Writes != writes || !strings.Contains(stderr, "no open pull request has this commit") {
		t.Errorf("status %d\n%s", status, stderr)
	}
}

// TestReviewInQueue has no pull request to comment on, and sets the status.
func TestReviewInQueue(t *testing.T) {
	b := newBench(t)
	event := map[string]any{"merge_group": map[string]any{"base_sha": b.main, "base_ref": "refs/heads/main", "head_sha": b.north}}
	status, stdout, _ := b.review("merge_group", event, "--post")
	if status != exitBlocks || len(b.forge.Statuses) != 1 || len(b.forge.LineComments)+len(b.forge.Comments) != 0 || !strings.Contains(stdout, "## Blocked") {
		t.Errorf("status %d, statuses %+v", status, b.forge.Statuses)
	}
}

// TestReviewForgeFails lets the forge fail for good. The verdict of a change that
// blocks stands; a change that does not is no success, since nobody was told.
func TestReviewForgeFails(t *testing.T) {
	b := newBench(t)
	b.forge.Token = "another"
	if status, _, stderr := b.review("pull_request", b.pull(), "--post"); status != exitBlocks || !strings.Contains(stderr, "401") {
		t.Errorf("status %d\n%s", status, stderr)
	}
	b.env["GITHUB_REPOSITORY"] = "nonsense"
	sound := b.pull()
	sound["pull_request"].(map[string]any)["head"].(map[string]any)["sha"] = b.main
	if status, _, stderr := b.review("pull_request", sound, "--post"); status != exitFailed || !strings.Contains(stderr, "owner/name") {
		t.Errorf("status %d\n%s", status, stderr)
	}
}
