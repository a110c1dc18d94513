package post

import (
	"bytes"
	"context"
	"errors"
	"io"
	"net/http"
	"testing"
	"time"
)

// answers gives each request one answer, in turns.
type answers struct {
	status int
	header http.Header
	bodies [][]byte
	asked  int
}

func (a *answers) RoundTrip(r *http.Request) (*http.Response, error) {
	body := a.bodies[a.asked%len(a.bodies)]
	a.asked++
	return &http.Response{StatusCode: a.status, Header: a.header.Clone(), Body: io.NopCloser(bytes.NewReader(body)), Request: r, Proto: "HTTP/1.1"}, nil
}

// FuzzAnswers lets a forge answer anything to all that it is asked: what comes of it is a result
// or a Failure whose wait is no longer than patience allows, and there is an end.
func FuzzAnswers(f *testing.F) {
	threads := `{"data":{"viewer":{"login":"me"},"repository":{"pullRequest":{"reviewThreads":{"pageInfo":{"hasNextPage":true,"endCursor":"x"},"nodes":[{"id":"a","viewerCanResolve":true,"comments":{"nodes":[{"fullDatabaseId":"1"}]}}]}}}}}`
	f.Add(200, "", "", []byte(threads), []byte(`[{"id":1,"body":"x","path":"plan.yaml","line":3,"user":{"login":"me"}},null]`))
	f.Add(200, `<https://forge.example/?page=2>; rel="next"`, "", []byte(`{"login":"me"}`), []byte(`[{"id":1,"state":"PENDING","comments_count":1,"user":null,"resolver":{}}]`))
	f.Add(200, `<https://forge.example/?page=1>; rel="next"`, "", []byte(`[]`), []byte(`[{}]`))
	f.Add(429, "", "99999999999", []byte(`{"message":"rate limit"}`), []byte(`null`))
	f.Add(403, "", "Fri, 31 Dec 9999 23:59:59 GMT", []byte(`"`), []byte(`[1]`))
	f.Add(301, "", "-1", []byte(``), []byte(`{"data":null,"errors":[{"type":"RATE_LIMITED"}]}`))
	f.Fuzz(func(t *testing.T, status int, link, retry string, one, two []byte) {
		if status < 100 || status > 599 {
			return
		}
		header := http.Header{"Content-Type": {"application/json"}, "Link": {link}, "Retry-After": {retry}, "Location": {link}}
		a := &answers{status: status, header: header, bodies: [][]byte{one, two}}
		client := &http.Client{Transport: a, Timeout: time.Minute}
		access := Access{API: "https://forge.example", Token: "t", Repository: "club/plan", Number: 7}
		hub, err := NewGitHub(access, client)
		if err != nil {
			t.Fatal(err)
		}
		tea, err := NewGitea(access, client)
		if err != nil {
			t.Fatal(err)
		}
		for _, forge := range []Forge{hub, tea} {
			ctx := context.Background()
			_, pull := forge.Pull(ctx)
			_, comments := forge.Comments(ctx)
			_, summaries := forge.Summaries(ctx)
			draft := Draft{Key: "k", Spot: Spot{Path: "plan.yaml", Line: 3}, Body: "b"}
			for _, err := range []error{pull, comments, summaries, forge.Review(ctx, "c", []Draft{draft}), forge.AddSummary(ctx, "b"), forge.Status(ctx, "c", Status{Context: "x"})} {
				failure := (*Failure)(nil)
				switch {
				case err == nil:
				case !errors.As(err, &failure) || failure.Text == "" || failure.Wait < 0:
					t.Errorf("it fails as %#v", err)
				}
			}
		}
		if most := 20 * mostPages; a.asked > most {
			t.Errorf("it asks %d times", a.asked)
		}
	})
}
