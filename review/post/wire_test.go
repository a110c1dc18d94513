package post_test

import (
	"context"
	"errors"
	"net/http"
	"testing"
	"time"

	"passband.example/review/post"
	"passband.example/review/post/forgetest"
)

// TestFaultsOnTheWire lets the posting of the review fail in each way over a connection
// that is one, and with a clock that runs; the fault tables use neither.
func TestFaultsOnTheWire(t *testing.T) {
	r := theNorth(t)
	for fault := forgetest.NoFault + 1; fault < forgetest.NumberOfFaults; fault++ {
		t.Run(fault.String(), func(t *testing.T) {
			t.Parallel()
			g := r.github(t)
			g.Lock()
			failed := false
			ctx, kill := context.WithCancel(context.Background())
			defer kill()
			g.OnKill = kill
			g.Fault = func(_ int, r *http.Request) forgetest.Fault {
				if failed || r.Method != http.MethodPost || r.URL.Path != "/repos/owner/plan/pulls/7/reviews" {
					return forgetest.NoFault
				}
				failed = true
				return fault
			}
			g.Unlock()
			forge := func() post.Forge {
				f, err := post.NewGitHub(access(g.URL), wireClient(time.Second))
				if err != nil {
					t.Fatal(err)
				}
				return f
			}
			_, err := post.Post(ctx, forge(), r.posting, patience(nil))
			if killed := fault == forgetest.Kill || fault == forgetest.KillDone; killed != errors.Is(err, context.Canceled) {
				t.Errorf("the run ends with %v", err)
			}
			if _, err := post.Post(context.Background(), forge(), r.posting, patience(nil)); err != nil {
				t.Error(err)
			}
			s := githubStage(t, g)
			if n := len(s.lines()); !failed || s.doubles() != 0 || n != r.onLines() {
				t.Errorf("failed %t, %d doubles, %d comments of %d", failed, s.doubles(), n, r.onLines())
			}
		})
	}
}

// wireClient gives up on an answer soon. It makes a connection for each request, so that
// none is tried again behind its back.
func wireClient(limit time.Duration) *http.Client {
	return &http.Client{Timeout: limit, Transport: &http.Transport{DisableKeepAlives: true}}
}
