package post

import (
	"bytes"
	"cmp"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net/http"
	"net/url"
	"strings"
	"time"

	"passband.example/review/report"
)

// Gitea is a pull request on Gitea or a forge with the same interface. It looks like
// GitHub's and is not: a review with GitHub's fields is taken and lands on no line,
// pages are asked for by another name, and a review that fails half-way stays behind
// (seen on Gitea 1.26).
type Gitea struct {
	Access
	owner, repo string
	http        *http.Client
	me          string
	now         func() time.Time
}

// NewGitea prepares to work on a pull request. A nil client stands for one with a
// time limit.
func NewGitea(a Access, client *http.Client) (*Gitea, error) {
	owner, repo, err := a.split()
	if err != nil {
		return nil, err
	}
	if client == nil {
		client = &http.Client{Timeout: answerTime}
	}
	return &Gitea{Access: a, owner: owner, repo: repo, http: client, now: time.Now}, nil
}

// mostAnswer bounds what is read of an answer, in bytes.
const mostAnswer = 64 << 20

// call asks for something below the repository, or with a leading slash below the
// root of the interface.
func (g *Gitea) call(ctx context.Context, what, method, path string, in, out any) (http.Header, error) {
	req, err := g.request(ctx, method, path, in)
	if err != nil {
		return nil, err
	}
	resp, err := g.http.Do(req)
	if err != nil {
		return nil, lost(ctx, what, err)
	}
	defer resp.Body.Close()
	text, err := io.ReadAll(io.LimitReader(resp.Body, mostAnswer))
	switch {
	case resp.StatusCode >= 300:
		return nil, answered(what, resp.StatusCode, resp.Header, string(text), g.now())
	case err != nil:
		return nil, lost(ctx, what, err)
	case out == nil:
		return resp.Header, nil
	}
	if err := json.Unmarshal(text, out); err != nil {
		return nil, &Failure{Kind: ErrUnsure, Text: fmt.Sprintf("%s: the answer cannot be read: %v", what, err)}
	}
	return resp.Header, nil
}

func (g *Gitea) request(ctx context.Context, method, path string, in any) (*http.Request, error) {
	address := strings.TrimSuffix(g.API, "/")
	if !strings.HasPrefix(path, "/") {
		address += "/repos/" + url.PathEscape(g.owner) + "/" + url.PathEscape(g.repo) + "/"
	}
	var body io.Reader
	if in != nil {
		text, err := json.Marshal(in)
		if err != nil {
			return nil, err
		}
		body = bytes.NewReader(text)
	}
	req, err := http.NewRequestWithContext(ctx, method, address+path, body)
	if err != nil {
		return nil, err
	}
	req.Header.Set("Accept", "application/json")
	req.Header.Set("Authorization", "token "+g.Token)
	if in != nil {
		req.Header.Set("Content-Type", "application/json")
	}
	return req, nil
}

// giteaPage is the most that Gitea gives at once where it is not set up otherwise.
const giteaPage = 50

// all reads all pages of a list.
func all[T any](ctx context.Context, g *Gitea, what, path string) ([]T, error) {
	var out []T
	for page := 1; ; page++ {
		var some []T
		h, err := g.call(ctx, what, http.MethodGet, fmt.Sprintf("%s?limit=%d&page=%d", path, giteaPage, page), nil, &some)
		if err != nil {
			return nil, err
		}
		out = append(out, some...)
		if len(some) == 0 || !strings.Contains(h.Get("Link"), `rel="next"`) {
			return out, nil
		}
		if page == mostPages {
			return nil, endless()
		}
	}
}

type giteaUser struct {
	Login string `json:"login"`
}

type giteaComment struct {
	ID       int64      `json:"id"`
	Body     string     `json:"body"`
	User     giteaUser  `json:"user"`
	Resolver *giteaUser `json:"resolver"`
	Path     string     `json:"path"`
	New      int32      `json:"position"`          // line of the new file, or 0
	Old      int32      `json:"original_position"` // line of the old file, or 0
}

type giteaReview struct {
	ID       int64     `json:"id"`
	State    string    `json:"state"`
	User     giteaUser `json:"user"`
	Comments int       `json:"comments_count"`
}

