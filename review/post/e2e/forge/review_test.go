package forge

import (
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

type comment struct {
	ID       int64
	Body     string
	Path     string
	Position int
	User     struct{ Login string }
	Resolver *struct{ Login string }
}

// A bench is the demo as a pull request on the server, with a clone of it.
type bench struct {
	*server
	clone    string
	passband string
	number   int
}

func newBench(t *testing.T) *bench {
	b := &bench{server: start(t)}
	if b.passband = os.Getenv("PASSBAND"); b.passband == "" {
		b.passband = filepath.Join(b.dir, "passband")
		b.run("../../../..", nil, "go", "build", "-o", b.passband, "./cmd/passband")
	}
	b.clone = filepath.Join(b.dir, "club")
	b.run("", nil, b.passband, "demo", b.clone)
	b.must("owner", "POST", "/user/repos", map[string]any{"name": "plan", "default_branch": "main"}, nil)
	b.must("owner", "PUT", "/repos/owner/plan/collaborators/lena", map[string]any{"permission": "write"}, nil)
	address := strings.Replace(b.url, "http://", "http://owner:"+b.tokens["owner"]+"@", 1) + "/owner/plan.git"
	b.git("remote", "add", "origin", address)
	// main went on after the branch left it, and git cannot merge the two: the pull
	// request is against main as it was.
	parted := strings.TrimSpace(b.git("merge-base", "main", "new-repeater-north"))
	b.git("push", "-q", "origin", parted+":refs/heads/main", "new-repeater-north")
	var pull struct{ Number int }
	until(t, "a pull request can be made", func() bool {
		return b.call("owner", "POST", "/repos/owner/plan/pulls", map[string]any{"head": "new-repeater-north", "base": "main", "title": "New repeaters in the north"}, &pull) == 201
	})
	b.number = pull.Number
	return b
}

func (b *bench) git(args ...string) string {
	b.t.Helper()
	return b.run(b.clone, []string{"GIT_AUTHOR_NAME=Pat Example", "GIT_AUTHOR_EMAIL=pat@example.org", "GIT_COMMITTER_NAME=Pat Example", "GIT_COMMITTER_EMAIL=pat@example.org"}, "git", args...)
}

// review runs passband as the runner of the forge would, and gives its exit status.
func (b *bench) review(token string) (int, string) {
	b.t.Helper()
	var pull map[string]any
	b.must("owner", "GET", fmt.Sprintf("/repos/owner/plan/pulls/%d", b.number), nil, &pull)
	event, err := json.Marshal(map[string]any{"pull_request": pull, "repository": map[string]any{"full_name": "owner/plan"}})
	if err != nil {
		b.t.Fatal(err)
	}
	file := filepath.Join(b.dir, "event.json")
	if err := os.WriteFile(file, event, 0o600); err != nil {
		b.t.Fatal(err)
	}
	out, err := b.try(b.clone, []string{
		"GITHUB_EVENT_NAME=pull_request", "GITHUB_EVENT_PATH=" + file, "GITHUB_API_URL=" + b.url + "/api/v1", "GITHUB_SERVER_URL=" + b.url + "/",
		"GITHUB_REPOSITORY=owner/plan", "GITHUB_TOKEN=" + token, "GITHUB_STEP_SUMMARY=" + filepath.Join(b.dir, "summary.md"), "GITHUB_OUTPUT=",
	}, b.passband, "review", "--post")
	if exit := (*exec.ExitError)(nil); errors.As(err, &exit) {
		return exit.ExitCode(), out
	} else if err != nil {
		b.t.Fatal(err)
	}
	return 0, out
}

// lines gives the comments on lines, as the server has them.
func (b *bench) lines() []comment {
	b.t.Helper()
	var reviews []struct {
		ID    int64
		State string
	}
	b.must("owner", "GET", fmt.Sprintf("/repos/owner/plan/pulls/%d/reviews?limit=50", b.number), nil, &reviews)
	var all []comment
	for _, r := range reviews {
		if r.State == "PENDING" {
			b.t.Errorf("review %d was left pending", r.ID)
		}
		var some []comment
		b.must("owner", "GET", fmt.Sprintf("/repos/owner/plan/pulls/%d/reviews/%d/comments", b.number, r.ID), nil, &some)
		all = append(all, some...)
	}
	return all
}

func (b *bench) summaries() []comment {
	b.t.Helper()
	var all []comment
	b.must("owner", "GET", fmt.Sprintf("/repos/owner/plan/issues/%d/comments", b.number), nil, &all)
	return all
}

func (b *bench) status() string {
	b.t.Helper()
	var status struct{ State string }
	b.must("owner", "GET", "/repos/owner/plan/commits/"+strings.TrimSpace(b.git("rev-parse", "origin/new-repeater-north"))+"/status", nil, &status)
	return status.State
}

// merge tries to merge, once the server knows whether it can be done, and gives what
// it answers.
func (b *bench) merge() (answer string) {
	b.t.Helper()
	until(b.t, "the server knows whether it can be merged", func() bool {
		status, text := b.ask("owner", "POST", fmt.Sprintf("/repos/owner/plan/pulls/%d/merge", b.number), map[string]any{"Do": "merge"})
		answer = fmt.Sprintf("%d %s", status, text)
		return !strings.Contains(text, "try again later")
	})
	return answer
}

// push records what stands in the clone on the branch, and waits until the pull
// request has it.
func (b *bench) push(message string) {
	b.t.Helper()
	b.git("commit", "-qam", message)
	b.git("push", "-q", "origin", "new-repeater-north")
	head := strings.TrimSpace(b.git("rev-parse", "HEAD"))
	until(b.t, "the pull request has the commit", func() bool {
		var pull struct{ Head struct{ SHA string } }
		b.must("owner", "GET", fmt.Sprintf("/repos/owner/plan/pulls/%d", b.number), nil, &pull)
		return pull.Head.SHA == head
	})
}

func (b *bench) replace(file, old, new string) {
	b.t.Helper()
	name := filepath.Join(b.clone, file)
	text, err := os.ReadFile(name)
	if err != nil || strings.Count(string(text), old) != 1 {
		b.t.Fatalf("%s: %v, %q stands %d times", file, err, old, strings.Count(string(text), old))
	}
	if err := os.WriteFile(name, []byte(strings.Replace(string(text), old, new, 1)), 0o644); err != nil {
		b.t.Fatal(err)
	}
}

func about(all []comment, what string) []comment {
	var out []comment
	for _, c := range all {
		if strings.Contains(c.Body, what) {
			out = append(out, c)
		}
	}
	return out
}

// TestReviewOnGitea goes the whole way: a review that blocks the merge, the same again,
// an answer, a push that mends some of it, and one that mends the rest.
func TestReviewOnGitea(t *testing.T) {
	b := newBench(t)
	b.must("owner", "POST", "/repos/owner/plan/branch_protections", map[string]any{
		"rule_name": "main", "enable_status_check": true, "status_check_contexts": []string{"passband"},
	}, nil)

	status, out := b.review(b.tokens["owner"])
	first := b.lines()
	t.Logf("the first run:\n%s", out)
	for _, c := range first {
		t.Logf("as the server has it: %s line %d:\n%s", c.Path, c.Position, c.Body)
	}
	if status != 1 || len(first) < 10 || len(b.summaries()) != 1 || b.status() != "failure" {
		t.Fatalf("status %d, %d comments, %d summaries, the commit is %s", status, len(first), len(b.summaries()), b.status())
	}
	for _, c := range first {
		if c.Position == 0 {
			t.Errorf("a comment on %s has no line", c.Path)
		}
	}
	if norht := about(first, "spur/2/norht"); len(norht) != 1 || norht[0].Path != "zones.yaml" || norht[0].Position != 10 {
		t.Errorf("%+v", norht)
	}
	if got := b.merge(); !strings.Contains(got, "405") || !strings.Contains(got, "Not all required status checks successful") {
		t.Errorf("the merge answers %s", got)
	}

	status, out = b.review(b.tokens["owner"])
	if again := b.lines(); status != 1 || len(again) != len(first) || len(b.summaries()) != 1 {
		t.Errorf("the second run: %d comments, %d summaries\n%s", len(again), len(b.summaries()), out)
	}

	// Lena answers one thread; the branch mends two findings.
	number := about(first, "have the same number")[0]
	b.must("lena", "POST", fmt.Sprintf("/repos/owner/plan/pulls/%d/reviews", b.number), map[string]any{
		"event": "COMMENT", "comments": []any{map[string]any{"path": number.Path, "new_position": number.Position, "body": "I know, give me a day."}},
	}, nil)
	b.git("checkout", "-q", "new-repeater-north")
	b.replace("zones.yaml", "spur/2/norht", "spur/2/north")
	b.replace("groups.yaml", "north-tac:  {id: 999803", "north-tac:  {id: 999804")
	b.push("Mend the entry and the number")
	status, out = b.review(b.tokens["owner"])
	third := b.lines()
	t.Logf("after a push:\n%s", out)
	if status != 1 || len(third) != len(first)+1 {
		t.Errorf("status %d, %d comments where %d stood", status, len(third), len(first)+1)
	}
	if c := about(third, "spur/2/norht"); len(c) != 1 || !strings.Contains(c[0].Body, "No longer found") || c[0].Resolver == nil {
		t.Errorf("what is gone: %+v", c)
	}
	if c := about(third, "have the same number"); len(c) != 1 || c[0].Body != number.Body || c[0].Resolver != nil {
		t.Errorf("an answered thread was touched: %+v", c)
	}
	if c := about(third, "give me a day"); len(c) != 1 {
		t.Errorf("the answer is lost: %+v", c)
	}
	if got := b.merge(); !strings.Contains(got, "405") || !strings.Contains(got, "Not all required status checks successful") {
		t.Errorf("the merge answers %s", got)
	}

	// Lines are put above the others: the comments follow theirs, and none is doubled.
	b.replace("repeaters.yaml", "repeaters:\n", "# The repeaters of the club.\n# Keys are never given to another.\nrepeaters:\n")
	b.push("Say what the file is")
	status, out = b.review(b.tokens["owner"])
	t.Logf("after lines were put above:\n%s", out)
	if fourth := b.lines(); status != 1 || len(fourth) != len(third) {
		t.Errorf("status %d, %d comments where %d stood", status, len(fourth), len(third))
	}
	text, err := os.ReadFile(filepath.Join(b.clone, "repeaters.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	if c := about(b.lines(), "reaches 3 kHz above"); len(c) != 1 || !strings.Contains(strings.Split(string(text), "\n")[c[0].Position-1], "147.395") && !strings.Contains(strings.Split(string(text), "\n")[c[0].Position-1], "split") {
		t.Errorf("it stands at line %d, which is %q", c[0].Position, strings.Split(string(text), "\n")[c[0].Position-1])
	}

	// The rest is mended.
	b.git("checkout", "-q", "origin/main", "--", ".")
	b.replace("messages.yaml", "Running late", "I am running late")
	b.push("Keep only what is in order")
	status, out = b.review(b.tokens["owner"])
	t.Logf("after the last push:\n%s", out)
	if status != 0 || b.status() != "success" {
		t.Errorf("status %d, the commit is %s", status, b.status())
	}
	if s := b.summaries(); len(s) != 1 || !strings.Contains(s[0].Body, "## Nothing blocks") || strings.Count(s[0].Body, "`: Blocked: ") != 3 {
		t.Errorf("the summary says\n%s", s[0].Body)
	}
	for _, c := range b.lines() {
		if c.User.Login == "owner" && !strings.Contains(c.Body, "No longer found") && c.ID != number.ID {
			t.Errorf("still open: %s", c.Body)
		}
	}
	if got := b.merge(); !strings.HasPrefix(got, "200") {
		t.Errorf("the merge answers %s", got)
	}
}

// TestReadOnlyOnGitea reviews with a token that may only read, as a fork has one.
func TestReadOnlyOnGitea(t *testing.T) {
	b := newBench(t)
	var token struct{ SHA1 string }
	req := map[string]any{"name": "reader", "scopes": []string{"read:repository", "read:issue", "read:user"}}
	if status := b.basic("lena", "/users/lena/tokens", req, &token); status != 201 {
		t.Fatalf("no token: %d", status)
	}
	status, out := b.review(token.SHA1)
	t.Log(out)
	if status != 1 || len(b.lines())+len(b.summaries()) != 0 || !strings.Contains(out, "all findings are in the summary") {
		t.Errorf("status %d:\n%s", status, out)
	}
	text, err := os.ReadFile(filepath.Join(b.dir, "summary.md"))
	if err != nil || !strings.Contains(string(text), "## Blocked") {
		t.Errorf("the summary of the job: %v\n%s", err, text)
	}
}
