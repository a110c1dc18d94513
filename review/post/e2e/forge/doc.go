// Package forge reviews the demo's proposal on a real Gitea server on loopback, from
// the pull request to the merge. It is a module of its own, since the server brings
// some three hundred modules that the program does not need, and stands outside of
// "go test ./..." of the program. Run it by
//
//	cd review/post/e2e/forge && go test -count=1 -v .
//
// The first run builds the server, which takes some minutes, git and a C compiler;
// GITEA names a server that was built before, and PASSBAND the program to try. The server is an unmodified tool of
// go.mod; the test knows of it only what any user of its interface does.
package forge
