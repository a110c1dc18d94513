package post_test

import (
	"context"
	"errors"
	"net/http"
	"strings"
	"testing"

	"passband.example/review/post"
	"passband.example/review/post/forgetest"
)

func githubStage(t *testing.T, g *forgetest.GitHub) *stage {
	s := &stage{
		forge:    func() post.Forge { return onGitHub(t, g) },
		requests: func() int { return g.Requests }, writes: func() int { return g.Writes },
		fault: func(f func(int, *http.Request) forgetest.Fault, kill context.CancelFunc) { g.Fault, g.OnKill = f, kill },
		lines: func() []*forgetest.LineComment { return g.LineComments }, summary: func() []*forgetest.Comment { return g.Comments },
	}
	return s.locked(g)
}

// TestGitHubFaults does it for the first run, and for the one after a push that mends
// one finding, moves one and brings one.
func TestGitHubFaults(t *testing.T) {
	r := theNorth(t)
	tryFaults(t, "first run", func(t *testing.T) *stage { return githubStage(t, r.github(t)) }, r.posting, false)
	tryFaults(t, "after a push", func(t *testing.T) *stage {
		g := r.github(t)
		mustPost(t, g, r.posting)
		pushNext(g, r)
		return githubStage(t, g)
	}, nextPosting(r), false)
}

func pushNext(g *forgetest.GitHub, r *request) {
	moved := make(map[int]int)
	for i := range 1000 {
		moved[i] = i
	}
	moved[int(r.posting.Goal.Drafts[1].Spot.Line)] = 0
	g.Push(strings.Repeat("2", 40), r.patches, moved)
}

// TestFaultThatLasts lets the forge fail in one way for as long as the run goes on; the
// error says that it is the forge.
func TestFaultThatLasts(t *testing.T) {
	r := theNorth(t)
	for _, fault := range []forgetest.Fault{forgetest.Broken, forgetest.BrokenDone, forgetest.Limited, forgetest.LimitedBare, forgetest.LimitedSoon, forgetest.Reset, forgetest.Hang} {
		g := r.github(t)
		g.Fault = func(int, *http.Request) forgetest.Fault { return fault }
		_, err := post.Post(context.Background(), onGitHub(t, g), r.posting, patience(nil))
		if !errors.Is(err, post.ErrBusy) && !errors.Is(err, post.ErrUnsure) {
			t.Errorf("%s: %v", fault, err)
		}
		g.Lock() // the last request may still be answered
		if g.Requests > 30 {
			t.Errorf("%s: %d requests", fault, g.Requests)
		}
		g.Unlock()
	}
}

// TestGitHubAtOnce lets three runs post at once.
func TestGitHubAtOnce(t *testing.T) {
	r := theNorth(t)
	atOnce(t, githubStage(t, r.github(t)), r)
}
