package post_test

import (
	"net/http"
	"strings"
	"testing"

	"passband.example/review/post/forgetest"
)

// TestLineThatAlwaysFails lets a forge fail at one line for good, as a server that is in
// trouble would, and not refuse it: the others are told on their lines, and that one in
// the summary.
func TestLineThatAlwaysFails(t *testing.T) {
	r := theNorth(t)
	bad := r.posting.Goal.Drafts[2]
	if bad.Spot.IsZero() {
		t.Fatal("the finding has no line to fail at")
	}
	check := func(t *testing.T, s *stage, held []string, posted int) {
		t.Helper()
		told := keyed(s.lines())
		if len(told) != r.onLines()-1 || len(told[bad.Key]) != 0 || s.doubles() != 0 || posted != r.onLines()-1 {
			t.Errorf("%d of %d findings are told on lines, %d posted, %d doubles", len(told), r.onLines(), posted, s.doubles())
		}
		if len(held) != 1 || !strings.Contains(held[0], bad.Spot.Path) || !strings.Contains(held[0], "in the summary") {
			t.Errorf("it says %q", held)
		}
		if all := s.summary(); len(all) != 1 || strings.Count(all[0].Body, "**block**") < 1 {
			t.Errorf("%d summaries", len(all))
		}
	}
	t.Run("a line that is no line of the file, on Gitea", func(t *testing.T) {
		g := r.gitea(t)
		g.Bad = func(path string, line int) bool { return path == bad.Spot.Path && line == int(bad.Spot.Line) }
		out := mustPostGitea(t, g, r.posting)
		check(t, giteaStage(t, g), out.Held, out.Posted)
		for _, v := range g.Reviews {
			if v.State == "PENDING" {
				t.Error("a review was left half-way")
			}
		}
		if again := mustPostGitea(t, g, r.posting); again.Posted+again.Amended+again.Removed != 0 {
			t.Errorf("the next run does it over: %+v", again)
		}
	})
	for _, fault := range []forgetest.Fault{forgetest.Broken, forgetest.Hang, forgetest.Reset} {
		t.Run(fault.String()+", on GitHub", func(t *testing.T) {
			g := r.github(t)
			g.Fault = func(_ int, req *http.Request) forgetest.Fault {
				if req.Method == http.MethodPost && strings.HasSuffix(req.URL.Path, "/reviews") && strings.Contains(bodyOf(t, req), bad.Key) {
					return fault
				}
				return forgetest.NoFault
			}
			out := mustPost(t, g, r.posting)
			check(t, githubStage(t, g), out.Held, out.Posted)
		})
	}
	t.Run("done each time, and never said so", func(t *testing.T) {
		g := r.github(t)
		g.Fault = func(_ int, req *http.Request) forgetest.Fault {
			if req.Method == http.MethodPost && strings.HasSuffix(req.URL.Path, "/reviews") {
				return forgetest.BrokenDone
			}
			return forgetest.NoFault
		}
		out := mustPost(t, g, r.posting)
		if s := githubStage(t, g); len(keyed(s.lines())) != r.onLines() || s.doubles() != 0 || len(out.Held) != 0 {
			t.Errorf("%d of %d, %d doubles, %q", len(keyed(s.lines())), r.onLines(), s.doubles(), out.Held)
		}
	})
}
