package post

import (
	"context"
	"errors"
	"fmt"
	"net/http"
)

type giteaDraft struct {
	Path string `json:"path"`
	Body string `json:"body"`
	New  int32  `json:"new_position"`
	Old  int32  `json:"old_position"`
}

type giteaBody struct {
	Body string `json:"body"`
}

// Review posts comments on lines in one review. The forge does not do it all or none:
// what is left of a failure is deleted, and the caller asks again what stands.
func (g *Gitea) Review(ctx context.Context, commit string, drafts []Draft) error {
	if err := g.dropPending(ctx); err != nil {
		return err
	}
	request := struct {
		Commit   string       `json:"commit_id"`
		Event    string       `json:"event"`
		Body     string       `json:"body"`
		Comments []giteaDraft `json:"comments"`
	}{commit, "COMMENT", reviewBody(len(drafts)), nil}
	for _, d := range drafts {
		c := giteaDraft{Path: d.Spot.Path, Body: d.Body, New: d.Spot.Line}
		if d.Spot.Side == OldSide {
			c.New, c.Old = 0, d.Spot.Line
		}
		request.Comments = append(request.Comments, c)
	}
	var made giteaReview
	_, err := g.call(ctx, "posting a review", http.MethodPost, fmt.Sprintf("pulls/%d/reviews", g.Number), request, &made)
	if err == nil && made.User.Login != "" {
		g.me = made.User.Login
	}
	if errors.Is(err, ErrUnsure) {
		_ = g.dropPending(ctx) // the next review does it again, if there is one
	}
	return err
}

func reviewBody(n int) string {
	if n == 1 {
		return "One finding on a line of this change; the summary has all."
	}
	return fmt.Sprintf("%d findings on lines of this change; the summary has all.", n)
}

// Amend changes the text of a comment on a line.
func (g *Gitea) Amend(ctx context.Context, c Comment, body string) error {
	_, err := g.call(ctx, "changing a comment", http.MethodPatch, fmt.Sprintf("issues/comments/%d", c.ID), giteaBody{body}, nil)
	return err
}

// Remove deletes a comment on a line.
func (g *Gitea) Remove(ctx context.Context, c Comment) error {
	_, err := g.call(ctx, "deleting a comment", http.MethodDelete, fmt.Sprintf("issues/comments/%d", c.ID), nil, nil)
	return err
}

// Summaries lists the comments on the whole.
func (g *Gitea) Summaries(ctx context.Context) ([]Comment, error) {
	me, err := g.whoami(ctx)
	if err != nil {
		return nil, err
	}
	list, err := all[giteaComment](ctx, g, "listing the comments on the pull request", fmt.Sprintf("issues/%d/comments", g.Number))
	var out []Comment
	for _, c := range list {
		out = append(out, Comment{ID: c.ID, Body: c.Body, Mine: c.User.Login == me})
	}
	return out, err
}

// AddSummary posts a comment on the whole.
func (g *Gitea) AddSummary(ctx context.Context, body string) error {
	var made giteaComment
	_, err := g.call(ctx, "posting the summary", http.MethodPost, fmt.Sprintf("issues/%d/comments", g.Number), giteaBody{body}, &made)
	if err == nil && made.User.Login != "" {
		g.me = made.User.Login
	}
	return err
}

// AmendSummary changes the text of a comment on the whole.
func (g *Gitea) AmendSummary(ctx context.Context, c Comment, body string) error {
	return g.Amend(ctx, c, body)
}

// RemoveSummary deletes a comment on the whole.
func (g *Gitea) RemoveSummary(ctx context.Context, c Comment) error { return g.Remove(ctx, c) }

// Resolve folds a thread away, or opens it again.
func (g *Gitea) Resolve(ctx context.Context, c Comment, resolved bool) error {
	verb := "resolve"
	if !resolved {
		verb = "unresolve"
	}
	_, err := g.call(ctx, "resolving a thread", http.MethodPost, fmt.Sprintf("pulls/comments/%d/%s", c.ID, verb), nil, nil)
	return err
}

// Status sets the verdict beside a commit.
func (g *Gitea) Status(ctx context.Context, commit string, s Status) error {
	state := "success"
	if s.Blocks {
		state = "failure"
	}
	request := struct {
		State       string `json:"state"`
		Context     string `json:"context"`
		Description string `json:"description"`
		Link        string `json:"target_url,omitempty"`
	}{state, s.Context, s.Text, s.Link}
	_, err := g.call(ctx, "setting the status of the commit", http.MethodPost, "statuses/"+commit, request, nil)
	return err
}
