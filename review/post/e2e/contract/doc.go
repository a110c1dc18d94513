// Package contract holds what passband sends and writes against descriptions that
// others have published: each request to the double of GitHub, and each answer of the
// double, against GitHub's own description of its interface; the same for Gitea, and for
// GitHub's GraphQL interface; GitHub's examples of webhooks against the server; SARIF
// against its schema, and the bills of materials of a release against theirs; and comments
// on plans full of naughty strings against a Markdown parser. It is a module of its own, since the program needs none of these validators.
// Run it by
//
//	cd review/post/e2e/contract && go test .
//
// The files of testdata are described there.
package contract
