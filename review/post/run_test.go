package post_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"passband.example/review/post"
)

// runOf reads an event of the forge's own examples.
func runOf(t *testing.T, name string, env map[string]string, edit func(string) string) (*post.Run, error) {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("testdata", "events", name+".json"))
	if err != nil {
		t.Fatal(err)
	}
	if edit != nil {
		text = []byte(edit(string(text)))
	}
	all := map[string]string{
		"GITHUB_EVENT_NAME": name, "GITHUB_EVENT_PATH": "event.json", "GITHUB_ACTIONS": "true", "GITHUB_API_URL": "https://forge.example/api/v3",
		"GITHUB_SERVER_URL": "https://forge.example/", "GITHUB_REPOSITORY": "owner/plan", "GITHUB_RUN_ID": "12", "GITHUB_TOKEN": "t",
	}
	for k, v := range env {
		all[k] = v
	}
	return post.ReadRun(func(k string) string { return all[k] }, func(string) ([]byte, error) { return text, nil })
}

// TestReadRun reads what is to be judged from each event.
func TestReadRun(t *testing.T) {
	for _, c := range []struct {
		name, why, event string
		env              map[string]string
		edit             func(string) string
		want             post.Span
		number           int
		fork             bool
	}{
		{"a pull request", "the two ends of the event, not the test merge that GITHUB_SHA is", "pull_request", map[string]string{"GITHUB_SHA": "1"}, nil,
			post.Span{Base: "f95f852bd8fca8fcc58a9a2d6c842781e32a215e", Head: "ec26c3e57ca3a959ca5aad62de7213c562f8c821", BaseName: "master", HeadName: "changes"}, 2, false},
		{"from a fork", "its token is read-only", "pull_request", nil, func(s string) string {
			head := strings.Index(s, `"head": {`)
			return s[:head] + strings.Replace(s[head:], `"full_name": "owner/plan"`, `"full_name": "pat/plan"`, 1)
		}, post.Span{Base: "f95f852bd8fca8fcc58a9a2d6c842781e32a215e", Head: "ec26c3e57ca3a959ca5aad62de7213c562f8c821", BaseName: "master", HeadName: "changes"}, 2, true},
		{"pull_request_target", "the same event under another name", "pull_request", map[string]string{"GITHUB_EVENT_NAME": "pull_request_target"}, nil,
			post.Span{Base: "f95f852bd8fca8fcc58a9a2d6c842781e32a215e", Head: "ec26c3e57ca3a959ca5aad62de7213c562f8c821", BaseName: "master", HeadName: "changes"}, 2, false},
		{"a merge queue", "it has no pull request", "merge_group", nil, nil,
			post.Span{Base: "380387fbc80638b734a49e1be1c4dfec1c01b33c", Head: "2ffea6db159f6b6c47a24e778fb9ef40cf6b1c7d", BaseName: "main", HeadName: "the merge queue"}, 0, false},
		{"a new branch", "there is no commit before, so the main branch is what it left", "push", nil, nil,
			post.Span{Base: "master", Head: "6113728f27ae82c7b1a177c8d03f9e96e0adf246", HeadName: "simple-tag"}, 0, false},
		{"a push", "from what the branch was", "push", nil, func(s string) string {
			return strings.NewReplacer(`"before": "0000000000000000000000000000000000000000"`, `"before": "1111111111111111111111111111111111111111"`, "refs/tags/simple-tag", "refs/heads/main").Replace(s)
		}, post.Span{Base: "1111111111111111111111111111111111111111", Head: "6113728f27ae82c7b1a177c8d03f9e96e0adf246", BaseName: "main before", HeadName: "main"}, 0, false},
		{"a branch deleted", "nothing is left to judge", "push", nil, func(s string) string {
			return strings.Replace(s, `"after": "6113728f27ae82c7b1a177c8d03f9e96e0adf246"`, `"after": "0000000000000000000000000000000000000000"`, 1)
		}, post.Span{}, 0, false},
		{"after another run", "the pull request must be looked up by its head", "workflow_run", nil, nil,
			post.Span{Head: "5779607b49aab1200488439f02372c57b4f75444", HeadName: "main"}, 0, false},
		{"by hand", "what is there against the main branch", "push", map[string]string{"GITHUB_EVENT_NAME": "workflow_dispatch", "GITHUB_SHA": "abcd"}, nil,
			post.Span{Base: "master", Head: "abcd", HeadName: "HEAD"}, 0, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			r, err := runOf(t, c.event, c.env, c.edit)
			if err != nil {
				t.Fatal(err)
			}
			if r.Span != c.want || r.Access.Number != c.number || r.Fork != c.fork || r.Link != "https://forge.example/owner/plan/actions/runs/12" {
				t.Errorf("%s: %+v", c.why, r)
			}
		})
	}
}

