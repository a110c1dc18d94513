// Prune cuts published descriptions of what forges send and take down to what passband
// uses, without examples:
//
//	npm pack @octokit/openapi@23.0.2 && tar xzf octokit-openapi-23.0.2.tgz
//	go run ./prune github package/generated/api.github.com.json > testdata/github.json
//
//	npm pack @octokit/webhooks-examples@7.6.1 && tar xzf octokit-webhooks-examples-7.6.1.tgz
//	go run ./prune webhooks package/api.github.com/index.json > testdata/webhooks.json
//
//	npm pack @octokit/graphql-schema@15.26.1 && tar xzf octokit-graphql-schema-15.26.1.tgz
//	go run ./prune graphql package/schema.graphql > testdata/schema.graphql
//
//	cd ../forge && FOLDER=$(go list -m -f '{{.Dir}}' code.gitea.io/gitea) && cd ../contract
//	go run ./prune gitea "$FOLDER/templates/swagger/v1_json.tmpl" > testdata/gitea.json
package main

import (
	"encoding/json"
	"fmt"
	"os"
)

func main() {
	if len(os.Args) != 3 {
		fmt.Fprintln(os.Stderr, "usage: go run ./prune github|webhooks|graphql|gitea FILE")
		os.Exit(2)
	}
	if err := prune(os.Args[1], os.Args[2]); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

func prune(kind, name string) error {
	text, err := os.ReadFile(name)
	if err != nil {
		return err
	}
	var out any
	switch kind {
	case "github":
		out, err = github(text)
	case "webhooks":
		out, err = webhooks(text)
	case "gitea":
		out, err = gitea(text)
	case "graphql":
		return graphql(name, text)
	default:
		return fmt.Errorf("there is nothing to do for %q", kind)
	}
	if err != nil {
		return err
	}
	to := json.NewEncoder(os.Stdout)
	to.SetIndent("", " ")
	return to.Encode(out)
}
