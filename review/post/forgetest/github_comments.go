package forgetest

import (
	"fmt"
	"net/http"
	"slices"
	"strconv"
	"unicode/utf8"
)

// mostBody is what GitHub takes of one comment.
const mostBody = 65_536

func id(r *http.Request) int64 {
	n, _ := strconv.ParseInt(r.PathValue("id"), 10, 64)
	return n
}

func (g *GitHub) lineObject(c *LineComment) map[string]any {
	out := like("line_comment", map[string]any{
		"id": c.ID, "body": c.Body, "path": c.Path, "user": user(c.User), "side": c.Side, "pull_request_review_id": c.Review, "commit_id": c.Commit,
	})
	for key, n := range map[string]int64{"line": int64(c.Line), "start_line": int64(c.Start), "in_reply_to_id": c.ReplyTo} {
		if delete(out, key); n != 0 {
			out[key] = n // left out, since the description allows no null
		}
	}
	if delete(out, "start_side"); c.Start != 0 {
		out["start_side"] = c.Side
	}
	return out
}

func (g *GitHub) pending(r int64) bool {
	return slices.ContainsFunc(g.Reviews, func(v *Review) bool { return v.ID == r && v.State == "PENDING" })
}

func (g *GitHub) lineComments(w http.ResponseWriter, r *http.Request) {
	var all []any
	for _, c := range g.LineComments {
		if !g.pending(c.Review) {
			all = append(all, g.lineObject(c))
		}
	}
	g.page(w, r, all)
}

func (g *GitHub) reviewComments(w http.ResponseWriter, r *http.Request) {
	var all []any
	for _, c := range g.LineComments {
		if c.Review == id(r) {
			all = append(all, g.lineObject(c))
		}
	}
	g.page(w, r, all)
}

func (g *GitHub) reviewObject(v *Review) map[string]any {
	out := like("review", map[string]any{"id": v.ID, "body": v.Body, "state": v.State, "user": user(v.User), "commit_id": v.Commit})
	return out
}

func (g *GitHub) reviews(w http.ResponseWriter, r *http.Request) {
	var all []any
	for _, v := range g.Reviews {
		all = append(all, g.reviewObject(v))
	}
	g.page(w, r, all)
}

func (g *GitHub) dropReview(w http.ResponseWriter, r *http.Request) {
	i := slices.IndexFunc(g.Reviews, func(v *Review) bool { return v.ID == id(r) })
	switch {
	case i < 0:
		fail(w, 404, "Not Found")
	case g.Reviews[i].State != "PENDING":
		refuse(w, "Can not delete a non-pending pull request review")
	default:
		v := g.Reviews[i]
		g.Reviews = slices.Delete(g.Reviews, i, i+1)
		g.LineComments = slices.DeleteFunc(g.LineComments, func(c *LineComment) bool { return c.Review == v.ID })
		answer(w, 200, g.reviewObject(v))
	}
}

type reviewRequest struct {
	Commit   string `json:"commit_id"`
	Body     string `json:"body"`
	Event    string `json:"event"`
	Comments []struct {
		Path, Body, Side string
		Line             int
		Start            int    `json:"start_line"`
		StartSide        string `json:"start_side"`
	} `json:"comments"`
}

// review takes all of a review or none of it.
func (g *GitHub) review(w http.ResponseWriter, r *http.Request) {
	in := body[reviewRequest](r)
	switch {
	case slices.ContainsFunc(g.Reviews, func(v *Review) bool { return v.State == "PENDING" && v.User == g.Me }):
		refuse(w, "User can only have one pending review per pull request")
		return
	case in.Event == "COMMENT" && in.Body == "":
		refuse(w, "Body can't be blank")
		return
	case !slices.Contains(g.Commits, in.Commit):
		refuse(w, "The commit_id is not part of the pull request")
		return
	}
	for _, c := range in.Comments {
		if why := g.rejects(c.Path, c.Side, c.Start, c.Line, c.Body); why != "" {
			refuse(w, why)
			return
		}
	}
	g.last++
	v := &Review{ID: g.last, User: g.Me, Body: in.Body, State: "COMMENTED", Commit: in.Commit}
	g.Reviews = append(g.Reviews, v)
	for _, c := range in.Comments {
		g.last++
		g.LineComments = append(g.LineComments, &LineComment{
			ID: g.last, Review: v.ID, User: g.Me, Body: c.Body, Path: c.Path, Side: c.Side, Start: c.Start, Line: c.Line, Commit: in.Commit,
		})
	}
	if len(in.Comments) > g.MostReview {
		fail(w, 502, "Server Error")
		return
	}
	answer(w, 200, g.reviewObject(v))
}

