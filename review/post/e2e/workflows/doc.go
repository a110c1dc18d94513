// Package workflows holds the actions, the workflows and the pre-commit hook of the
// repository against the linters and grammars of others: actionlint, GitHub's own grammar
// of action.yml, and pre-commit itself where it is at hand. It is a module of its own,
// since actionlint and the validators of module contract want two versions of one YAML
// library. Run it by
//
//	cd review/post/e2e/workflows && go test .
//
// testdata/action.json is action-v1.0.min.json of the npm package @actions/workflow-parser
// 0.3.61 (MIT, GitHub), unchanged.
package workflows
