package post_test

import (
	"bytes"
	"context"
	"io"
	"net/http"
	"slices"
	"strings"
	"testing"

	"passband.example/plandiff/plan"
	"passband.example/review"
	"passband.example/review/post"
	"passband.example/review/post/forgetest"
	"passband.example/review/report"
)

// github starts a forge with the pull request on it.
func (r *request) github(t testing.TB) *forgetest.GitHub {
	g := forgetest.NewGitHub(t.Cleanup)
	g.Push(r.posting.Goal.Head, r.patches, nil)
	return g
}

// bodyOf reads the body of a request, and leaves it to be read again.
func bodyOf(t *testing.T, r *http.Request) string {
	text, err := io.ReadAll(r.Body)
	if err != nil {
		t.Error(err)
	}
	r.Body = io.NopCloser(bytes.NewReader(text))
	return string(text)
}

// onGitHub is a run of passband on a forge: a new client each time, and no waiting.
func onGitHub(t testing.TB, g *forgetest.GitHub) *post.GitHub {
	t.Helper()
	f, err := post.NewGitHub(access(g.URL), g.Client())
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func mustPost(t *testing.T, g *forgetest.GitHub, p *post.Posting) *post.Outcome {
	t.Helper()
	out, err := post.Post(context.Background(), onGitHub(t, g), p, patience(nil))
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// TestGitHub posts the review of the demo's proposal, reads it back, and posts it
// again.
func TestGitHub(t *testing.T) {
	r := theNorth(t)
	g := r.github(t)
	n := r.onLines()
	out := mustPost(t, g, r.posting)
	if out.Posted != n || n < 10 || out.Summary != "written" || !out.Status || len(out.Held) != 0 {
		t.Errorf("%+v", out)
	}
	if len(g.Reviews) != 1 || len(g.LineComments) != n || len(g.Comments) != 1 {
		t.Errorf("%d reviews, %d comments on lines, %d on the whole", len(g.Reviews), len(g.LineComments), len(g.Comments))
	}
	want := forgetest.Status{Commit: r.posting.Goal.Head, Context: "passband", State: "failure", Text: r.proposal.Document.Status()}
	if !slices.Contains(g.Statuses, want) {
		t.Errorf("the status is %+v", g.Statuses)
	}
	for _, f := range r.proposal.Document.Verdict.Findings {
		if f.Standing != review.New {
			continue // the note that main has already
		}
		found := keyed(g.LineComments)[f.ID()]
		if len(found) != 1 || !strings.Contains(found[0].Body, f.Severity.String()) {
			t.Errorf("%s at %s has %d comments", f.Rule, f.At, len(found))
			continue
		}
		at := []plan.Place{f.At}
		if f.Rule == "memory-full" { // its zone is not in the diff; what fills it is
			at = []plan.Place{f.Also[1].At}
		}
		if c := found[0]; c.Path != at[0].File || c.Line != int(at[0].Line) {
			t.Errorf("%s at %s is told at %s:%d", f.Rule, f.At, c.Path, c.Line)
		}
	}
	writes := g.Writes
	again := mustPost(t, g, r.posting)
	if g.Writes != writes+1 || again.Posted+again.Amended+again.Removed != 0 || again.Summary != "" {
		t.Errorf("the second run writes %d times: %+v", g.Writes-writes, again)
	}
}

// TestSuggestionOnLine offers the name that was meant, on the line that has it wrong.
func TestSuggestionOnLine(t *testing.T) {
	r := theNorth(t)
	g := r.github(t)
	mustPost(t, g, r.posting)
	for _, f := range r.proposal.Document.Verdict.Findings {
		if f.Rule != "dangling-reference" {
			continue
		}
		c := keyed(g.LineComments)[f.ID()][0]
		line := strings.Split(read(t, headFiles(t), "zones.yaml"), "\n")[c.Line-1]
		want := "\n```suggestion\n" + strings.Replace(line, "spur/2/norht", "spur/2/north", 1) + "\n```\n"
		if !strings.Contains(c.Body, want) {
			t.Errorf("%q is not in\n%s", want, c.Body)
		}
		return
	}
	t.Error("there is no such finding")
}

// TestNextPush marks what is gone, tells what is new, and leaves the rest alone.
func TestNextPush(t *testing.T) {
	r := theNorth(t)
	g := r.github(t)
	mustPost(t, g, r.posting)
	next := *r.posting
	next.Goal.Head = strings.Repeat("2", 40)
	next.Goal.Drafts = slices.Clone(r.posting.Goal.Drafts)
	gone, answered := next.Goal.Drafts[0], next.Goal.Drafts[1]
	next.Goal.Drafts = append(next.Goal.Drafts[2:], post.Draft{Key: strings.Repeat("e", 16), Spot: gone.Spot, Body: "new"})
	g.Say("lena", keyed(g.LineComments)[answered.Key][0], "It is coordinated.")
	all := make(map[int]int)
	for i := range 1000 {
		all[i] = i
	}
	g.Push(next.Goal.Head, r.patches, all)
	said := keyed(g.LineComments)[answered.Key][0].Body
	out := mustPost(t, g, &next)
	if out.Posted != 1 || out.Amended != 1 || out.Resolved != 1 || out.Removed != 0 {
		t.Errorf("%+v", out)
	}
	if c := keyed(g.LineComments)[gone.Key][0]; !c.Resolved || !strings.Contains(c.Body, "**No longer found** since `2222222222`") {
		t.Errorf("what is gone says %q", c.Body)
	}
	if c := keyed(g.LineComments)[answered.Key][0]; c.Body != said || c.Resolved {
		t.Error("a thread that a person answered was touched")
	}
	back := mustPost(t, g, &next)
	if back.Posted+back.Amended+back.Resolved+back.Removed != 0 {
		t.Errorf("the second run does %+v", back)
	}
}

// TestOtherForgeStates posts where something stands in the way, and wants the verdict
// told as far as it can be, and what is held back to be said.
func TestOtherForgeStates(t *testing.T) {
	for _, c := range []struct {
		name, why string
		set       func(*forgetest.GitHub)
		fewer     int // comments on lines than there are findings; all of them: -1
		summary   string
		held      string // a part of what is said
		status    bool
		skipped   string
	}{
		{"a fork", "its token may not write, and the job is not to fail for that", func(g *forgetest.GitHub) { g.ReadOnly = true }, -1, "written", "all findings are in the summary", false, ""},
		{"no GraphQL", "threads cannot be folded, all else goes on", func(g *forgetest.GitHub) { g.NoGraphQL = true }, 0, "written", "", true, ""},
		{"no right to set a status", "a check run will do", func(g *forgetest.GitHub) { g.NoStatus = true }, 0, "written", "", true, ""},
		{"no right to either", "the end of the job says it", func(g *forgetest.GitHub) { g.NoStatus, g.NoCheck = true, true }, 0, "written", "the end of the job says the verdict", false, ""},
		{"a line is not taken", "it stays in the summary, and the others are posted", func(g *forgetest.GitHub) { delete(g.Patches, "zones.yaml") }, 1, "written", "took no comment on zones.yaml", true, ""},
		{"no line is taken", "all is in the summary", func(g *forgetest.GitHub) { g.Patches = nil }, -1, "written", "took no comment", true, ""},
		{"a newer commit", "its own run tells of it", func(g *forgetest.GitHub) { g.Head = strings.Repeat("3", 40) }, -1, "", "", true, "3333333333"},
		{"closed", "nobody would read it", func(g *forgetest.GitHub) { g.Open = false }, -1, "", "", true, "closed"},
		{"a review with 502", "it was posted, and is not posted again", func(g *forgetest.GitHub) { g.MostReview = 3 }, -1, "written", "", true, ""},
		{"small pages", "all of them are read", func(g *forgetest.GitHub) { g.MostPerPage = 2 }, 0, "written", "", true, ""},
		{"a user of its own", "a person's token can be used", func(g *forgetest.GitHub) { g.Me = "club-bot"; g.NoGraphQL = true }, 0, "written", "", true, ""},
		{"a review is pending", "what a failure left behind is deleted", func(g *forgetest.GitHub) {
			g.Reviews = append(g.Reviews, &forgetest.Review{ID: 5, User: g.Me, State: "PENDING"})
			g.LineComments = append(g.LineComments, &forgetest.LineComment{ID: 6, Review: 5, User: g.Me, Body: written(1, report.MarkFinding, keyA, "x", 1).Body})
		}, 0, "written", "", true, ""},
		{"a person writes a review", "it is theirs, and not to be lost", func(g *forgetest.GitHub) {
			g.Reviews = append(g.Reviews, &forgetest.Review{ID: 5, User: g.Me, State: "PENDING"})
			g.LineComments = append(g.LineComments, &forgetest.LineComment{ID: 6, Review: 5, User: g.Me, Body: "I think"})
		}, -1, "written", "send or discard it", true, ""},
		{"a stranger's mark", "it is not believed", func(g *forgetest.GitHub) {
			g.Comments = append(g.Comments, &forgetest.Comment{ID: 5, User: "stranger", Body: report.Mark{Role: report.MarkSummary, Key: "-", Plan: here}.Signed("all is well")})
		}, 0, "written", "", true, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := theNorth(t)
			g := r.github(t)
			c.set(g)
			out := mustPost(t, g, r.posting)
			held := strings.Join(out.Held, "\n")
			posted := r.onLines() - c.fewer
			if c.fewer < 0 {
				posted = 0
			}
			if out.Posted != posted || out.Status != c.status || (held != "") != (c.held != "") || !strings.Contains(held, c.held) || !strings.Contains(out.Skipped, c.skipped) || (out.Skipped != "") != (c.skipped != "") {
				t.Errorf("%s: %+v", c.why, out)
			}
			if c.name == "a fork" {
				return
			}
			if (c.summary != "") != slices.ContainsFunc(g.Comments, func(s *forgetest.Comment) bool { return s.User == g.Me }) {
				t.Errorf("%s: the comments are %+v", c.why, g.Comments)
			}
			writes := g.Writes
			mustPost(t, g, r.posting)
			if more := g.Writes - writes; more > 1 {
				t.Errorf("%s: the second run writes %d times", c.why, more)
			}
		})
	}
}

// TestWorstFirst allows three comments on lines and wants those that block.
func TestWorstFirst(t *testing.T) {
	r := theNorth(t)
	p := *r.posting
	p.Goal.Most = 3
	g := r.github(t)
	mustPost(t, g, &p)
	for _, c := range g.LineComments {
		if !strings.Contains(c.Body, "**"+review.Block.String()+"** ") {
			t.Errorf("%s", c.Body)
		}
	}
	if text := g.Comments[0].Body; len(g.LineComments) != 3 || strings.Count(text, "\\] at `") != 3 || strings.Count(text, "**block** ")+strings.Count(text, "**warn** ") != r.onLines() {
		t.Errorf("%d comments on lines, and the summary says\n%s", len(g.LineComments), text)
	}
}

func headFiles(t *testing.T) files { return files{theNorth(t)} }

// TestBaseMoved tells that the base is another one than was judged against, and posts.
func TestBaseMoved(t *testing.T) {
	r := theNorth(t)
	for _, c := range []struct{ base, want string }{{r.posting.Base, ""}, {strings.Repeat("4", 40), "main has moved on to 4444444444"}} {
		g := r.github(t)
		g.Base = c.base
		out := mustPost(t, g, r.posting)
		if !strings.HasPrefix(out.Moved, c.want) || (out.Moved != "") != (c.want != "") || out.Posted != r.onLines() || strings.Contains(strings.Join(out.Lines(), "\n"), "moved on") != (c.want != "") {
			t.Errorf("%+v", out)
		}
	}
}
