package forgetest

import (
	"fmt"
	"net/http"
	"slices"
	"strconv"
)

// Gitea is a pull request on Gitea: owner/plan, number 7. It does what Gitea 1.26 was
// seen to do: a review is not taken as a whole, and what is left of one that failed is
// sent along with the next.
type Gitea struct {
	server
	Me      string // the user of the token
	Head    string
	Open    bool
	Lengths map[string]int                   // lines of each file of the head; a comment past the end is a 500
	Bad     func(path string, line int) bool // lines that it fails at as well; nil for none

	Reviews      []*Review
	LineComments []*LineComment
	Comments     []*Comment
	Statuses     []Status

	last int64
}

// NewGitea starts a forge on loopback.
func NewGitea(cleanup func(func())) *Gitea {
	g := &Gitea{Me: "gitea-actions", Open: true, Lengths: map[string]int{}, last: 1000}
	g.Token = "right"
	g.start(cleanup)
	for pattern, do := range map[string]http.HandlerFunc{
		"GET /repos/owner/plan/pulls/7":                       g.pull,
		"GET /repos/owner/plan/pulls/7/reviews":               g.reviews,
		"POST /repos/owner/plan/pulls/7/reviews":              g.review,
		"GET /repos/owner/plan/pulls/7/reviews/{id}/comments": g.reviewComments,
		"DELETE /repos/owner/plan/pulls/7/reviews/{id}":       g.dropReview,
		"POST /repos/owner/plan/pulls/comments/{id}/{verb}":   g.resolve,
		"GET /repos/owner/plan/issues/7/comments":             g.comments,
		"POST /repos/owner/plan/issues/7/comments":            g.addComment,
		"PATCH /repos/owner/plan/issues/comments/{id}":        g.amend,
		"DELETE /repos/owner/plan/issues/comments/{id}":       g.remove,
		"POST /repos/owner/plan/statuses/{sha}":               g.status,
		"GET /user":                                           func(w http.ResponseWriter, _ *http.Request) { answer(w, 200, map[string]any{"login": g.Me}) },
	} {
		g.mux.HandleFunc(pattern, do)
	}
	return g
}

// Say lets somebody write on the line of a comment, as an answer is written there.
func (g *Gitea) Say(user string, to *LineComment, text string) {
	g.Lock()
	defer g.Unlock()
	g.last += 2
	g.Reviews = append(g.Reviews, &Review{ID: g.last - 1, User: user, State: "COMMENT"})
	g.LineComments = append(g.LineComments, &LineComment{ID: g.last, Review: g.last - 1, User: user, Body: text, Path: to.Path, Line: to.Line, Side: to.Side})
}

func (g *Gitea) pull(w http.ResponseWriter, _ *http.Request) {
	answer(w, 200, map[string]any{
		"number": 7, "state": map[bool]string{true: "open", false: "closed"}[g.Open],
		"head": map[string]any{"sha": g.Head}, "base": map[string]any{"ref": "main", "sha": "b"}, "merge_base": "b",
	})
}

// page answers one page of a list; the size is asked for by "limit", and is 50 at most.
func (g *Gitea) page(w http.ResponseWriter, r *http.Request, list []any) {
	number := func(key string, def int) int {
		if n, err := strconv.Atoi(r.URL.Query().Get(key)); err == nil && n > 0 {
			return n
		}
		return def
	}
	size, page := min(number("limit", 30), 50), number("page", 1)
	from, to := min(len(list), (page-1)*size), min(len(list), page*size)
	if to < len(list) {
		w.Header().Set("Link", fmt.Sprintf(`<%s%s?limit=%d&page=%d>; rel="next"`, g.URL, r.URL.Path, size, page+1))
	}
	answer(w, 200, append([]any{}, list[from:to]...))
}

func (g *Gitea) reviewObject(v *Review) map[string]any {
	n := 0
	for _, c := range g.LineComments {
		if c.Review == v.ID {
			n++
		}
	}
	return map[string]any{"id": v.ID, "state": v.State, "body": v.Body, "user": map[string]any{"login": v.User}, "comments_count": n}
}

func (g *Gitea) reviews(w http.ResponseWriter, r *http.Request) {
	var list []any
	for _, v := range g.Reviews {
		list = append(list, g.reviewObject(v))
	}
	g.page(w, r, list)
}

func (g *Gitea) reviewComments(w http.ResponseWriter, r *http.Request) {
	list := []any{}
	for _, c := range g.LineComments {
		if c.Review != id(r) {
			continue
		}
		o := map[string]any{"id": c.ID, "body": c.Body, "path": c.Path, "user": map[string]any{"login": c.User}, "position": c.Line, "original_position": 0, "resolver": nil}
		if c.Side == "LEFT" {
			o["position"], o["original_position"] = 0, c.Line
		}
		if c.Resolved {
			o["resolver"] = map[string]any{"login": g.Me}
		}
		list = append(list, o)
	}
	answer(w, 200, list)
}

