package contract

import (
	"bytes"
	"context"
	"io"
	"net/http"
	"net/url"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/getkin/kin-openapi/openapi3"
	"github.com/getkin/kin-openapi/openapi3filter"
	"github.com/getkin/kin-openapi/routers"
	"github.com/getkin/kin-openapi/routers/gorillamux"

	"passband.example/plandiff/demo"
	"passband.example/plandiff/history"
	"passband.example/plandiff/plan"
	"passband.example/review/post"
	"passband.example/review/post/forgetest"
	"passband.example/review/rules"
)

// strict forbids properties that the description does not name: it is lax as it is
// published, and would let a misspelt field through.
func strict(s *openapi3.SchemaRef, seen map[*openapi3.Schema]bool) {
	if s == nil || s.Value == nil || seen[s.Value] {
		return
	}
	seen[s.Value] = true
	if v := s.Value; len(v.Properties) > 0 && v.AdditionalProperties.Has == nil && v.AdditionalProperties.Schema == nil {
		no := false
		v.AdditionalProperties.Has = &no
	}
	for _, p := range s.Value.Properties {
		strict(p, seen)
	}
	strict(s.Value.Items, seen)
	for _, list := range []openapi3.SchemaRefs{s.Value.OneOf, s.Value.AnyOf} {
		for _, one := range list {
			strict(one, seen)
		}
	}
}

// load reads a description, made strict in what is sent.
func load(t *testing.T, name string) routers.Router {
	t.Helper()
	doc, err := openapi3.NewLoader().LoadFromFile(filepath.Join("testdata", name))
	if err != nil {
		t.Fatal(err)
	}
	doc.Servers = openapi3.Servers{{URL: "/"}} // any host
	if user := doc.Components.Schemas["User"]; user != nil {
		user.Value.Nullable = true // Gitea's resolver is null until there is one (seen), which Swagger 2 cannot say
	}
	seen := map[*openapi3.Schema]bool{}
	for _, item := range doc.Paths.Map() {
		for _, op := range item.Operations() {
			if op.RequestBody != nil {
				for _, media := range op.RequestBody.Value.Content {
					strict(media.Schema, seen)
				}
			}
		}
	}
	router, err := gorillamux.NewRouter(doc)
	if err != nil {
		t.Fatal(err)
	}
	return router
}

// hold holds an exchange against the description.
func hold(router routers.Router, e forgetest.Exchange) error {
	u, err := url.Parse(e.URL)
	if err != nil {
		return err
	}
	req := &http.Request{Method: e.Method, URL: u, Header: e.Header, Body: io.NopCloser(bytes.NewReader(e.Body)), ContentLength: int64(len(e.Body))}
	route, params, err := router.FindRoute(req)
	if err != nil {
		return err
	}
	in := &openapi3filter.RequestValidationInput{Request: req, PathParams: params, Route: route, Options: &openapi3filter.Options{AuthenticationFunc: openapi3filter.NoopAuthenticationFunc}}
	if err := openapi3filter.ValidateRequest(context.Background(), in); err != nil {
		return err
	}
	if e.Status == 0 || e.Status >= 300 {
		return nil
	}
	out := &openapi3filter.ResponseValidationInput{RequestValidationInput: in, Status: e.Status, Header: e.AnswerHeader, Body: io.NopCloser(bytes.NewReader(e.Answer)), Options: in.Options}
	return openapi3filter.ValidateResponse(context.Background(), out)
}

// north is the demo's proposal, and the lines that its diff has.
func north(t *testing.T) (*post.Proposal, post.Diff) {
	t.Helper()
	ctx, dir := context.Background(), filepath.Join(t.TempDir(), "club")
	if err := demo.Write(ctx, dir); err != nil {
		t.Fatal(err)
	}
	repo, err := history.Open(ctx, dir)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { repo.Close() })
	p, err := post.Propose(ctx, repo, "", post.Span{Base: demo.Main, Head: demo.Proposal}, rules.All(), plan.Date{Year: 2026, Month: 11, Day: 25})
	if err != nil {
		t.Fatal(err)
	}
	diff, err := post.ReadDiff(ctx, repo, p.Parted, p.Head, "")
	if err != nil {
		t.Fatal(err)
	}
	return p, diff
}

// mustPost posts on a forge whose limits are over at once.
func mustPost(t *testing.T, forge post.Forge, posting *post.Posting) {
	t.Helper()
	patience := post.DefaultPatience()
	patience.Sleep = func(context.Context, time.Duration) error { return nil }
	if _, err := post.Post(context.Background(), forge, posting, patience); err != nil {
		t.Error(err)
	}
}

