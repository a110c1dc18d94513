// Package chronicle tells the history of a plan in the words of the trade: what
// each commit did to it, and who last changed each thing about a repeater, a group, a
// channel or a zone.
//
//	repo, err := history.Open(ctx, ".")
//	defer repo.Close()
//	r := chronicle.New(repo, repo.Prefix())
//	span, err := chronicle.ParseSpan(ctx, repo, "2026.1..HEAD")
//	tally, err := r.Log(ctx, span, chronicle.Query{Thing: "ridge"}, func(e *chronicle.Entry) error {
//		fmt.Println(e.Commit.Subject, len(e.Causes), "records")
//		return nil
//	})
//
// # Log
//
// Log goes from the newest commit to the oldest and compares the plan after each
// with the plan before. A commit that changed the text alone is counted and not told,
// and so is a record that only moved to another file. A plan that moved to another
// folder is followed there. A commit after which the plan cannot be read is told as
// such, and the next one that can is compared with the last one that could, so that the
// changes of all entries, from the first to the last, make the newest plan.
//
// Of a merge only what it changed itself is told: what differs from every parent. The
// rest was told of the commits that it brought together.
//
// A Query asks for changes of some weight, commits of some person, or one thing. A
// thing is followed backwards through its renames, along every branch by the name that
// it has there.
//
// # Trace
//
// Trace tells for each attribute of a thing the commit that last changed it, on the
// air or in name. At a merge, each attribute is followed to the first parent that has the
// same. A list is told as a whole and item by item. A channel is traced as a radio has it;
// one that is newer than its repeater or group inherits from them: its frequency is as
// old as that of the repeater.
//
// # Releases
//
// A release is a tag. Releases finds the one before another; package notes says what
// members must know between the two.
//
// # Speed
//
// Every version of a file is read once (package plan: ParseFile), mostly only the records in
// it that differ (Amend), while git already reads the next. A commit is compared by the records
// that it changed (plan.Parts), and whole plans are put together only where something else
// refers to a key that came or went, or where it was asked what changes reach. A trace passes
// the commits that change none of the records that matter, and reads no other files; of a
// talk path it reads all, because any may hold a channel with words of its own for it.
//
// # What it does not do
//
// It does not judge, and does not tell what is being edited and not recorded, except
// that Trace takes a plan that goes beyond the last commit. Where clocks were wrong when
// commits were made, a thing may be followed under a name that it did not have on that
// branch: it then shows too much rather than too little. When a plan moved to another folder
// on one branch while another branch edited it, the edits of the other branch are told with
// the merge and not one by one.
package chronicle
