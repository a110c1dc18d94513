package forgetest

import (
	_ "embed"
	"encoding/json"
	"fmt"
	"maps"
	"net/http"
	"slices"
	"strconv"
	"strings"
	"sync"
	"unicode/utf8"
)

//go:embed examples.json
var examplesText []byte

var examples = sync.OnceValue(func() (all map[string]map[string]any) {
	if err := json.Unmarshal(examplesText, &all); err != nil {
		panic(err) // a file of this package, read by every test
	}
	return all
})

// GitHub is a pull request on GitHub: owner/plan, number 7.
type GitHub struct {
	server
	Me          string            // the user of the token
	Head        string            // the newest commit of the pull request
	Base        string            // the commit of the branch that it is for
	Commits     []string          // all of them
	Open        bool              // the pull request
	Patches     map[string]string // the diff of each file, as GitHub shows it
	NoGraphQL   bool              // the token may not use GraphQL
	NoStatus    bool              // it may not set statuses
	NoCheck     bool              // it may not make check runs
	MostReview  int               // comments in a review above which the answer is 502, though it is done
	MostPerPage int

	LineComments []*LineComment
	Comments     []*Comment
	Reviews      []*Review
	Statuses     []Status
	CheckRuns    []Status

	last int64 // id
}

// A LineComment is a comment on a line.
type LineComment struct {
	ID, Review, ReplyTo int64
	User, Body, Path    string
	Side                string
	Start, Line         int // 0: none
	Resolved            bool
	Commit              string
}

// A Comment is a comment on the whole.
type Comment struct {
	ID         int64
	User, Body string
}

// A Review is a group of comments that were posted together.
type Review struct {
	ID                int64
	User, Body, State string
	Commit            string
}

// A Status is what stands beside a commit.
type Status struct{ Commit, Context, State, Text string }

// NewGitHub starts a forge on loopback.
func NewGitHub(cleanup func(func())) *GitHub {
	g := &GitHub{Me: "github-actions[bot]", Open: true, Patches: map[string]string{}, MostReview: 32, MostPerPage: 100, last: 1000}
	g.Token = "right"
	g.start(cleanup)
	for pattern, do := range map[string]http.HandlerFunc{
		"GET /repos/owner/plan/pulls/7":                       g.pull,
		"GET /repos/owner/plan/pulls/7/files":                 g.files,
		"GET /repos/owner/plan/pulls/7/comments":              g.lineComments,
		"GET /repos/owner/plan/pulls/7/reviews":               g.reviews,
		"POST /repos/owner/plan/pulls/7/reviews":              g.review,
		"GET /repos/owner/plan/pulls/7/reviews/{id}/comments": g.reviewComments,
		"DELETE /repos/owner/plan/pulls/7/reviews/{id}":       g.dropReview,
		"PATCH /repos/owner/plan/pulls/comments/{id}":         g.amendLine,
		"DELETE /repos/owner/plan/pulls/comments/{id}":        g.removeLine,
		"GET /repos/owner/plan/issues/7/comments":             g.comments,
		"POST /repos/owner/plan/issues/7/comments":            g.addComment,
		"PATCH /repos/owner/plan/issues/comments/{id}":        g.amendComment,
		"DELETE /repos/owner/plan/issues/comments/{id}":       g.removeComment,
		"POST /repos/owner/plan/statuses/{sha}":               g.status,
		"POST /repos/owner/plan/check-runs":                   g.checkRun,
		"GET /user":                                           g.user,
		"POST /graphql":                                       g.graphql,
		"GET /repos/owner/plan/pulls":                         g.pulls,
	} {
		g.mux.HandleFunc(pattern, do)
	}
	return g
}

// Push makes a commit the newest one. A comment whose line is not in moved has no
// line any more.
func (g *GitHub) Push(commit string, patches map[string]string, moved map[int]int) {
	g.Lock()
	defer g.Unlock()
	g.Head, g.Commits, g.Patches = commit, append(g.Commits, commit), maps.Clone(patches)
	for _, c := range g.LineComments {
		c.Line, c.Start = moved[c.Line], moved[c.Start]
	}
}

