// Package plantest makes plans for tests: random ones with every kind of
// record, random edits of them, and large ones in the shape that the project
// measures its speed with.
//
// The flow of a property test:
//
//	old := plantest.Plan(t)
//	edited := plantest.Edit(t, old)
//	...
//	if diff := plantest.Equal(got, edited); diff != "" {
//		t.Fatal(diff)
//	}
//
// A random plan is one that Load would have read without a Problem. Most of its
// references lead somewhere, some do not, and some of its values contradict one
// another: a plan that is in order is the business of package review. Its values
// carry no place in a file; Load(t, Files) gives a plan that has them.
//
// The package is for tests alone and is not part of what a user runs.
package plantest
