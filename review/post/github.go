package post

import (
	"cmp"
	"context"
	"io"
	"net/http"
	"net/url"
	"strings"
	"time"

	"github.com/google/go-github/v60/github"
)

// GitHub is a pull request on GitHub, or on an Enterprise Server.
type GitHub struct {
	Access
	owner, repo string
	http        *http.Client
	me          string // whose marks are believed; "" until it is known
	now         func() time.Time
}

// NewGitHub prepares to work on a pull request. A nil client stands for one with a
// time limit.
func NewGitHub(a Access, client *http.Client) (*GitHub, error) {
	owner, repo, err := a.split()
	if err != nil {
		return nil, err
	}
	if client == nil {
		client = &http.Client{Timeout: answerTime}
	}
	return &GitHub{Access: a, owner: owner, repo: repo, http: client, now: time.Now}, nil
}

// api gives a client without a memory: go-github would refuse requests by itself
// after a limit, and Patience waits here.
func (g *GitHub) api() *github.Client {
	c := github.NewClient(g.http).WithAuthToken(g.Token)
	c.BaseURL, _ = url.Parse(strings.TrimSuffix(g.API, "/") + "/") // split has read it
	return c
}

// failed tells what kind of failure an error of go-github is; nil if it is none. It
// sees all answers alike, since go-github does not know a 429.
func (g *GitHub) failed(ctx context.Context, what string, resp *github.Response, err error) error {
	switch {
	case err == nil:
		return nil
	case resp == nil || resp.StatusCode < 300: // no answer, or one that broke off
		return lost(ctx, what, err)
	}
	text, _ := io.ReadAll(io.LimitReader(resp.Body, 4096))
	return answered(what, resp.StatusCode, resp.Header, cmp.Or(string(text), err.Error()), g.now())
}

// Pull tells how the pull request stands.
func (g *GitHub) Pull(ctx context.Context) (Pull, error) {
	pr, resp, err := g.api().PullRequests.Get(ctx, g.owner, g.repo, g.Number)
	if err := g.failed(ctx, "reading the pull request", resp, err); err != nil {
		return Pull{}, err
	}
	return Pull{Head: pr.GetHead().GetSHA(), Base: pr.GetBase().GetRef(), Tip: pr.GetBase().GetSHA(), Open: pr.GetState() == "open"}, nil
}

// pageSize is the most that GitHub gives at once.
const pageSize = 100

// pages reads all pages of a list.
func pages[T any](read func(o github.ListOptions) ([]T, *github.Response, error)) ([]T, error) {
	var all []T
	for o := (github.ListOptions{PerPage: pageSize}); ; {
		page, resp, err := read(o)
		if err != nil {
			return nil, err
		}
		all = append(all, page...)
		if resp.NextPage == 0 {
			return all, nil
		}
		if resp.NextPage <= o.Page || resp.NextPage > mostPages {
			return nil, endless()
		}
		o.Page = resp.NextPage
	}
}

// Summaries lists the comments on the whole.
func (g *GitHub) Summaries(ctx context.Context) ([]Comment, error) {
	me, err := g.whoami(ctx)
	if err != nil {
		return nil, err
	}
	all, err := pages(func(o github.ListOptions) ([]*github.IssueComment, *github.Response, error) {
		page, resp, err := g.api().Issues.ListComments(ctx, g.owner, g.repo, g.Number, &github.IssueListCommentsOptions{ListOptions: o})
		return page, resp, g.failed(ctx, "listing the comments on the pull request", resp, err)
	})
	var out []Comment
	for _, c := range all {
		out = append(out, Comment{ID: c.GetID(), Body: c.GetBody(), Mine: c.GetUser().GetLogin() == me})
	}
	return out, err
}

// Comments lists the comments on lines.
func (g *GitHub) Comments(ctx context.Context) ([]Comment, error) {
	me, err := g.whoami(ctx)
	if err != nil {
		return nil, err
	}
	all, err := pages(func(o github.ListOptions) ([]*github.PullRequestComment, *github.Response, error) {
		page, resp, err := g.api().PullRequests.ListComments(ctx, g.owner, g.repo, g.Number, &github.PullRequestListCommentsOptions{ListOptions: o})
		return page, resp, g.failed(ctx, "listing the comments on lines", resp, err)
	})
	if err != nil {
		return nil, err
	}
	threads, err := g.threads(ctx)
	if err != nil {
		return nil, err
	}
	answered := make(map[int64]bool)
	for _, c := range all {
		if c.GetInReplyTo() != 0 && c.GetUser().GetLogin() != me {
			answered[c.GetInReplyTo()] = true
		}
	}
	var out []Comment
	for _, c := range all {
		if c.GetInReplyTo() == 0 {
			t := threads[c.GetID()]
			out = append(out, Comment{
				ID: c.GetID(), Thread: t.id, Resolved: t.resolved, Mine: c.GetUser().GetLogin() == me,
				Body: c.GetBody(), Spot: githubSpot(c), Answered: answered[c.GetID()],
			})
		}
	}
	return out, nil
}

// githubSpot reads where a comment stands; an outdated one has no line.
func githubSpot(c *github.PullRequestComment) Spot {
	if c.Line == nil || *c.Line == 0 {
		return Spot{}
	}
	s := Spot{Path: c.GetPath(), From: int32(c.GetStartLine()), Line: int32(*c.Line)}
	if c.GetSide() == "LEFT" {
		s.Side = OldSide
	}
	return s
}

// Patches gives the diff of each file, as far as GitHub shows it.
func (g *GitHub) Patches(ctx context.Context) (map[string]string, error) {
	all, err := pages(func(o github.ListOptions) ([]*github.CommitFile, *github.Response, error) {
		page, resp, err := g.api().PullRequests.ListFiles(ctx, g.owner, g.repo, g.Number, &o)
		return page, resp, g.failed(ctx, "listing the files of the pull request", resp, err)
	})
	out := make(map[string]string)
	for _, f := range all {
		if f.GetPatch() != "" {
			out[f.GetFilename()] = f.GetPatch()
		}
	}
	return out, err
}
