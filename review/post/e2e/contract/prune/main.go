// Prune cuts the published description of GitHub's interface down to the operations
// that passband uses and what they refer to, without examples:
//
//	npm pack @octokit/openapi@23.0.2 && tar xzf octokit-openapi-23.0.2.tgz
//	go run ./prune package/generated/api.github.com.json > testdata/github.json
package main

import (
	"encoding/json"
	"fmt"
	"os"
	"strings"
)

// used names the operations, by path and method.
var used = map[string][]string{
	"/repos/{owner}/{repo}/pulls":                                            {"get"},
	"/repos/{owner}/{repo}/pulls/{pull_number}":                              {"get"},
	"/repos/{owner}/{repo}/pulls/{pull_number}/files":                        {"get"},
	"/repos/{owner}/{repo}/pulls/{pull_number}/comments":                     {"get"},
	"/repos/{owner}/{repo}/pulls/{pull_number}/reviews":                      {"get", "post"},
	"/repos/{owner}/{repo}/pulls/{pull_number}/reviews/{review_id}":          {"delete"},
	"/repos/{owner}/{repo}/pulls/{pull_number}/reviews/{review_id}/comments": {"get"},
	"/repos/{owner}/{repo}/pulls/comments/{comment_id}":                      {"patch", "delete"},
	"/repos/{owner}/{repo}/issues/{issue_number}/comments":                   {"get", "post"},
	"/repos/{owner}/{repo}/issues/comments/{comment_id}":                     {"patch", "delete"},
	"/repos/{owner}/{repo}/statuses/{sha}":                                   {"post"},
	"/repos/{owner}/{repo}/check-runs":                                       {"post"},
	"/user":                                                                  {"get"},
}

func main() {
	if len(os.Args) != 2 {
		fmt.Fprintln(os.Stderr, "usage: go run ./prune api.github.com.json > testdata/github.json")
		os.Exit(2)
	}
	if err := prune(os.Args[1]); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

func prune(name string) error {
	text, err := os.ReadFile(name)
	if err != nil {
		return err
	}
	var all struct {
		OpenAPI    string                               `json:"openapi"`
		Info       any                                  `json:"info"`
		Paths      map[string]map[string]map[string]any `json:"paths"`
		Components map[string]map[string]any            `json:"components"`
	}
	if err := json.Unmarshal(text, &all); err != nil {
		return err
	}
	paths, kept := map[string]any{}, map[string]map[string]any{}
	for path, methods := range used {
		operations := map[string]any{}
		for _, method := range methods {
			operation := all.Paths[path][method]
			if operation == nil {
				return fmt.Errorf("there is no %s %s", method, path)
			}
			strip(operation)
			follow(operation, all.Components, kept)
			operations[method] = operation
		}
		paths[path] = operations
	}
	out := json.NewEncoder(os.Stdout)
	out.SetIndent("", " ")
	return out.Encode(map[string]any{"openapi": all.OpenAPI, "info": all.Info, "paths": paths, "components": kept})
}

// strip takes out what no validator needs.
func strip(v any) {
	switch v := v.(type) {
	case map[string]any:
		for key, inner := range v {
			_, text := inner.(string)
			if key == "examples" || key == "externalDocs" || strings.HasPrefix(key, "x-") || key == "description" && text && v["content"] == nil && v["headers"] == nil {
				if key != "examples" || !isSchema(v) {
					delete(v, key)
				}
				continue
			}
			strip(inner)
		}
	case []any:
		for _, inner := range v {
			strip(inner)
		}
	}
}

// isSchema reports whether "examples" would be the name of a property.
func isSchema(v map[string]any) bool {
	_, object := v["examples"].(map[string]any)["type"]
	return object
}

// follow keeps the components that are referred to.
func follow(v any, all, kept map[string]map[string]any) {
	switch v := v.(type) {
	case map[string]any:
		if ref, ok := v["$ref"].(string); ok {
			parts := strings.Split(ref, "/") // #/components/KIND/NAME
			kind, name := parts[2], parts[3]
			if kept[kind] == nil {
				kept[kind] = map[string]any{}
			}
			if kept[kind][name] == nil {
				kept[kind][name] = all[kind][name]
				strip(all[kind][name])
				follow(all[kind][name], all, kept)
			}
		}
		for _, inner := range v {
			follow(inner, all, kept)
		}
	case []any:
		for _, inner := range v {
			follow(inner, all, kept)
		}
	}
}