// patches gives a diff as GitHub shows it for each file.
func patches(diff post.Diff) map[string]string {
	all := map[string]string{}
	for name, hunks := range diff {
		all[name] = patch(hunks)
	}
	return all
}

// patch writes hunks as a diff that shows these lines, all of them as new.
func patch(hunks []post.Hunk) string {
	var b strings.Builder
	for _, h := range hunks {
		old, new, oldN, newN := int32(0), int32(0), 0, 0
		var lines strings.Builder
		for _, l := range h {
			switch {
			case l.Old > 0 && l.New > 0:
				lines.WriteString(" x\n")
			case l.Old > 0:
				lines.WriteString("-x\n")
			default:
				lines.WriteString("+x\n")
			}
			if l.Old > 0 {
				if oldN++; old == 0 {
					old = l.Old
				}
			}
			if l.New > 0 {
				if newN++; new == 0 {
					new = l.New
				}
			}
		}
		b.WriteString("@@ -" + pair(old, oldN) + " +" + pair(new, newN) + " @@\n" + lines.String())
	}
	return b.String()
}

// TestGitHub posts, posts again, and posts after a push, with and without rights, and
// holds every request and every answer against the description.
func TestGitHub(t *testing.T) {
	router := load(t, "github.json")
	schema := loadGraphQL(t)
	p, diff := north(t)
	shown := patches(diff)
	exchanges, kinds := 0, map[string]bool{}
	for _, set := range []func(*forgetest.GitHub){
		func(*forgetest.GitHub) {},
		func(g *forgetest.GitHub) { g.NoStatus = true },
		func(g *forgetest.GitHub) { g.NoGraphQL, g.Me = true, "club-bot" },
		func(g *forgetest.GitHub) { g.MostReview = 2; g.MostPerPage = 2 },
		func(g *forgetest.GitHub) { delete(g.Patches, "zones.yaml") },
		func(g *forgetest.GitHub) {
			g.Reviews = append(g.Reviews, &forgetest.Review{ID: 5, User: g.Me, State: "PENDING", Commit: g.Head})
		},
	} {
		g := forgetest.NewGitHub(t.Cleanup)
		g.Push(p.Head.Hash, shown, nil)
		set(g)
		g.Seen = func(e forgetest.Exchange) {
			exchanges++
			if strings.HasPrefix(e.URL, "/graphql") {
				if err := schema.hold(e); err != nil {
					t.Errorf("%s %s: %v", e.Body, e.Answer, err)
				}
				return
			}
			kinds[e.Method+" "+strings.SplitN(e.URL, "?", 2)[0]] = true
			if err := hold(router, e); err != nil {
				t.Errorf("%s %s: %v", e.Method, e.URL, err)
			}
		}
		posting := p.Posting(diff, post.DefaultMost)
		for _, head := range []string{p.Head.Hash, p.Head.Hash, strings.Repeat("2", 40)} {
			if head != p.Head.Hash {
				g.Push(head, shown, nil) // all comments are outdated
				posting.Goal.Head, posting.Goal.Drafts = head, posting.Goal.Drafts[1:]
			}
			forge, err := post.NewGitHub(post.Access{API: g.URL, Token: "right", Repository: "owner/plan", Number: 7}, nil)
			if err != nil {
				t.Fatal(err)
			}
			mustPost(t, forge, posting)
			posting.Goal = p.Posting(diff.Shown(context.Background(), forge), post.DefaultMost).Goal
		}
	}
	t.Logf("%d exchanges of %d kinds hold", exchanges, len(kinds))
	if len(kinds) < 12 {
		t.Errorf("only %v were seen", kinds)
	}
}

// TestStrict wants the description, as it is made strict, to refuse what it should.
func TestStrict(t *testing.T) {
	router := load(t, "github.json")
	header := http.Header{"Content-Type": {"application/json"}}
	for _, c := range []struct {
		name, body string
		ok         bool
	}{
		{"a review", `{"commit_id":"a","event":"COMMENT","body":"b","comments":[{"path":"p","body":"b","line":3,"side":"RIGHT"}]}`, true},
		{"a field misspelt", `{"event":"COMMENT","body":"b","comments":[{"path":"p","body":"b","lien":3}]}`, false},
		{"a field of Gitea", `{"event":"COMMENT","body":"b","comments":[{"path":"p","body":"b","new_position":3}]}`, false},
		{"an event of Gitea", `{"event":"APPROVED","body":"b"}`, false},
	} {
		err := hold(router, forgetest.Exchange{Method: "POST", URL: "/repos/owner/plan/pulls/7/reviews", Header: header, Body: []byte(c.body)})
		if (err == nil) != c.ok {
			t.Errorf("%s: %v", c.name, err)
		}
	}
}
