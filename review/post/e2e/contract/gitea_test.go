package contract

import (
	"net/http"
	"strings"
	"testing"

	"passband.example/review/post"
	"passband.example/review/post/forgetest"
)

// TestGitea posts on the double of Gitea as TestGitHub does on that of GitHub: findings
// come, go and come back, a review was left half-way, the token may only read. Every
// request and every answer is held against Gitea's own description.
func TestGitea(t *testing.T) {
	router := load(t, "gitea.json")
	p, diff := north(t)
	exchanges, kinds := 0, map[string]bool{}
	for _, set := range []func(*forgetest.Gitea){
		func(*forgetest.Gitea) {},
		func(g *forgetest.Gitea) { g.ReadOnly = true },
		func(g *forgetest.Gitea) { delete(g.Lengths, "zones.yaml") },
		func(g *forgetest.Gitea) {
			g.Reviews = append(g.Reviews, &forgetest.Review{ID: 5, User: g.Me, State: "PENDING"})
		},
	} {
		g := forgetest.NewGitea(t.Cleanup)
		g.Head = p.Head.Hash
		for name, hunks := range diff {
			last := hunks[len(hunks)-1]
			g.Lengths[name] = int(last[len(last)-1].New) + 1
		}
		set(g)
		g.Seen = func(e forgetest.Exchange) {
			exchanges++
			kinds[e.Method+" "+strings.SplitN(e.URL, "?", 2)[0]] = true
			if err := hold(router, e); err != nil {
				t.Errorf("%s %s: %v", e.Method, e.URL, err)
			}
		}
		forge, err := post.NewGitea(post.Access{API: g.URL, Token: "right", Repository: "owner/plan", Number: 7}, nil)
		if err != nil {
			t.Fatal(err)
		}
		for _, from := range []int{0, 0, 1, 0} {
			posting := p.Posting(diff, post.DefaultMost)
			posting.Goal.Drafts = posting.Goal.Drafts[from:]
			mustPost(t, forge, posting)
		}
	}
	t.Logf("%d exchanges of %d kinds hold", exchanges, len(kinds))
	if len(kinds) < 12 {
		t.Errorf("only %v were seen", kinds)
	}
}

// TestStrictGitea wants the description, as it is made strict, to refuse what it should:
// the real server takes GitHub's fields and puts the comment on no line.
func TestStrictGitea(t *testing.T) {
	router := load(t, "gitea.json")
	header := http.Header{"Content-Type": {"application/json"}}
	for _, c := range []struct {
		name, body string
		ok         bool
	}{
		{"a review", `{"commit_id":"a","event":"COMMENT","body":"b","comments":[{"path":"p","body":"b","new_position":3,"old_position":0}]}`, true},
		{"a field misspelt", `{"event":"COMMENT","body":"b","comments":[{"path":"p","body":"b","new_postion":3}]}`, false},
		{"a field of GitHub", `{"event":"COMMENT","body":"b","comments":[{"path":"p","body":"b","line":3}]}`, false},
		{"a number as a text", `{"event":"COMMENT","body":"b","comments":[{"path":"p","body":"b","new_position":"3"}]}`, false},
	} {
		err := hold(router, forgetest.Exchange{Method: "POST", URL: "/repos/owner/plan/pulls/7/reviews", Header: header, Body: []byte(c.body)})
		if (err == nil) != c.ok {
			t.Errorf("%s: %v", c.name, err)
		}
	}
}
