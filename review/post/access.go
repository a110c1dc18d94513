package post

import (
	"errors"
	"fmt"
	"net/url"
	"strings"
	"time"
)

// Access says which pull request on which forge, and as whom.
type Access struct {
	API        string // GITHUB_API_URL: the root of the REST interface
	GraphQL    string // GITHUB_GRAPHQL_URL; "" to work it out
	Token      string
	Repository string // owner/name
	Number     int    // of the pull request; 0 where there is none
	Server     string // GITHUB_SERVER_URL: the root of what people look at; "" where it is not known
	Login      string // who passband is, where the forge does not tell: github-actions[bot]
}

// answerTime is how long an answer may take. GitHub itself ends a request after ten
// seconds (docs.github.com, troubleshooting the REST API).
const answerTime = 30 * time.Second

// split checks what is needed of every forge.
func (a Access) split() (owner, repo string, err error) {
	owner, repo, ok := strings.Cut(a.Repository, "/")
	if u, bad := url.Parse(a.API); bad != nil || u.Host == "" || u.Scheme != "https" && u.Scheme != "http" {
		return "", "", fmt.Errorf("GITHUB_API_URL is %q, and must be the address of the forge's interface", a.API)
	}
	if !ok || owner == "" || repo == "" || strings.ContainsAny(a.Repository, "?#% ") || strings.Contains(repo, "/") {
		return "", "", fmt.Errorf("GITHUB_REPOSITORY is %q, and must be owner/name", a.Repository)
	}
	if a.Token == "" {
		return "", "", errors.New("there is no token to post with: set GITHUB_TOKEN, in a workflow by \"env: {GITHUB_TOKEN: ${{ github.token }}}\"")
	}
	return owner, repo, nil
}

// Files gives the address of the files of a commit, as the forge shows them to people.
func (a Access) Files(commit string) string {
	server := strings.TrimSuffix(a.Server, "/")
	if u, err := url.Parse(server); err != nil || u.Host == "" || a.Repository == "" {
		return ""
	}
	folder := "blob"
	if a.IsGitea() {
		folder = "src/commit"
	}
	return server + "/" + a.Repository + "/" + folder + "/" + commit
}

// IsGitea reports whether the interface is that of Gitea, by its address.
func (a Access) IsGitea() bool { return strings.HasSuffix(strings.TrimSuffix(a.API, "/"), "/api/v1") }
