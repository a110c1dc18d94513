package serve

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"strconv"
	"strings"
	"time"

	"passband.example/review/post"
)

// payload is what is used of a delivery, of whatever event.
type payload struct {
	Action     string `json:"action"`
	Pull       pull   `json:"pull_request"`
	MergeGroup struct {
		BaseRef string `json:"base_ref"`
		Base    string `json:"base_sha"`
		HeadRef string `json:"head_ref"`
		Head    string `json:"head_sha"`
	} `json:"merge_group"`
	CheckRun struct {
		Name  string `json:"name"`
		Pulls []pull `json:"pull_requests"`
	} `json:"check_run"`
	CheckSuite struct {
		Pulls []pull `json:"pull_requests"`
	} `json:"check_suite"`
	Ref        string `json:"ref"` // of a push
	Before     string `json:"before"`
	After      string `json:"after"`
	Repository struct {
		FullName string `json:"full_name"`
		Default  string `json:"default_branch"`
	} `json:"repository"`
}

type pull struct {
	Number int  `json:"number"`
	Base   side `json:"base"`
	Head   side `json:"head"`
}

type side struct {
	Ref string `json:"ref"`
	SHA string `json:"sha"`
}

// read makes jobs of a delivery, or says why there is none to do.
func read(event, id string, body []byte, now time.Time) (jobs []Job, why string) {
	var p payload
	if err := json.Unmarshal(body, &p); err != nil {
		return nil, "it is not the JSON of an event"
	}
	if jobs, why = p.find(event); why != "" {
		return nil, why
	}
	for i := range jobs {
		j := &jobs[i]
		j.ID, j.Repository, j.Received = nth(id, i), p.Repository.FullName, now
		if !isHash(j.Base) || !isHash(j.Head) || !isRef(j.BaseRef) || j.Number <= 0 && !isRef(j.HeadRef) {
			return nil, "it does not name the two ends of a change"
		}
	}
	return jobs, ""
}

// nth names a job of a delivery: the first by the signature of the delivery.
func nth(id string, i int) string {
	if i == 0 {
		return id
	}
	sum := sha256.Sum256([]byte(id + strconv.Itoa(i)))
	return hex.EncodeToString(sum[:])
}

// find gives the jobs of the events that something is done for. The names are those of
// GitHub; Gitea has pull_request and push under the same.
func (p *payload) find(event string) (jobs []Job, why string) {
	switch event {
	case "pull_request":
		return p.pullRequest()
	case "merge_group":
		return p.mergeGroup()
	case "push":
		return p.push()
	case "check_run":
		return p.checkRun()
	case "check_suite":
		return again(p.Action, p.CheckSuite.Pulls)
	}
	return nil, otherEvent
}

const otherEvent = "nothing is done for the event"
const otherAction = "nothing is done for the action"

// pullRequest judges what may have become another change. GitHub says synchronize where
// Gitea says synchronized.
func (p *payload) pullRequest() ([]Job, string) {
	switch p.Action {
	case "opened", "synchronize", "synchronized", "reopened", "edited", "ready_for_review":
		return ofPulls([]pull{p.Pull})
	}
	return nil, otherAction
}

// mergeGroup judges what a merge queue would merge.
func (p *payload) mergeGroup() ([]Job, string) {
	if p.Action != "checks_requested" {
		return nil, otherAction
	}
	g := p.MergeGroup
	return []Job{{BaseRef: branch(g.BaseRef), Base: g.Base, HeadRef: branch(g.HeadRef), Head: g.Head}}, ""
}

// push judges what came to the default branch, by whatever way. To another branch
// nothing can come that members would load; a pull request tells of it. Gitea's button
// to try a webhook sends a push that pushes nothing.
func (p *payload) push() ([]Job, string) {
	at, isBranch := strings.CutPrefix(p.Ref, "refs/heads/")
	switch {
	case !isBranch || at != p.Repository.Default:
		return nil, "nothing is done for a push to another branch than the default one"
	case none(p.Before) || none(p.After) || p.Before == p.After:
		return nil, "the push has nothing to compare"
	}
	return []Job{{BaseRef: at, Base: p.Before, HeadRef: at, Head: p.After}}, ""
}

// checkRun judges again what somebody asks to have judged again, if the check is one of
// passband.
func (p *payload) checkRun() ([]Job, string) {
	if name := p.CheckRun.Name; name != post.StatusName && !strings.HasPrefix(name, post.StatusName+"/") {
		return nil, "it is not a check of this program"
	}
	return again(p.Action, p.CheckRun.Pulls)
}

// again judges pull requests that are judged already. GitHub names no pull request that comes from a
// fork here.
func again(action string, pulls []pull) ([]Job, string) {
	switch {
	case action != "rerequested":
		return nil, otherAction
	case len(pulls) == 0:
		return nil, "it names no pull request; for one from a fork, edit its text instead"
	}
	return ofPulls(pulls)
}

func ofPulls(pulls []pull) (jobs []Job, why string) {
	for _, p := range pulls {
		if p.Number <= 0 {
			return nil, "it names no pull request"
		}
		jobs = append(jobs, Job{Number: p.Number, BaseRef: p.Base.Ref, Base: p.Base.SHA, HeadRef: p.Head.Ref, Head: p.Head.SHA})
	}
	return jobs, ""
}

func branch(ref string) string { return strings.TrimPrefix(ref, "refs/heads/") }

// none reports whether a hash stands for no commit.
func none(hash string) bool { return strings.Trim(hash, "0") == "" }

func isHash(s string) bool {
	_, err := hex.DecodeString(s)
	return err == nil && (len(s) == 40 || len(s) == 64)
}

// isRef reports whether a name is one that a branch can have (git-check-ref-format), so
// that it means nothing else where branches are named.
func isRef(s string) bool {
	return s != "" && s[0] != '-' && !strings.Contains(s, "..") && !strings.Contains(s, "@{") && !strings.ContainsFunc(s, func(r rune) bool {
		return r <= ' ' || r == 0x7f || strings.ContainsRune(`~^:?*[\`, r)
	})
}
