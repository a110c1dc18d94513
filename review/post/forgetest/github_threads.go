package forgetest

import (
	"fmt"
	"net/http"
	"slices"
	"strings"
)

// graphql answers the questions that passband asks, by what is in them.
func (g *GitHub) graphql(w http.ResponseWriter, r *http.Request) {
	in := body[struct {
		Query     string
		Variables struct{ ID, After string }
	}](r)
	switch {
	case g.NoGraphQL:
		answer(w, 200, map[string]any{"data": nil, "errors": []any{map[string]any{"type": "FORBIDDEN", "message": "Resource not accessible by integration"}}})
	case strings.Contains(in.Query, "esolveReviewThread"):
		g.resolve(w, in.Variables.ID, !strings.Contains(in.Query, "unresolve"))
	case strings.Contains(in.Query, "reviewThreads"):
		g.threads(w, in.Variables.After)
	default:
		answer(w, 200, map[string]any{"data": map[string]any{"viewer": map[string]any{"login": g.Me}}})
	}
}

func (g *GitHub) resolve(w http.ResponseWriter, thread string, resolved bool) {
	i := slices.IndexFunc(g.LineComments, func(c *LineComment) bool { return threadID(c) == thread })
	if i < 0 {
		answer(w, 200, map[string]any{"data": nil, "errors": []any{map[string]any{"type": "NOT_FOUND", "message": "Could not resolve to a node"}}})
		return
	}
	g.LineComments[i].Resolved = resolved
	done := map[bool]string{true: "resolveReviewThread", false: "unresolveReviewThread"}[resolved]
	answer(w, 200, map[string]any{"data": map[string]any{done: map[string]any{"thread": map[string]any{"id": thread}}}})
}

func threadID(c *LineComment) string { return fmt.Sprintf("PRRT_%d", c.ID) }

// threads answers two threads at a time, so that pages are asked for.
func (g *GitHub) threads(w http.ResponseWriter, after string) {
	var nodes []any
	more, end, open := false, "", after == ""
	for _, c := range g.LineComments {
		if c.ReplyTo != 0 || g.pending(c.Review) {
			continue
		}
		if !open {
			open = threadID(c) == after
			continue
		}
		if len(nodes) == 2 {
			more = true
			break
		}
		end = threadID(c)
		nodes = append(nodes, map[string]any{
			"id": end, "isResolved": c.Resolved, "viewerCanResolve": !c.Resolved && !g.ReadOnly, "viewerCanUnresolve": c.Resolved && !g.ReadOnly,
			"comments": map[string]any{"nodes": []any{map[string]any{"fullDatabaseId": fmt.Sprint(c.ID)}}},
		})
	}
	list := map[string]any{"pageInfo": map[string]any{"hasNextPage": more, "endCursor": end}, "nodes": nodes}
	answer(w, 200, map[string]any{"data": map[string]any{
		"viewer": map[string]any{"login": g.Me}, "repository": map[string]any{"pullRequest": map[string]any{"reviewThreads": list}},
	}})
}