// whoami finds out whose marks are to be believed.
func (g *Gitea) whoami(ctx context.Context) (string, error) {
	if g.me != "" {
		return g.me, nil
	}
	var user giteaUser
	_, err := g.call(ctx, "asking who we are", http.MethodGet, "/user", nil, &user)
	if err != nil && !errors.Is(err, ErrNoRight) && !errors.Is(err, ErrMissing) {
		return "", err
	}
	g.me = cmp.Or(user.Login, g.Login, "gitea-actions")
	return g.me, nil
}

// Pull tells how the pull request stands.
func (g *Gitea) Pull(ctx context.Context) (Pull, error) {
	var pr struct {
		State string
		Head  struct{ SHA string }
		Base  struct{ Ref, SHA string }
	}
	_, err := g.call(ctx, "reading the pull request", http.MethodGet, fmt.Sprintf("pulls/%d", g.Number), nil, &pr)
	return Pull{Head: pr.Head.SHA, Base: pr.Base.Ref, Tip: pr.Base.SHA, Open: pr.State == "open"}, err
}

// Place gives the line that a comment can stand on: there are no ranges.
func (g *Gitea) Place(s Spot) Spot {
	s.From = 0
	return s
}

// Comments lists the comments on lines. Those of one line are one thread.
func (g *Gitea) Comments(ctx context.Context) ([]Comment, error) {
	me, err := g.whoami(ctx)
	if err != nil {
		return nil, err
	}
	reviews, err := g.reviews(ctx)
	if err != nil {
		return nil, err
	}
	var out []Comment
	others := make(map[Spot]bool)
	for _, r := range reviews {
		if r.State == "PENDING" || r.Comments == 0 {
			continue
		}
		comments, err := g.commentsOf(ctx, r)
		if err != nil {
			return nil, err
		}
		for _, c := range comments {
			one := Comment{
				ID: c.ID, Thread: fmt.Sprint(c.ID), Resolved: c.Resolver != nil && c.Resolver.Login != "",
				Mine: c.User.Login == me, Body: c.Body, Spot: c.spot(),
			}
			if others[one.Spot] = others[one.Spot] || !one.Mine; one.Mine {
				out = append(out, one)
			}
		}
	}
	for i := range out {
		out[i].Answered = others[out[i].Spot]
	}
	return out, nil
}

func (c giteaComment) spot() Spot {
	switch {
	case c.New > 0:
		return Spot{Path: c.Path, Line: c.New}
	case c.Old > 0:
		return Spot{Path: c.Path, Side: OldSide, Line: c.Old}
	}
	return Spot{}
}

func (g *Gitea) reviews(ctx context.Context) ([]giteaReview, error) {
	return all[giteaReview](ctx, g, "listing the reviews", fmt.Sprintf("pulls/%d/reviews", g.Number))
}

func (g *Gitea) commentsOf(ctx context.Context, r giteaReview) (list []giteaComment, err error) {
	_, err = g.call(ctx, "listing the comments on lines", http.MethodGet, fmt.Sprintf("pulls/%d/reviews/%d/comments", g.Number, r.ID), nil, &list)
	return list, err
}

// dropPending deletes a review of ours that failed half-way, which the next review
// would send along; but not one that a person is writing with the same token.
func (g *Gitea) dropPending(ctx context.Context) error {
	me, err := g.whoami(ctx)
	if err != nil {
		return err
	}
	reviews, err := g.reviews(ctx)
	if err != nil {
		return err
	}
	for _, r := range reviews {
		if r.State != "PENDING" || r.User.Login != me {
			continue
		}
		comments, err := g.commentsOf(ctx, r)
		if err != nil {
			return err
		}
		for _, c := range comments {
			if _, _, ours := report.ParseMark(c.Body); !ours {
				return &Failure{Kind: ErrNoRight, Text: writingOne}
			}
		}
		if _, err := g.call(ctx, "deleting the pending review", http.MethodDelete, fmt.Sprintf("pulls/%d/reviews/%d", g.Number, r.ID), nil, nil); err != nil && !errors.Is(err, ErrMissing) {
			return err
		}
	}
	return nil
}

// writingOne says that a person's own work is in the way.
const writingOne = "the user of this token is writing a review of this pull request: send or discard it, or give passband a token of its own"
