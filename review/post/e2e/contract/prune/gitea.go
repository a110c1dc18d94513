package main

import (
	"bytes"
	"encoding/json"

	"github.com/getkin/kin-openapi/openapi2"
	"github.com/getkin/kin-openapi/openapi2conv"
)

// onGitea names the operations that passband uses, by path and method.
var onGitea = map[string][]string{
	"/repos/{owner}/{repo}/pulls/{index}":                       {"get"},
	"/repos/{owner}/{repo}/pulls/{index}/reviews":               {"get", "post"},
	"/repos/{owner}/{repo}/pulls/{index}/reviews/{id}":          {"delete"},
	"/repos/{owner}/{repo}/pulls/{index}/reviews/{id}/comments": {"get"},
	"/repos/{owner}/{repo}/pulls/comments/{id}/resolve":         {"post"},
	"/repos/{owner}/{repo}/pulls/comments/{id}/unresolve":       {"post"},
	"/repos/{owner}/{repo}/issues/{index}/comments":             {"get", "post"},
	"/repos/{owner}/{repo}/issues/comments/{id}":                {"patch", "delete"},
	"/repos/{owner}/{repo}/statuses/{sha}":                      {"post"},
	"/user":                                                     {"get"},
}

// gitea reads Gitea's description, which is Swagger 2 and the template of one.
func gitea(text []byte) (any, error) {
	text = bytes.ReplaceAll(text, []byte("{{.SwaggerAppVer}}"), []byte("1.26.0"))
	text = bytes.ReplaceAll(text, []byte("{{.SwaggerAppSubUrl}}"), nil)
	var two openapi2.T
	if err := json.Unmarshal(text, &two); err != nil {
		return nil, err
	}
	three, err := openapi2conv.ToV3(&two)
	if err != nil {
		return nil, err
	}
	if text, err = json.Marshal(three); err != nil {
		return nil, err
	}
	return cut(text, onGitea)
}
