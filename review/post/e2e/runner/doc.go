// Package runner runs the example workflow and the composite action by a real runner,
// on this machine and without containers, against the double of GitHub. The runner is
// an ordinary tool of go.mod. Run it by
//
//	cd review/post/e2e/runner && go test -count=1 .
//
// ACT names a runner that was built before. Two actions of others are played, since they
// would have to be fetched: checkout by the runner itself, which copies the work tree,
// and setup-go by one that does nothing, as this machine has Go.
package runner