// rejects says why a comment on a line is not taken.
func (g *GitHub) rejects(path, side string, start, line int, text string) string {
	switch hunk := hunkOf(g.Patches[path], side, line); {
	case utf8.RuneCountInString(text) > mostBody:
		return fmt.Sprintf("Body is too long (maximum is %d characters)", mostBody)
	case text == "":
		return "Body can't be blank"
	case hunk == 0:
		return "Pull request review thread line must be part of the diff"
	case start != 0 && start >= line:
		return "Pull request review thread start line must precede the end line"
	case start != 0 && hunkOf(g.Patches[path], side, start) != hunk:
		return "Pull request review thread start line must be part of the same hunk as the line"
	}
	return ""
}

func (g *GitHub) line(w http.ResponseWriter, r *http.Request) (int, bool) {
	i := slices.IndexFunc(g.LineComments, func(c *LineComment) bool { return c.ID == id(r) })
	if i < 0 {
		fail(w, 404, "Not Found")
	}
	return i, i >= 0
}

func (g *GitHub) amendLine(w http.ResponseWriter, r *http.Request) {
	if i, ok := g.line(w, r); ok {
		g.LineComments[i].Body = body[struct{ Body string }](r).Body
		answer(w, 200, g.lineObject(g.LineComments[i]))
	}
}

func (g *GitHub) removeLine(w http.ResponseWriter, r *http.Request) {
	if i, ok := g.line(w, r); ok {
		g.LineComments = slices.Delete(g.LineComments, i, i+1)
		w.WriteHeader(204)
	}
}

func (g *GitHub) commentObject(c *Comment) map[string]any {
	return like("comment", map[string]any{"id": c.ID, "body": c.Body, "user": user(c.User)})
}

func (g *GitHub) comments(w http.ResponseWriter, r *http.Request) {
	var all []any
	for _, c := range g.Comments {
		all = append(all, g.commentObject(c))
	}
	g.page(w, r, all)
}

func (g *GitHub) addComment(w http.ResponseWriter, r *http.Request) {
	text := body[struct{ Body string }](r).Body
	if utf8.RuneCountInString(text) > mostBody {
		refuse(w, "Body is too long (maximum is 65536 characters)")
		return
	}
	g.last++
	c := &Comment{ID: g.last, User: g.Me, Body: text}
	g.Comments = append(g.Comments, c)
	answer(w, 201, g.commentObject(c))
}

func (g *GitHub) comment(w http.ResponseWriter, r *http.Request) (int, bool) {
	i := slices.IndexFunc(g.Comments, func(c *Comment) bool { return c.ID == id(r) })
	if i < 0 {
		fail(w, 404, "Not Found")
	}
	return i, i >= 0
}

func (g *GitHub) amendComment(w http.ResponseWriter, r *http.Request) {
	if i, ok := g.comment(w, r); ok {
		g.Comments[i].Body = body[struct{ Body string }](r).Body
		answer(w, 200, g.commentObject(g.Comments[i]))
	}
}

func (g *GitHub) removeComment(w http.ResponseWriter, r *http.Request) {
	if i, ok := g.comment(w, r); ok {
		g.Comments = slices.Delete(g.Comments, i, i+1)
		w.WriteHeader(204)
	}
}
