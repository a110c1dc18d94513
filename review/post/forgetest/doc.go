// Package forgetest plays a forge on loopback: a pull request that can be read,
// commented on and blocked, with the rules that the real one is documented or seen to
// have (shared/reference/forge.md), for tests of package post and of the program.
//
//	forge := forgetest.NewGitHub(t.Cleanup)
//	forge.Patches["plan.yaml"] = patch
//	... post to forge.URL ...
//	forge.LineComments // what stands
//
// Fault is asked about each request, and may let it fail in each way that a network
// or a forge fails, before or after the work is done. Seen is told each exchange, so
// that it can be held against the forge's published description, as review/post/e2e/contract does.
//
// The objects of examples.json are the examples of GitHub's own description of its
// interface (npm package @octokit/openapi 23.0.2, MIT license), with other names.
package forgetest
