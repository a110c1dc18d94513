package main

import (
	"encoding/json"
	"fmt"
	"strings"
)

// onGitHub names the operations that passband uses, by path and method.
var onGitHub = map[string][]string{
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

// github reads GitHub's description.
func github(text []byte) (any, error) { return cut(text, onGitHub) }

// cut keeps some operations of a description in OpenAPI 3, and what they refer to.
func cut(text []byte, used map[string][]string) (any, error) {
	var all description
	if err := json.Unmarshal(text, &all); err != nil {
		return nil, err
	}
	return all.keep(used)
}

// A description is one of an interface, in OpenAPI 3.
type description struct {
	OpenAPI    string                               `json:"openapi"`
	Info       any                                  `json:"info"`
	Paths      map[string]map[string]map[string]any `json:"paths"`
	Components map[string]map[string]any            `json:"components"`
}

// keep gives the description of some operations.
func (all description) keep(used map[string][]string) (any, error) {
	paths, kept := map[string]any{}, map[string]map[string]any{}
	for path, methods := range used {
		operations := map[string]any{}
		for _, method := range methods {
			operation := all.Paths[path][method]
			if operation == nil {
				return nil, fmt.Errorf("there is no %s %s", method, path)
			}
			strip(operation)
			follow(operation, all.Components, kept)
			operations[method] = operation
		}
		paths[path] = operations
	}
	return map[string]any{"openapi": all.OpenAPI, "info": all.Info, "paths": paths, "components": kept}, nil
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
