package post

import (
	"context"
	"errors"
	"fmt"

	"github.com/google/go-github/v60/github"
)

// Open prepares to work on a pull request, on the forge that the address is of.
func Open(a Access) (Forge, error) {
	if a.IsGitea() {
		return NewGitea(a, nil)
	}
	return NewGitHub(a, nil)
}

// ErrNoPull says that no open pull request has the commit as its head.
var ErrNoPull = errors.New("no open pull request has this commit as its head")

// Find looks the pull request of a workflow_run up by its head: the event does not
// name one that comes from a fork, and what a run from a fork says of itself is not
// to be trusted. It completes Access and Span.
func (r *Run) Find(ctx context.Context) error {
	if r.Event != "workflow_run" {
		return nil
	}
	a := r.Access
	g, err := NewGitHub(a, nil)
	if err != nil {
		return err
	}
	o := &github.PullRequestListOptions{State: "open", Head: r.HeadOwner + ":" + r.HeadRef}
	list, err := pages(func(page github.ListOptions) ([]*github.PullRequest, *github.Response, error) {
		o.ListOptions = page
		some, resp, err := g.api().PullRequests.List(ctx, g.owner, g.repo, o)
		return some, resp, g.failed(ctx, "looking for the pull request", resp, err)
	})
	if err != nil {
		return err
	}
	for _, pr := range list {
		if pr.GetHead().GetSHA() == r.Span.Head {
			r.Access.Number = pr.GetNumber()
			r.Span.Base, r.Span.BaseName = pr.GetBase().GetSHA(), pr.GetBase().GetRef()
			return nil
		}
	}
	return fmt.Errorf("%w: %.10s; a newer one may have been pushed", ErrNoPull, r.Span.Head)
}
