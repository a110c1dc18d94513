package main

import (
	"io"

	"github.com/spf13/cobra"
	"passband.example/plandiff/plan"
	"passband.example/review"
	"passband.example/review/report"
	"passband.example/review/rules"
)

func newCheck(a *app) *cobra.Command {
	var fix bool
	cmd := &cobra.Command{
		Use:   "check [REV|DIR]",
		Short: "Say what is wrong with a plan, where, and what to do",
		Long: `Check judges a plan by its own policy: the one being edited, or the one at a
revision or in another folder. It reads nothing but the plan.

Each finding names its file, line and column, why it matters, what to do, and
its rule; "passband explain RULE" shows the page of one.

With --fix it first mends in the files what a machine can tell: a tone that is a
misprint, a name that is nearly one, an entry that stands there twice. A mend is
written only if its finding goes by it and no other comes; comments and layout
stay. Where part of the plan cannot be read nothing is written.

Exit status: 0 nothing blocks, 1 something blocks, 2 the work could not be done.`,
		Example:           "  passband check\n  passband check 2026.1\n  passband check --json ../other-plan\n  passband check --fix",
		Args:              atMost(1, "one revision or folder"),
		ValidArgsFunction: a.completeRevisions(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			if fix {
				return a.fix(cmd.Context(), args)
			}
			d, err := a.one(cmd.Context(), args, a.load)
			if err != nil {
				return err
			}
			d.Verdict, err = review.Check(cmd.Context(), rules.All(), d.Expansion, plan.DateOf(a.now()))
			if err != nil {
				return err
			}
			if err := a.write(report.Check(d), func(w io.Writer) error { return report.JSON(w, d) }); err != nil {
				return err
			}
			if d.Verdict.Blocks() {
				return errBlocks
			}
			return nil
		},
	}
	addForms(cmd, &a.form)
	cmd.Flags().BoolVar(&fix, "fix", false, "mend in the files what a machine can tell, then check")
	return cmd
}
