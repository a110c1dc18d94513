package post

import (
	"context"
	"errors"
	"strings"

	"github.com/google/go-github/v60/github"
	"passband.example/review/report"
)

// Review posts comments on lines in one review, all or none.
func (g *GitHub) Review(ctx context.Context, commit string, drafts []Draft) error {
	err := g.review(ctx, commit, drafts)
	if f := (*Failure)(nil); errors.As(err, &f) && errors.Is(err, ErrRejected) && strings.Contains(strings.ToLower(f.Text), "pending review") {
		if err := g.dropPending(ctx); err != nil {
			return err
		}
		return g.review(ctx, commit, drafts)
	}
	return err
}

func (g *GitHub) review(ctx context.Context, commit string, drafts []Draft) error {
	request := &github.PullRequestReviewRequest{CommitID: &commit, Event: github.String("COMMENT"), Body: github.String(reviewBody(len(drafts)))}
	for _, d := range drafts {
		c := &github.DraftReviewComment{Path: &d.Spot.Path, Body: &d.Body, Line: github.Int(int(d.Spot.Line)), Side: github.String("RIGHT")}
		if d.Spot.Side == OldSide {
			c.Side = github.String("LEFT")
		}
		if d.Spot.From > 0 {
			c.StartLine, c.StartSide = github.Int(int(d.Spot.From)), c.Side
		}
		request.Comments = append(request.Comments, c)
	}
	made, resp, err := g.api().PullRequests.CreateReview(ctx, g.owner, g.repo, g.Number, request)
	if err == nil {
		g.learn(made.GetUser().GetLogin())
	}
	return g.failed(ctx, "posting a review", resp, err)
}

// learn takes the author of what was just posted for who passband is.
func (g *GitHub) learn(login string) {
	if login != "" {
		g.me = login
	}
}

// dropPending deletes the review that our user has begun and not sent, which keeps
// others from being made; but not one that a person is writing with the same token.
func (g *GitHub) dropPending(ctx context.Context) error {
	reviews, err := pages(func(o github.ListOptions) ([]*github.PullRequestReview, *github.Response, error) {
		page, resp, err := g.api().PullRequests.ListReviews(ctx, g.owner, g.repo, g.Number, &o)
		return page, resp, g.failed(ctx, "listing the reviews", resp, err)
	})
	if err != nil {
		return err
	}
	for _, r := range reviews {
		if r.GetState() != "PENDING" {
			continue
		}
		comments, err := pages(func(o github.ListOptions) ([]*github.PullRequestComment, *github.Response, error) {
			page, resp, err := g.api().PullRequests.ListReviewComments(ctx, g.owner, g.repo, g.Number, r.GetID(), &o)
			return page, resp, g.failed(ctx, "reading the pending review", resp, err)
		})
		if err != nil {
			return err
		}
		for _, c := range comments {
			if _, _, ours := report.ParseMark(c.GetBody()); !ours {
				return &Failure{Kind: ErrNoRight, Text: writingOne}
			}
		}
		_, resp, err := g.api().PullRequests.DeletePendingReview(ctx, g.owner, g.repo, g.Number, r.GetID())
		if err := g.failed(ctx, "deleting the pending review", resp, err); err != nil {
			return err
		}
	}
	return nil
}

// Amend changes the text of a comment on a line.
func (g *GitHub) Amend(ctx context.Context, c Comment, body string) error {
	_, resp, err := g.api().PullRequests.EditComment(ctx, g.owner, g.repo, c.ID, &github.PullRequestComment{Body: &body})
	return g.failed(ctx, "changing a comment on a line", resp, err)
}

// Remove deletes a comment on a line.
func (g *GitHub) Remove(ctx context.Context, c Comment) error {
	resp, err := g.api().PullRequests.DeleteComment(ctx, g.owner, g.repo, c.ID)
	return g.failed(ctx, "deleting a comment on a line", resp, err)
}

// AddSummary posts a comment on the whole.
func (g *GitHub) AddSummary(ctx context.Context, body string) error {
	made, resp, err := g.api().Issues.CreateComment(ctx, g.owner, g.repo, g.Number, &github.IssueComment{Body: &body})
	if err == nil {
		g.learn(made.GetUser().GetLogin())
	}
	return g.failed(ctx, "posting the summary", resp, err)
}

// AmendSummary changes the text of a comment on the whole.
func (g *GitHub) AmendSummary(ctx context.Context, c Comment, body string) error {
	_, resp, err := g.api().Issues.EditComment(ctx, g.owner, g.repo, c.ID, &github.IssueComment{Body: &body})
	return g.failed(ctx, "changing the summary", resp, err)
}

// RemoveSummary deletes a comment on the whole.
func (g *GitHub) RemoveSummary(ctx context.Context, c Comment) error {
	resp, err := g.api().Issues.DeleteComment(ctx, g.owner, g.repo, c.ID)
	return g.failed(ctx, "deleting a summary", resp, err)
}

// Status sets the verdict beside a commit: as a status or, where the token may not,
// as a check run.
func (g *GitHub) Status(ctx context.Context, commit string, s Status) error {
	state := "success"
	if s.Blocks {
		state = "failure"
	}
	status := &github.RepoStatus{State: &state, Context: &s.Context, Description: &s.Text}
	if s.Link != "" {
		status.TargetURL = &s.Link
	}
	_, resp, err := g.api().Repositories.CreateStatus(ctx, g.owner, g.repo, commit, status)
	err = g.failed(ctx, "setting the status of the commit", resp, err)
	if !errors.Is(err, ErrNoRight) {
		return err
	}
	run := github.CreateCheckRunOptions{
		Name: s.Context, HeadSHA: commit, Status: github.String("completed"), Conclusion: &state,
		Output: &github.CheckRunOutput{Title: &s.Text, Summary: &s.Text},
	}
	if s.Link != "" {
		run.DetailsURL = &s.Link
	}
	_, resp, second := g.api().Checks.CreateCheckRun(ctx, g.owner, g.repo, run)
	if second := g.failed(ctx, "making a check run", resp, second); second == nil || !errors.Is(second, ErrNoRight) && !errors.Is(second, ErrMissing) {
		return second
	}
	return err
}
