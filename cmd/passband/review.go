package main

import (
	"context"
	"fmt"
	"os"

	"github.com/spf13/cobra"
	"passband.example/plandiff/history"
	"passband.example/plandiff/plan"
	"passband.example/review/post"
	"passband.example/review/report"
	"passband.example/review/rules"
)

// reviewing is what the flags of review say.
type reviewing struct {
	base, head string
	post, json bool
	most       int
	sarif      string
}

func newReview(a *app) *cobra.Command {
	var f reviewing
	cmd := &cobra.Command{
		Use:   "review",
		Short: "Judge a change for a pull request, and post what is found",
		Long: `Review compares a change with where it left its base, judges it under the policy of
the base, and prints what it would post on the pull request: a summary, comments
on the lines that cause something, and a status. With --post it posts them,
nothing twice, and marks what is gone.

In continuous integration (GitHub Actions, or one that sets the same variables)
the two ends are those of the event; elsewhere name them with --base and --head.
The head is read as git objects and need not be checked out. GITHUB_TOKEN is what
it posts with; where it may not write, annotations and the summary of the job
tell all the same.

Exit status: 0 nothing blocks, 1 something blocks, 2 the work could not be done.`,
		Example: "  passband review --base main --head new-repeater\n  passband review --post\n  passband review --plan plans/valley --post --sarif valley.sarif",
		Args:    atMost(0, "no words"),
		RunE:    func(cmd *cobra.Command, _ []string) error { return a.review(cmd.Context(), &f) },
	}
	flags := cmd.Flags()
	flags.StringVar(&f.base, "base", "", "the `revision` that the change would be merged into")
	flags.StringVar(&f.head, "head", "", "the `revision` with the change (HEAD, where only --base is named)")
	flags.BoolVar(&f.post, "post", false, "post on the pull request of this run, and set the status of the commit")
	flags.IntVar(&f.most, "most", post.DefaultMost, "how many comments there may be on lines; the summary has all")
	flags.BoolVar(&f.json, "json", false, "write JSON for programs")
	flags.StringVar(&f.sarif, "sarif", "", "write the findings to a `file` for code scanning (SARIF 2.1.0)")
	return cmd
}

// review judges the change of this run, tells of it, and posts it if asked to.
func (a *app) review(ctx context.Context, f *reviewing) error {
	run, err := post.ReadRun(a.env, os.ReadFile)
	if err != nil {
		return err
	}
	if err := run.Name(f.base, f.head); err != nil {
		return err
	}
	if err := run.Find(ctx); err != nil {
		return err
	}
	if run.Nothing() {
		a.say("There is nothing to judge: the branch was deleted.")
		return nil
	}
	p, diff, err := a.propose(ctx, run.Span)
	if err != nil {
		return err
	}
	p.Files = run.Access.Files(p.Head.Hash)
	if f.sarif != "" {
		if err := a.writeSarif(f.sarif, p.Document); err != nil {
			return err
		}
	}
	posted := a.tell(ctx, run, p, diff, f)
	if p.Document.Verdict.Blocks() {
		if posted != nil {
			a.say("passband: %s", safe(posted.Error()))
		}
		return errBlocks
	}
	return posted
}

// propose reads both ends of the change and judges it.
func (a *app) propose(ctx context.Context, span post.Span) (*post.Proposal, post.Diff, error) {
	sides, err := history.At(ctx, a.plan)
	if err != nil {
		return nil, nil, err
	}
	defer sides.Close()
	repo, err := sides.Repository()
	if err != nil {
		return nil, nil, err
	}
	folder, err := post.PlanFolder(ctx, sides, span)
	if err != nil {
		return nil, nil, err
	}
	p, err := post.Propose(ctx, repo, folder, span, rules.All(), plan.DateOf(a.now()))
	if err != nil {
		return nil, nil, err
	}
	diff, err := post.ReadDiff(ctx, repo, p.Parted, p.Head, folder)
	return p, diff, err
}

// tell writes to the run what is found, then posts it or prints what would be posted.
func (a *app) tell(ctx context.Context, run *post.Run, p *post.Proposal, diff post.Diff, f *reviewing) error {
	if err := a.tellJob(run, p, f.json); err != nil {
		return err
	}
	if !f.post {
		posting := p.Posting(diff, f.most)
		posting.Status.Link = run.Link
		return a.print(run, posting, f.json)
	}
	forge, err := post.Open(run.Access)
	if err != nil {
		return err
	}
	onPull := run.Access.Number > 0
	if onPull {
		diff = diff.Shown(ctx, forge)
	}
	posting := p.Posting(diff, f.most)
	posting.Status.Link = run.Link
	if f.json || !onPull {
		if err := a.print(run, posting, f.json); err != nil {
			return err
		}
	}
	do := post.Post
	if !onPull {
		do = post.PostStatus
	}
	out, err := do(ctx, forge, posting, post.DefaultPatience())
	a.sayOutcome(out, p.Document)
	if err != nil {
		return fmt.Errorf("%w; what was judged stands above, and running the job again posts the rest", err)
	}
	return nil
}

// sayOutcome says what was posted, what was not and why; the last line is the verdict.
func (a *app) sayOutcome(out *post.Outcome, d *report.Document) {
	for _, line := range out.Lines() {
		a.say("passband: %s", safe(line))
	}
	a.say("passband: %s", safe(d.Status()))
}
