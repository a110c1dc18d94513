package post_test

import (
	"context"
	"net/http"
	"slices"
	"strings"
	"sync"
	"testing"

	"passband.example/plandiff/demo"
	"passband.example/review/post"
	"passband.example/review/post/forgetest"
	"passband.example/review/report"
)

// gitea starts a forge with the pull request on it.
func (r *request) gitea(t testing.TB) *forgetest.Gitea {
	g := forgetest.NewGitea(t.Cleanup)
	g.Head = r.posting.Goal.Head
	for name := range r.patches {
		g.Lengths[name] = strings.Count(read(t, demo.Branch(), name), "\n")
	}
	return g
}

func onGitea(t testing.TB, g *forgetest.Gitea) *post.Gitea {
	t.Helper()
	f, err := post.NewGitea(access(g.URL), g.Client())
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func giteaStage(t *testing.T, g *forgetest.Gitea) *stage {
	s := &stage{
		forge:    func() post.Forge { return onGitea(t, g) },
		requests: func() int { return g.Requests }, writes: func() int { return g.Writes },
		fault: func(f func(int, *http.Request) forgetest.Fault, kill context.CancelFunc) { g.Fault, g.OnKill = f, kill },
		lines: func() []*forgetest.LineComment { return g.LineComments }, summary: func() []*forgetest.Comment { return g.Comments },
	}
	return s.locked(g)
}

func mustPostGitea(t *testing.T, g *forgetest.Gitea, p *post.Posting) *post.Outcome {
	t.Helper()
	out, err := post.Post(context.Background(), onGitea(t, g), p, patience(nil))
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// TestGitea posts the review of the demo's proposal, and posts it again.
func TestGitea(t *testing.T) {
	r := theNorth(t)
	g := r.gitea(t)
	out := mustPostGitea(t, g, r.posting)
	if out.Posted != r.onLines() || out.Summary != "written" || !out.Status || len(out.Held) != 0 {
		t.Errorf("%+v", out)
	}
	for _, c := range g.LineComments {
		if c.Line == 0 || c.Path == "" {
			t.Errorf("a comment stands on no line: %+v", c)
		}
	}
	want := forgetest.Status{Commit: r.posting.Goal.Head, Context: "passband", State: "failure", Text: r.proposal.Document.Status()}
	if !slices.Contains(g.Statuses, want) {
		t.Errorf("the status is %+v", g.Statuses)
	}
	writes := g.Writes
	if again := mustPostGitea(t, g, r.posting); g.Writes != writes+1 || again.Posted+again.Amended+again.Removed != 0 {
		t.Errorf("the second run writes %d times: %+v", g.Writes-writes, again)
	}
}

// TestGiteaFaults does it for the first run, and for the one after a push. A comment
// that moved stands twice for a moment, since nothing there is outdated.
func TestGiteaFaults(t *testing.T) {
	r := theNorth(t)
	tryFaults(t, "first run", func(t *testing.T) *stage { return giteaStage(t, r.gitea(t)) }, r.posting, false)
	tryFaults(t, "after a push", func(t *testing.T) *stage {
		g := r.gitea(t)
		mustPostGitea(t, g, r.posting)
		g.Head = strings.Repeat("2", 40)
		return giteaStage(t, g)
	}, nextPosting(r), true)
}

// TestGiteaStates posts where something stands in the way.
func TestGiteaStates(t *testing.T) {
	r := theNorth(t)
	t.Run("what a failure left is not sent along", func(t *testing.T) {
		g := r.gitea(t)
		g.Reviews = append(g.Reviews, &forgetest.Review{ID: 5, User: g.Me, State: "PENDING"})
		g.LineComments = append(g.LineComments, &forgetest.LineComment{ID: 6, Review: 5, User: g.Me, Path: "zones.yaml", Line: 3, Body: written(1, report.MarkFinding, keyA, "left", 3).Body})
		mustPostGitea(t, g, r.posting)
		if len(keyed(g.LineComments)[keyA]) != 0 || len(g.Reviews) != 1 {
			t.Errorf("%d reviews", len(g.Reviews))
		}
	})
	t.Run("what a person is writing is not lost", func(t *testing.T) {
		g := r.gitea(t)
		g.Reviews = append(g.Reviews, &forgetest.Review{ID: 5, User: g.Me, State: "PENDING"})
		g.LineComments = append(g.LineComments, &forgetest.LineComment{ID: 6, Review: 5, User: g.Me, Path: "zones.yaml", Line: 3, Body: "I think"})
		out := mustPostGitea(t, g, r.posting)
		if len(g.LineComments) != 1 || !strings.Contains(strings.Join(out.Held, ""), "send or discard it") || out.Summary != "written" {
			t.Errorf("%+v", out)
		}
	})
	t.Run("a token that may only read", func(t *testing.T) {
		g := r.gitea(t)
		g.ReadOnly = true
		if out := mustPostGitea(t, g, r.posting); len(out.Held) != 3 || out.Status {
			t.Errorf("%+v", out)
		}
	})
	t.Run("a person answers", func(t *testing.T) {
		g := r.gitea(t)
		mustPostGitea(t, g, r.posting)
		next := nextPosting(r)
		answered := keyed(g.LineComments)[r.posting.Goal.Drafts[0].Key][0]
		g.Say("lena", answered, "It is coordinated.")
		g.Head = next.Goal.Head
		said := answered.Body
		mustPostGitea(t, g, next)
		if answered.Body != said || answered.Resolved {
			t.Error("an answered thread was touched")
		}
	})
}

// TestGiteaAtOnce lets three runs post at once, as when nobody keeps them apart, and
// wants each finding told once when all have ended.
func TestGiteaAtOnce(t *testing.T) {
	r := theNorth(t)
	g := r.gitea(t)
	atOnce(t, giteaStage(t, g), r)
}

func atOnce(t *testing.T, s *stage, r *request) {
	t.Helper()
	var all sync.WaitGroup
	for range 3 {
		all.Go(func() {
			if _, err := s.post(context.Background(), r.posting); err != nil {
				t.Error(err)
			}
		})
	}
	all.Wait()
	if _, err := s.post(context.Background(), r.posting); err != nil {
		t.Error(err)
	}
	if n := len(keyed(s.lines())); s.doubles() != 0 || n != r.onLines() || len(s.lines()) != n {
		t.Errorf("%d doubles, %d of %d findings told in %d comments", s.doubles(), n, r.onLines(), len(s.lines()))
	}
}
