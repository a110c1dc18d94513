package main

import (
	"io"

	"github.com/spf13/cobra"
	"passband.example/plandiff/plan"
	"passband.example/review"
	"passband.example/review/report"
	"passband.example/review/rules"
)

func newPolicy(a *app) *cobra.Command {
	cmd := &cobra.Command{
		Use:   "policy [REV|DIR]",
		Short: "Say what a plan is judged by, and where that is written",
		Long: `Policy shows what is in force when a plan is judged: the edition, region and
license of its header, each rule that is not as severe as it is by itself, each
finding that the club lives with and whether that still covers something, and the
tables of the club's own; each with the line that says so.

A change is judged by the policy of the plan that it would go into: name that
revision to see it.`,
		Example:           "  passband policy\n  passband policy main --json",
		Args:              atMost(1, "one revision or folder"),
		ValidArgsFunction: a.completeRevisions(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			d, err := a.one(cmd.Context(), args, a.load)
			if err != nil {
				return err
			}
			today, all := plan.DateOf(a.now()), rules.All()
			if d.Verdict, err = review.Check(cmd.Context(), all, d.Expansion, today); err != nil {
				return err
			}
			f := report.PolicyOf(d, all, today)
			return a.write(report.Policy(d, f), func(w io.Writer) error { return report.PolicyJSON(w, f) })
		},
	}
	addForms(cmd, &a.form)
	return cmd
}