// Say lets somebody answer a comment on a line.
func (g *GitHub) Say(user string, to *LineComment, body string) {
	g.Lock()
	defer g.Unlock()
	g.last++
	g.LineComments = append(g.LineComments, &LineComment{ID: g.last, ReplyTo: to.ID, User: user, Body: body, Path: to.Path, Line: to.Line, Side: to.Side})
}

// like gives an object of the forge's own example with other values.
func like(name string, values map[string]any) map[string]any {
	out := maps.Clone(examples()[name])
	maps.Copy(out, values)
	return out
}

func user(login string) map[string]any {
	u := maps.Clone(examples()["line_comment"]["user"].(map[string]any))
	u["login"] = login
	if strings.HasSuffix(login, "[bot]") {
		u["type"] = "Bot"
	}
	return u
}

func (g *GitHub) pull(w http.ResponseWriter, _ *http.Request) { answer(w, 200, g.pullObject()) }

func (g *GitHub) pullObject() map[string]any {
	out := like("pull", map[string]any{"number": 7, "state": map[bool]string{true: "open", false: "closed"}[g.Open]})
	head := maps.Clone(out["head"].(map[string]any))
	head["sha"] = g.Head
	out["head"] = head
	base := maps.Clone(out["base"].(map[string]any))
	base["ref"] = "main"
	if g.Base != "" {
		base["sha"] = g.Base
	}
	out["base"] = base
	return out
}

func (g *GitHub) pulls(w http.ResponseWriter, r *http.Request) {
	list := []any{}
	if g.Open && r.URL.Query().Get("state") == "open" {
		list = append(list, g.pullObject())
	}
	answer(w, 200, list)
}

func (g *GitHub) files(w http.ResponseWriter, r *http.Request) {
	var all []any
	for _, name := range slices.Sorted(maps.Keys(g.Patches)) {
		f := like("file", map[string]any{"filename": name, "status": "modified", "patch": g.Patches[name]})
		if g.Patches[name] == "" {
			delete(f, "patch") // as for a diff that is too large to be shown
		}
		all = append(all, f)
	}
	g.page(w, r, all)
}

// page answers one page of a list, and where the next one is.
func (g *GitHub) page(w http.ResponseWriter, r *http.Request, all []any) {
	number := func(key string, def int) int {
		if n, err := strconv.Atoi(r.URL.Query().Get(key)); err == nil && n > 0 {
			return n
		}
		return def
	}
	size, page := min(number("per_page", 30), g.MostPerPage), number("page", 1)
	from, to := min(len(all), (page-1)*size), min(len(all), page*size)
	if to < len(all) {
		next := *r.URL
		q := next.Query()
		q.Set("page", fmt.Sprint(page+1))
		next.RawQuery = q.Encode()
		w.Header().Set("Link", fmt.Sprintf(`<%s%s>; rel="next"`, g.URL, next.RequestURI()))
	}
	answer(w, 200, append([]any{}, all[from:to]...))
}

func (g *GitHub) user(w http.ResponseWriter, _ *http.Request) {
	if strings.HasSuffix(g.Me, "[bot]") {
		fail(w, 403, "Resource not accessible by integration")
		return
	}
	answer(w, 200, like("user", map[string]any{"login": g.Me}))
}

func (g *GitHub) status(w http.ResponseWriter, r *http.Request) {
	in := body[struct{ State, Context, Description string }](r)
	switch {
	case g.NoStatus:
		fail(w, 403, "Resource not accessible by integration")
	case utf8.RuneCountInString(in.Description) > 140:
		refuse(w, "Description is too long (maximum is 140 characters)")
	default:
		g.Statuses = append(g.Statuses, Status{r.PathValue("sha"), in.Context, in.State, in.Description})
		answer(w, 201, like("status", map[string]any{"state": in.State, "context": in.Context, "description": in.Description}))
	}
}

func (g *GitHub) checkRun(w http.ResponseWriter, r *http.Request) {
	in := body[struct {
		Name, Conclusion string
		Head             string `json:"head_sha"`
		Output           struct{ Title string }
	}](r)
	if g.NoCheck {
		fail(w, 403, "Resource not accessible by integration")
		return
	}
	g.CheckRuns = append(g.CheckRuns, Status{in.Head, in.Name, in.Conclusion, in.Output.Title})
	answer(w, 201, like("check_run", map[string]any{"name": in.Name, "head_sha": in.Head, "conclusion": in.Conclusion}))
}
