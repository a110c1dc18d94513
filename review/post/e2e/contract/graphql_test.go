package contract

import (
	"encoding/json"
	"fmt"
	"net/http"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/vektah/gqlparser/v2"
	"github.com/vektah/gqlparser/v2/ast"
	"github.com/vektah/gqlparser/v2/validator"

	"passband.example/review/post"
	"passband.example/review/post/forgetest"
)

// A graphQL is the published schema of GitHub's GraphQL interface.
type graphQL struct{ schema *ast.Schema }

func loadGraphQL(t *testing.T) graphQL {
	t.Helper()
	text, err := os.ReadFile("testdata/schema.graphql")
	if err != nil {
		t.Fatal(err)
	}
	schema, err := gqlparser.LoadSchema(&ast.Source{Name: "schema.graphql", Input: string(text)})
	if err != nil {
		t.Fatal(err)
	}
	return graphQL{schema}
}

// hold holds a question, its variables and the answer against the schema.
func (g graphQL) hold(e forgetest.Exchange) error {
	var in struct {
		Query     string
		Variables map[string]any
	}
	if err := json.Unmarshal(e.Body, &in); err != nil {
		return err
	}
	query, errs := gqlparser.LoadQuery(g.schema, in.Query)
	if len(errs) > 0 {
		return errs
	}
	if len(query.Operations) != 1 {
		return fmt.Errorf("%d operations", len(query.Operations))
	}
	op := query.Operations[0]
	if _, err := validator.VariableValues(g.schema, op, in.Variables); err != nil {
		return err
	}
	if e.Status == 0 || e.Status >= 300 {
		return nil
	}
	var out struct {
		Data   map[string]any
		Errors []any
	}
	if err := json.Unmarshal(e.Answer, &out); err != nil {
		return err
	}
	if out.Data == nil && len(out.Errors) > 0 {
		return nil
	}
	return g.fields(op.SelectionSet, out.Data)
}

// fields wants an object to have what was asked for, and nothing else.
func (g graphQL) fields(asked ast.SelectionSet, got map[string]any) error {
	if len(got) != len(asked) {
		return fmt.Errorf("%d fields are asked for, and the answer has %d", len(asked), len(got))
	}
	for _, s := range asked {
		f := s.(*ast.Field)
		v, ok := got[f.Alias]
		if !ok {
			return fmt.Errorf("the answer has no %s", f.Alias)
		}
		if err := g.value(f.Definition.Type, f.SelectionSet, v); err != nil {
			return fmt.Errorf("%s: %w", f.Alias, err)
		}
	}
	return nil
}

// value wants a value to be of a type.
func (g graphQL) value(is *ast.Type, asked ast.SelectionSet, v any) error {
	if v == nil {
		if is.NonNull {
			return fmt.Errorf("null, and it must be %s", is)
		}
		return nil
	}
	switch v := v.(type) {
	case []any:
		if is.Elem == nil {
			return fmt.Errorf("a list, and it must be %s", is)
		}
		for _, one := range v {
			if err := g.value(is.Elem, asked, one); err != nil {
				return err
			}
		}
		return nil
	case map[string]any:
		if len(asked) == 0 || is.Elem != nil {
			return fmt.Errorf("an object, and it must be %s", is)
		}
		return g.fields(asked, v)
	}
	kinds := map[string]string{"Boolean": "bool", "Int": "float64"} // as encoding/json reads them; an ID, a String and a BigInt are texts
	want, ok := kinds[is.Name()]
	if !ok {
		want = "string"
	}
	if got := fmt.Sprintf("%T", v); got != want || len(asked) > 0 {
		return fmt.Errorf("%s, and it must be %s", got, is)
	}
	return nil
}

// TestGraphQLRefuses wants the schema to refuse what it should.
func TestGraphQLRefuses(t *testing.T) {
	g := loadGraphQL(t)
	for _, c := range []struct {
		name, body, answer string
		ok                 bool
	}{
		{"a question", `{"query":"query{viewer{login}}"}`, `{"data":{"viewer":{"login":"a"}}}`, true},
		{"a field that is not there", `{"query":"query{viewer{name2}}"}`, `{}`, false},
		{"a variable of another type", `{"query":"mutation($id:ID!){resolveReviewThread(input:{threadId:$id}){thread{id}}}","variables":{}}`, `{}`, false},
		{"an answer without what was asked for", `{"query":"query{viewer{login}}"}`, `{"data":{"viewer":{}}}`, false},
		{"an answer to another question", `{"query":"query{viewer{login}}"}`, `{"data":{"thread":{"id":"a"}}}`, false},
		{"null where there must be something", `{"query":"query{viewer{login}}"}`, `{"data":{"viewer":null}}`, false},
		{"a number for a text", `{"query":"query{viewer{login}}"}`, `{"data":{"viewer":{"login":7}}}`, false},
	} {
		err := g.hold(forgetest.Exchange{Method: http.MethodPost, Body: []byte(c.body), Status: 200, Answer: []byte(c.answer)})
		if (err == nil) != c.ok {
			t.Errorf("%s: %v", c.name, err)
		}
	}
}

// TestEveryQuestion has a finding come, go and come back, and wants each operation of the
// schema that was kept to be asked for: what is not is no part of the contract any more.
func TestEveryQuestion(t *testing.T) {
	g := loadGraphQL(t)
	p, diff := north(t)
	double := forgetest.NewGitHub(t.Cleanup)
	double.Push(p.Head.Hash, patches(diff), nil)
	asked := ""
	double.Seen = func(e forgetest.Exchange) {
		if !strings.HasPrefix(e.URL, "/graphql") {
			return
		}
		asked += string(e.Body)
		if err := g.hold(e); err != nil {
			t.Errorf("%s %s: %v", e.Body, e.Answer, err)
		}
	}
	forge, err := post.NewGitHub(post.Access{API: double.URL, Token: "right", Repository: "owner/plan", Number: 7}, nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, from := range []int{0, 1, 0} {
		posting := p.Posting(diff, post.DefaultMost)
		posting.Goal.Drafts = posting.Goal.Drafts[from:]
		mustPost(t, forge, posting)
	}
	for _, f := range slices.Concat(g.schema.Query.Fields, g.schema.Mutation.Fields) {
		if !strings.HasPrefix(f.Name, "__") && !strings.Contains(asked, f.Name) {
			t.Errorf("nothing asks for %s", f.Name)
		}
	}
}