// TestReadRunFails wants an error that says what to do.
func TestReadRunFails(t *testing.T) {
	env := map[string]string{"GITHUB_EVENT_NAME": "pull_request", "GITHUB_EVENT_PATH": "e"}
	get := func(k string) string { return env[k] }
	for _, c := range []struct {
		name, text string
		err        error
		want       string
	}{
		{"no file", "", os.ErrNotExist, "mount the folder of the runner"},
		{"not to be read", "", os.ErrPermission, "permission denied"},
		{"no JSON", "<html>", nil, "is not the JSON"},
		{"another event", "{}", nil, "--base and --head"},
		{"too large", strings.Repeat(" ", 26<<20), nil, "more than a forge sends"},
	} {
		if _, err := post.ReadRun(get, func(string) ([]byte, error) { return []byte(c.text), c.err }); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v", c.name, err)
		}
	}
	if r, err := post.ReadRun(func(string) string { return "" }, os.ReadFile); err != nil || r.Event != "" {
		t.Errorf("outside of continuous integration: %+v, %v", r, err)
	}
}

// TestName lets flags stand for the event.
func TestName(t *testing.T) {
	for _, c := range []struct {
		name       string
		run        post.Run
		base, head string
		want       post.Span
		err        string
	}{
		{"both", post.Run{}, "main", "new", post.Span{Base: "main", Head: "new"}, ""},
		{"the base", post.Run{}, "main", "", post.Span{Base: "main", Head: "HEAD"}, ""},
		{"instead of the event", post.Run{Event: "push", Span: post.Span{Base: "a", Head: "b"}}, "main", "", post.Span{Base: "main", Head: "HEAD"}, ""},
		{"the event", post.Run{Event: "push", Span: post.Span{Base: "a", Head: "b"}}, "", "", post.Span{Base: "a", Head: "b"}, ""},
		{"neither", post.Run{}, "", "", post.Span{}, "name the two ends"},
		{"the head alone", post.Run{}, "", "new", post.Span{}, "--base is missing"},
		{"an event without a base", post.Run{Event: "schedule", Span: post.Span{Head: "b"}}, "", "", post.Span{Head: "b"}, "name it with --base"},
	} {
		err := c.run.Name(c.base, c.head)
		if c.run.Span != c.want || (err != nil) != (c.err != "") || err != nil && !strings.Contains(err.Error(), c.err) {
			t.Errorf("%s: %+v, %v", c.name, c.run.Span, err)
		}
	}
}

// FuzzReadRun must not fall over any event.
func FuzzReadRun(f *testing.F) {
	for _, name := range []string{"pull_request", "merge_group", "push", "workflow_run", "schedule"} {
		f.Add(name, "{}")
		f.Add(name, `{"pull_request":{"head":{"repo":null}},"merge_group":{},"workflow_run":{}}`)
	}
	f.Fuzz(func(t *testing.T, name, text string) {
		env := map[string]string{"GITHUB_EVENT_NAME": name, "GITHUB_EVENT_PATH": "e"}
		r, err := post.ReadRun(func(k string) string { return env[k] }, func(string) ([]byte, error) { return []byte(text), nil })
		if err == nil && r.Event != name {
			t.Errorf("%+v", r)
		}
	})
}

// TestFiles gives the address of a commit's files, as each forge shows them to people.
func TestFiles(t *testing.T) {
	for _, c := range []struct{ server, api, want string }{
		{"https://hub.example", "https://api.hub.example", "https://hub.example/club/plan/blob/abc"},
		{"https://tea.example/", "https://tea.example/api/v1", "https://tea.example/club/plan/src/commit/abc"},
		{"", "https://api.hub.example", ""},
		{"/srv/git", "https://api.hub.example", ""},
	} {
		if got := (post.Access{Server: c.server, API: c.api, Repository: "club/plan"}).Files("abc"); got != c.want {
			t.Errorf("%s: %q, want %q", c.server, got, c.want)
		}
	}
}
