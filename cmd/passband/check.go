package main

import (
	"context"
	"errors"
	"io"

	"github.com/spf13/cobra"
	"passband.example/plandiff/plan"
	"passband.example/review"
	"passband.example/review/report"
	"passband.example/review/rules"
)

func newCheck(a *app) *cobra.Command {
	var fix bool
	var sarif string
	cmd := &cobra.Command{
		Use:   "check [REV|DIR]",
		Short: "Say what is wrong with a plan, where, and what to do",
		Long: `Check judges a plan by its own policy: the one being edited, or the one at a
revision or in another folder. It reads nothing but the plan.

Each finding names its file, line and column, why it matters, what to do, and
its rule; "passband explain RULE" shows the page of one.

With --fix it first mends in the files what a machine can tell: a tone that is a
misprint, a name that is nearly one, an entry that stands there twice. A mend is
written only if its finding goes by it and none as severe comes; a milder one
that comes is told. Comments and layout stay. Where part of the plan cannot be
read nothing is written.

Exit status: 0 nothing blocks, 1 something blocks, 2 the work could not be done.`,
		Example:           "  passband check\n  passband check 2026.1\n  passband check --json ../other-plan\n  passband check --sarif - | gzip > found.sarif.gz\n  passband check --fix",
		Args:              atMost(1, "one revision or folder"),
		ValidArgsFunction: a.completeRevisions(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			switch {
			case fix && sarif != "":
				return errors.New("--fix mends the plan, and --sarif writes what is found: mend first, then check with --sarif")
			case fix:
				return a.fix(cmd.Context(), args)
			}
			return a.check(cmd.Context(), args, sarif)
		},
	}
	addForms(cmd, &a.form)
	cmd.Flags().BoolVar(&fix, "fix", false, "mend in the files what a machine can tell, then check")
	cmd.Flags().StringVar(&sarif, "sarif", "", "write a `file` for code scanning (SARIF); - prints it")
	return cmd
}

// check judges a plan and says what it finds.
func (a *app) check(ctx context.Context, args []string, sarif string) error {
	if sarif == "-" && (a.form.json || a.form.markdown) {
		return errors.New("--sarif - writes to standard output, where the report would stand: name a file, or leave out --json and --markdown")
	}
	d, err := a.one(ctx, args, a.load)
	if err != nil {
		return err
	}
	if d.Verdict, err = review.Check(ctx, rules.All(), d.Expansion, plan.DateOf(a.now())); err != nil {
		return err
	}
	if sarif != "" {
		if err := a.writeSarif(sarif, d); err != nil {
			return err
		}
	}
	if sarif != "-" {
		if err := a.write(report.Check(d), func(w io.Writer) error { return report.JSON(w, d) }); err != nil {
			return err
		}
	}
	if d.Verdict.Blocks() {
		return errBlocks
	}
	return nil
}
