package main

import (
	"fmt"
	"maps"
	"os"
	"slices"

	"github.com/vektah/gqlparser/v2/ast"
	"github.com/vektah/gqlparser/v2/formatter"
	"github.com/vektah/gqlparser/v2/parser"
)

// onGraphQL names the fields that passband asks for, by type. What they are of is kept as
// well, with no fields but those named here.
var onGraphQL = map[string][]string{
	"Query":                              {"viewer", "repository"},
	"Mutation":                           {"resolveReviewThread", "unresolveReviewThread"},
	"User":                               {"login"},
	"Repository":                         {"pullRequest"},
	"PullRequest":                        {"reviewThreads"},
	"PullRequestReviewThreadConnection":  {"pageInfo", "nodes"},
	"PageInfo":                           {"hasNextPage", "endCursor"},
	"PullRequestReviewThread":            {"id", "isResolved", "viewerCanResolve", "viewerCanUnresolve", "comments"},
	"PullRequestReviewCommentConnection": {"nodes"},
	"PullRequestReviewComment":           {"fullDatabaseId"},
	"ResolveReviewThreadPayload":         {"thread"},
	"UnresolveReviewThreadPayload":       {"thread"},
}

// graphql reads the schema of GitHub's GraphQL interface, and writes what is used of it.
// It is not validated as a whole: 15.26.1 has a field that stands there twice.
func graphql(name string, text []byte) error {
	all, err := parser.ParseSchema(&ast.Source{Name: name, Input: string(text)})
	if err != nil {
		return err
	}
	kept := new(ast.SchemaDocument)
	for _, name := range slices.Sorted(maps.Keys(onGraphQL)) {
		if err := keepType(all, kept, name); err != nil {
			return err
		}
	}
	formatter.NewFormatter(os.Stdout).FormatSchemaDocument(kept)
	return nil
}

// builtIn holds the types that every schema has (spec.graphql.org, scalars).
var builtIn = []string{"Int", "Float", "String", "Boolean", "ID"}

// keepType keeps a type with the fields that are used, and what their arguments are.
func keepType(all, kept *ast.SchemaDocument, name string) error {
	if kept.Definitions.ForName(name) != nil || slices.Contains(builtIn, name) {
		return nil
	}
	def := all.Definitions.ForName(name)
	if def == nil {
		return fmt.Errorf("there is no type %s", name)
	}
	kept.Definitions = append(kept.Definitions, def)
	def.Description, def.Interfaces, def.Directives = "", nil, nil
	if used, ok := onGraphQL[name]; ok {
		for _, field := range used {
			if def.Fields.ForName(field) == nil {
				return fmt.Errorf("there is no field %s of %s", field, name)
			}
		}
		def.Fields = slices.DeleteFunc(def.Fields, func(f *ast.FieldDefinition) bool { return !slices.Contains(used, f.Name) })
	}
	for _, f := range def.Fields {
		f.Description, f.Directives = "", nil
		if err := keepType(all, kept, f.Type.Name()); err != nil {
			return err
		}
		for _, a := range f.Arguments {
			a.Description, a.Directives = "", nil
			if err := keepType(all, kept, a.Type.Name()); err != nil {
				return err
			}
		}
	}
	return nil
}
