// Package post brings the review of a change to where people read it: comments on
// the lines of a pull request, one summary, and a status that can block the merge.
//
// # The flow
//
//	run, err := post.ReadRun(env, os.ReadFile)      // what continuous integration knows
//	p, err := post.Propose(ctx, sides, run.Span())  // load, compare, judge
//	posting := p.Posting(diff, most)                // all that would be said, as values
//	outcome, err := post.Post(ctx, forge, posting, patience)
//
// Up to Post nothing is written anywhere: a Posting can be printed instead.
//
// # Never twice, never lost
//
// Every comment carries a hidden mark with the identity of its finding (see
// report.Mark). Post lists what stands, lets Reconcile work out what is to be done,
// does it, and lists again, until nothing is left to do. So a run that is repeated,
// one that was cut off, and one whose answer was lost after the forge had done what
// it was asked, all end alike. Marks are believed only in comments of the user that
// passband itself is. A thread that a person answered is left alone.
//
// # Where a comment stands
//
// A forge takes comments on the lines that its diff shows. A finding is told on the
// line that caused it, else on another of its lines that the diff has, else in the
// summary, which always has all of them.
//
// # Forges
//
// A Forge is one pull request on one forge. GitHub and Gitea have a file each; they
// share nothing but the interface, since their fields differ.
//
// # Trust
//
// The head of a pull request is read as git objects and never checked out. Policy
// comes from the base. What is posted is written by package report, which makes
// every text from a plan safe for where it goes.
//
// # What it does not do
//
// It approves nothing and requests no changes: the status, or the exit status of
// the job, is what blocks. It does not resolve a thread on a forge that offers no
// way, and it edits no comment but its own.
package post