// review makes the comments one by one in a pending review, and then sends it.
func (g *Gitea) review(w http.ResponseWriter, r *http.Request) {
	in := body[struct {
		Event, Body string
		Comments    []struct {
			Path, Body string
			New        int `json:"new_position"`
			Old        int `json:"old_position"`
		}
	}](r)
	i := slices.IndexFunc(g.Reviews, func(v *Review) bool { return v.State == "PENDING" && v.User == g.Me })
	if i < 0 {
		g.last++
		g.Reviews = append(g.Reviews, &Review{ID: g.last, User: g.Me, State: "PENDING"})
		i = len(g.Reviews) - 1
	}
	v := g.Reviews[i]
	v.Body = in.Body
	for _, c := range in.Comments {
		if c.New > g.Lengths[c.Path] || g.Bad != nil && g.Bad(c.Path, c.New) {
			fail(w, 500, "line is past the end of the file")
			return
		}
		g.last++
		one := &LineComment{ID: g.last, Review: v.ID, User: g.Me, Body: c.Body, Path: c.Path, Line: c.New}
		if c.Old > 0 {
			one.Side, one.Line = "LEFT", c.Old
		}
		g.LineComments = append(g.LineComments, one)
	}
	if in.Event == "COMMENT" {
		v.State = "COMMENT"
	}
	answer(w, 200, g.reviewObject(v))
}

func (g *Gitea) dropReview(w http.ResponseWriter, r *http.Request) {
	i := slices.IndexFunc(g.Reviews, func(v *Review) bool { return v.ID == id(r) })
	if i < 0 {
		fail(w, 404, "The target couldn't be found.")
		return
	}
	g.Reviews = slices.Delete(g.Reviews, i, i+1)
	g.LineComments = slices.DeleteFunc(g.LineComments, func(c *LineComment) bool { return c.Review == id(r) })
	w.WriteHeader(204)
}

func (g *Gitea) resolve(w http.ResponseWriter, r *http.Request) {
	for _, c := range g.LineComments {
		if c.ID == id(r) {
			c.Resolved = r.PathValue("verb") == "resolve"
			w.WriteHeader(204)
			return
		}
	}
	fail(w, 404, "The target couldn't be found.")
}

func (g *Gitea) comments(w http.ResponseWriter, r *http.Request) {
	var list []any
	for _, c := range g.Comments {
		list = append(list, map[string]any{"id": c.ID, "body": c.Body, "user": map[string]any{"login": c.User}})
	}
	g.page(w, r, list)
}

func (g *Gitea) addComment(w http.ResponseWriter, r *http.Request) {
	g.last++
	c := &Comment{ID: g.last, User: g.Me, Body: body[struct{ Body string }](r).Body}
	g.Comments = append(g.Comments, c)
	answer(w, 201, map[string]any{"id": c.ID, "body": c.Body, "user": map[string]any{"login": c.User}})
}

// amend changes a comment of either kind: they share their numbers.
func (g *Gitea) amend(w http.ResponseWriter, r *http.Request) {
	text := body[struct{ Body string }](r).Body
	for _, c := range g.LineComments {
		if c.ID == id(r) {
			c.Body = text
			answer(w, 200, map[string]any{"id": c.ID})
			return
		}
	}
	for _, c := range g.Comments {
		if c.ID == id(r) {
			c.Body = text
			answer(w, 200, map[string]any{"id": c.ID})
			return
		}
	}
	fail(w, 404, "The target couldn't be found.")
}

func (g *Gitea) remove(w http.ResponseWriter, r *http.Request) {
	before := len(g.LineComments) + len(g.Comments)
	g.LineComments = slices.DeleteFunc(g.LineComments, func(c *LineComment) bool { return c.ID == id(r) })
	g.Comments = slices.DeleteFunc(g.Comments, func(c *Comment) bool { return c.ID == id(r) })
	if len(g.LineComments)+len(g.Comments) == before {
		fail(w, 404, "The target couldn't be found.")
		return
	}
	w.WriteHeader(204)
}

func (g *Gitea) status(w http.ResponseWriter, r *http.Request) {
	in := body[struct{ State, Context, Description string }](r)
	g.Statuses = append(g.Statuses, Status{r.PathValue("sha"), in.Context, in.State, in.Description})
	answer(w, 201, map[string]any{"status": in.State, "context": in.Context})
}
