package post

import (
	"cmp"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"strings"
)

// A Run is what continuous integration knows of itself: GitHub Actions, or one that
// sets the same variables, such as Gitea's.
type Run struct {
	Event      string // pull_request, push, ...; "" outside of continuous integration
	Access     Access
	Span       Span   // the commits to compare; without a Base there is nothing to compare
	Fork       bool   // the head is in another repository, so the token may be read-only
	HeadRef    string // for workflow_run: where to look the pull request up
	HeadOwner  string
	SummaryTo  string // the file for the summary of the job, or ""
	OutputTo   string // the file for the outputs of the step, or ""
	Link       string // to the page of the run
	Annotating bool   // workflow commands are heeded
}

// event is what is used of the file that GITHUB_EVENT_PATH names. It comes from the
// forge; the names in it are a stranger's.
type event struct {
	Number      int        `json:"number"`
	PullRequest *eventPull `json:"pull_request"`
	MergeGroup  *struct {
		Head string `json:"head_sha"`
		Base string `json:"base_sha"`
		Ref  string `json:"base_ref"`
	} `json:"merge_group"`
	Before      string    `json:"before"`
	After       string    `json:"after"`
	Ref         string    `json:"ref"`
	Repository  eventRepo `json:"repository"`
	WorkflowRun *struct {
		Head  string    `json:"head_sha"`
		Ref   string    `json:"head_branch"`
		Event string    `json:"event"`
		Repo  eventRepo `json:"head_repository"`
	} `json:"workflow_run"`
}

type eventPull struct {
	Number int       `json:"number"`
	Base   eventSide `json:"base"`
	Head   eventSide `json:"head"`
}

type eventSide struct {
	Ref  string     `json:"ref"`
	SHA  string     `json:"sha"`
	Repo *eventRepo `json:"repo"` // null where a fork was deleted
}

type eventRepo struct {
	FullName string `json:"full_name"`
	Default  string `json:"default_branch"`
	Owner    struct {
		Login string `json:"login"`
	} `json:"owner"`
}

// mostEvent bounds the event file, in bytes (docs.github.com: payloads are capped at
// 25 MB).
const mostEvent = 25 << 20

// ReadRun reads the environment and the event of a run. read reads a file; it is
// os.ReadFile outside of tests. Outside of continuous integration Event is "".
func ReadRun(env func(string) string, read func(string) ([]byte, error)) (*Run, error) {
	r := &Run{
		Event: env("GITHUB_EVENT_NAME"), SummaryTo: env("GITHUB_STEP_SUMMARY"), OutputTo: env("GITHUB_OUTPUT"),
		Annotating: env("GITHUB_ACTIONS") == "true",
		Access: Access{
			API: env("GITHUB_API_URL"), GraphQL: env("GITHUB_GRAPHQL_URL"), Repository: env("GITHUB_REPOSITORY"),
			Server: env("GITHUB_SERVER_URL"), Token: cmp.Or(env("PASSBAND_TOKEN"), env("GITHUB_TOKEN")), Login: env("PASSBAND_LOGIN"),
		},
	}
	if server, id := strings.TrimSuffix(env("GITHUB_SERVER_URL"), "/"), env("GITHUB_RUN_ID"); server != "" && id != "" {
		r.Link = server + "/" + r.Access.Repository + "/actions/runs/" + id
	}
	path := env("GITHUB_EVENT_PATH")
	if r.Event == "" || path == "" {
		return r, nil
	}
	text, err := read(path)
	switch {
	case errors.Is(err, os.ErrNotExist):
		return nil, fmt.Errorf("GITHUB_EVENT_PATH names a file that is not there; in a container, mount the folder of the runner, or name the two ends with --base and --head")
	case err != nil:
		return nil, fmt.Errorf("the event of this run cannot be read: %w", err)
	case len(text) > mostEvent:
		return nil, fmt.Errorf("the event of this run has %d bytes, more than a forge sends", len(text))
	}
	var e event
	if err := json.Unmarshal(text, &e); err != nil {
		return nil, fmt.Errorf("the event of this run is not the JSON that a forge writes: %w", err)
	}
	return r, r.heed(&e, env("GITHUB_SHA"))
}

// heed takes what is to be judged from the event.
func (r *Run) heed(e *event, sha string) error {
	switch r.Event {
	case "pull_request", "pull_request_target":
		if e.PullRequest == nil {
			return fmt.Errorf("the event %s has no pull request in it; name the two ends with --base and --head", r.Event)
		}
		r.pull(e.PullRequest, e.Repository)
	case "merge_group":
		if e.MergeGroup == nil {
			return errors.New("the event merge_group has no merge group in it; name the two ends with --base and --head")
		}
		r.Span = Span{Base: e.MergeGroup.Base, Head: e.MergeGroup.Head, BaseName: branch(e.MergeGroup.Ref), HeadName: "the merge queue"}
	case "push":
		r.push(e)
	case "workflow_run":
		if w := e.WorkflowRun; w != nil {
			r.Span = Span{Head: w.Head, HeadName: w.Ref}
			r.HeadRef, r.HeadOwner, r.Fork = w.Ref, w.Repo.Owner.Login, w.Repo.FullName != e.Repository.FullName
		}
	default: // workflow_dispatch, schedule: what is there against the main branch
		r.Span = Span{Base: e.Repository.Default, Head: cmp.Or(sha, "HEAD"), HeadName: "HEAD"}
	}
	return nil
}

func (r *Run) pull(p *eventPull, repo eventRepo) {
	r.Access.Number = p.Number
	r.Span = Span{Base: p.Base.SHA, Head: p.Head.SHA, BaseName: p.Base.Ref, HeadName: p.Head.Ref}
	r.Fork = p.Head.Repo == nil || p.Head.Repo.FullName != repo.FullName
}

// push compares what a branch was with what it is. A new branch is compared with the
// main one; of a branch that was deleted there is nothing to judge.
func (r *Run) push(e *event) {
	r.Span = Span{Base: e.Before, Head: e.After, BaseName: branch(e.Ref) + " before", HeadName: branch(e.Ref)}
	if none(e.Before) {
		r.Span.Base, r.Span.BaseName = e.Repository.Default, ""
	}
	if none(e.After) {
		r.Span = Span{}
	}
}

// none reports whether a hash stands for no commit.
func none(hash string) bool { return strings.Trim(hash, "0") == "" }

func branch(ref string) string {
	return strings.TrimPrefix(strings.TrimPrefix(ref, "refs/heads/"), "refs/tags/")
}

// Name takes the two ends that a person named instead of those of the event. Without
// either there must be an event to go by.
func (r *Run) Name(base, head string) error {
	switch {
	case base != "":
		r.Span = Span{Base: base, Head: cmp.Or(head, "HEAD")}
	case head != "":
		return errors.New("--head names the change, and --base is missing: what would it be merged into?")
	case r.Event == "":
		return errors.New("this is no run of continuous integration, so name the two ends: passband review --base main --head new-repeater")
	case r.Span.Head != "" && r.Span.Base == "" && r.Event != "workflow_run":
		return fmt.Errorf("the event %s does not say what to compare with; name it with --base", r.Event)
	}
	return nil
}

// Nothing reports whether there is nothing to judge: a branch was deleted.
func (r *Run) Nothing() bool { return r.Span.Head == "" }
