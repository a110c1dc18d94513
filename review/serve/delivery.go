package serve

import (
	"crypto/hmac"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"net/http"
	"strings"
	"time"
)

// mostDelivery bounds a delivery, in bytes (docs.github.com: payloads are capped at
// 25 MB).
const mostDelivery = 25 << 20

// signed gives the signature of a delivery, if it is that of the body by the secret.
// An empty secret signs nothing. The weaker SHA-1 that forges send too is not looked at.
func signed(header http.Header, body, secret []byte) (id string, ok bool) {
	given, found := strings.CutPrefix(header.Get("X-Hub-Signature-256"), "sha256=")
	got, err := hex.DecodeString(given)
	if !found || err != nil || len(secret) == 0 {
		return "", false
	}
	mac := hmac.New(sha256.New, secret)
	mac.Write(body)
	want := mac.Sum(nil)
	return hex.EncodeToString(want), hmac.Equal(got, want)
}

// payload is what is used of a delivery.
type payload struct {
	Action string `json:"action"`
	Pull   struct {
		Number int  `json:"number"`
		Base   side `json:"base"`
		Head   side `json:"head"`
	} `json:"pull_request"`
	Repository struct {
		FullName string `json:"full_name"`
	} `json:"repository"`
}

type side struct {
	Ref string `json:"ref"`
	SHA string `json:"sha"`
}

// read makes a job of a delivery, or says why there is none to do. GitHub says
// synchronize where Gitea says synchronized.
func read(event, id string, body []byte, now time.Time) (j Job, why string) {
	if event != "pull_request" {
		return j, "nothing is done for the event"
	}
	var p payload
	if err := json.Unmarshal(body, &p); err != nil {
		return j, "it is not the JSON of a pull request"
	}
	switch p.Action {
	case "opened", "synchronize", "synchronized", "reopened", "edited", "ready_for_review":
	default:
		return j, "nothing is done for the action"
	}
	j = Job{
		ID: id, Repository: p.Repository.FullName, Number: p.Pull.Number, BaseRef: p.Pull.Base.Ref, Base: p.Pull.Base.SHA,
		HeadRef: p.Pull.Head.Ref, Head: p.Pull.Head.SHA, Received: now,
	}
	if j.Number <= 0 || !isHash(j.Base) || !isHash(j.Head) || !isRef(j.BaseRef) {
		return j, "it does not name the two ends of a pull request"
	}
	return j, ""
}

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
