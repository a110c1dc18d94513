package post

import (
	"cmp"
	"context"
	"errors"
	"net/http"
	"strconv"
	"strings"
)

// A thread is what the GraphQL interface knows of a comment on a line.
type thread struct {
	id       string
	resolved bool
}

const threadsQuery = `query($owner:String!,$repo:String!,$number:Int!,$after:String){
  viewer{login}
  repository(owner:$owner,name:$repo){pullRequest(number:$number){reviewThreads(first:100,after:$after){
    pageInfo{hasNextPage endCursor}
    nodes{id isResolved viewerCanResolve viewerCanUnresolve comments(first:1){nodes{fullDatabaseId}}}}}}}`

const resolveMutation = `mutation($id:ID!){resolveReviewThread(input:{threadId:$id}){thread{id}}}`
const unresolveMutation = `mutation($id:ID!){unresolveReviewThread(input:{threadId:$id}){thread{id}}}`

type threadsAnswer struct {
	Viewer     struct{ Login string }
	Repository struct {
		PullRequest struct {
			ReviewThreads struct {
				PageInfo struct {
					HasNextPage bool
					EndCursor   string
				}
				Nodes []struct {
					ID                                   string
					IsResolved                           bool
					ViewerCanResolve, ViewerCanUnresolve bool
					Comments                             struct {
						Nodes []struct{ FullDatabaseID string }
					}
				}
			}
		}
	}
}

// threads gives the threads of the pull request that may be resolved or opened, by
// their first comment. A token that may not ask gets none.
func (g *GitHub) threads(ctx context.Context) (map[int64]thread, error) {
	out := make(map[int64]thread)
	variables := map[string]any{"owner": g.owner, "repo": g.repo, "number": g.Number, "after": nil}
	for range mostPages {
		var answer threadsAnswer
		if err := g.ask(ctx, "asking for the threads", threadsQuery, variables, &answer); err != nil {
			if errors.Is(err, ErrBusy) || errors.Is(err, ErrUnsure) || ctx.Err() != nil {
				return nil, err
			}
			return out, nil
		}
		list := answer.Repository.PullRequest.ReviewThreads
		for _, n := range list.Nodes {
			if len(n.Comments.Nodes) == 0 || !n.ViewerCanResolve && !n.ViewerCanUnresolve {
				continue
			}
			if id, err := strconv.ParseInt(n.Comments.Nodes[0].FullDatabaseID, 10, 64); err == nil {
				out[id] = thread{n.ID, n.IsResolved}
			}
		}
		if !list.PageInfo.HasNextPage || list.PageInfo.EndCursor == "" {
			return out, nil
		}
		variables["after"] = list.PageInfo.EndCursor
	}
	return nil, endless()
}

// Resolve folds a thread away, or opens it again.
func (g *GitHub) Resolve(ctx context.Context, c Comment, resolved bool) error {
	query := resolveMutation
	if !resolved {
		query = unresolveMutation
	}
	return g.ask(ctx, "resolving a thread", query, map[string]any{"id": c.Thread}, nil)
}

// whoami finds out whose marks are to be believed. The token of a workflow may not
// read /user, but may ask for the viewer.
func (g *GitHub) whoami(ctx context.Context) (string, error) {
	if g.me != "" {
		return g.me, nil
	}
	var answer threadsAnswer
	err := g.ask(ctx, "asking who we are", `query{viewer{login}}`, nil, &answer)
	if err == nil && answer.Viewer.Login != "" {
		g.me = answer.Viewer.Login
		return g.me, nil
	}
	if errors.Is(err, ErrBusy) || errors.Is(err, ErrUnsure) || ctx.Err() != nil {
		return "", err
	}
	user, resp, err := g.api().Users.Get(ctx, "")
	err = g.failed(ctx, "asking who we are", resp, err)
	switch {
	case err == nil && user.GetLogin() != "":
		g.me = user.GetLogin()
	case err != nil && !errors.Is(err, ErrNoRight) && !errors.Is(err, ErrMissing):
		return "", err
	default:
		g.me = cmp.Or(g.Login, "github-actions[bot]")
	}
	return g.me, nil
}

// ask puts a question to the GraphQL interface.
func (g *GitHub) ask(ctx context.Context, what, query string, variables map[string]any, answer any) error {
	c := g.api()
	req, err := c.NewRequest(http.MethodPost, g.graphql(), map[string]any{"query": query, "variables": variables})
	if err != nil {
		return err
	}
	reply := struct {
		Data   any
		Errors []struct{ Type, Message string }
	}{Data: answer}
	resp, err := c.Do(ctx, req, &reply)
	if err := g.failed(ctx, what, resp, err); err != nil {
		return err
	}
	if len(reply.Errors) == 0 {
		return nil
	}
	first := reply.Errors[0]
	f := &Failure{Kind: ErrRejected, Text: what + ": " + short(first.Message)}
	switch first.Type {
	case "RATE_LIMITED":
		f.Kind, f.Wait = ErrBusy, wait(resp.Header, g.now())
	case "FORBIDDEN", "INSUFFICIENT_SCOPES":
		f.Kind = ErrNoRight
	case "NOT_FOUND":
		f.Kind = ErrMissing
	}
	return f
}

// graphql gives the address of the GraphQL interface: beside the REST one on
// github.com, and at /api/graphql on an Enterprise Server.
func (g *GitHub) graphql() string {
	if g.GraphQL != "" {
		return g.GraphQL
	}
	api := strings.TrimSuffix(g.API, "/")
	if server, ok := strings.CutSuffix(api, "/v3"); ok {
		api = server
	}
	return api + "/graphql"
}
