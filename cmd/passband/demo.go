package main

import (
	"context"
	"fmt"
	"os"
	"path/filepath"

	"github.com/spf13/cobra"
	"passband.example/plandiff/demo"
	"passband.example/plandiff/plan"
	"passband.example/review"
	"passband.example/review/report"
	"passband.example/review/rules"
)

func newDemo(a *app) *cobra.Command {
	return &cobra.Command{
		Use:   "demo [DIR]",
		Short: "Write the repository of an invented club, and check, compare and review it",
		Long: `Demo writes a real git repository of an invented club, with its history, and
shows on it what passband does: the check of the plan, what changed between two
releases, and the review of a proposal that must not be merged.

DIR must be new or empty; without it the repository goes into a new folder among
the temporary ones.`,
		Example: "  passband demo\n  passband demo harrow-valley",
		Args:    cobra.MaximumNArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			dir, err := demoFolder(args)
			if err != nil {
				return err
			}
			return a.demo(cmd.Context(), dir)
		},
	}
}

func demoFolder(args []string) (string, error) {
	if len(args) > 0 {
		return args[0], nil
	}
	above, err := os.MkdirTemp("", "passband-demo-")
	if err != nil {
		return "", fmt.Errorf("there is no place for the demo: %w; name a folder: passband demo DIR", err)
	}
	return filepath.Join(above, "harrow-valley"), nil
}

// demo writes the repository and shows the three main commands on it.
func (a *app) demo(ctx context.Context, dir string) error {
	if err := demo.Write(ctx, dir); err != nil {
		return err
	}
	a.plan = dir
	a.step("The repository of an invented club stands in", dir)
	a.step("passband check")
	d, err := a.one(ctx, nil)
	if err != nil {
		return err
	}
	today := plan.DateOf(a.now())
	if d.Verdict, err = review.Check(ctx, rules.All(), d.Expansion, today); err != nil {
		return err
	}
	d.Folder = ""
	if err := report.Text(a.stdout, report.Check(d), a.terminal()); err != nil {
		return err
	}
	a.step("passband diff", demo.FirstRelease, demo.SecondRelease)
	if d, err = a.pair(ctx, []string{demo.FirstRelease, demo.SecondRelease}, false); err != nil {
		return err
	}
	if err := report.Text(a.stdout, report.Diff(d), a.terminal()); err != nil {
		return err
	}
	a.step("The review of the branch", demo.Proposal, "against", demo.Main)
	if d, err = a.pair(ctx, []string{demo.Main, demo.Proposal}, false); err != nil {
		return err
	}
	if d.Verdict, err = review.Judge(ctx, rules.All(), d.Comparison, today); err != nil {
		return err
	}
	if err := report.Text(a.stdout, report.Review(d), a.terminal()); err != nil {
		return err
	}
	a.next(dir)
	return nil
}

// step says what the demo shows now.
func (a *app) step(words ...string) {
	fmt.Fprint(a.stdout, "\n==")
	for _, w := range words {
		fmt.Fprint(a.stdout, " ", safe(w))
	}
	fmt.Fprint(a.stdout, "\n\n")
}

// next says what to try next.
func (a *app) next(dir string) {
	a.step("Try next, in", dir)
	for _, line := range []string{
		"passband show ridge                 what a repeater is and carries, in plain words",
		"passband radios                     how full each class of radio is",
		"passband explain off-band           what a rule looks for, and why",
		"passband diff " + demo.Main + " " + demo.Proposal + " --effects",
		"edit repeaters.yaml, then passband check and passband diff",
	} {
		fmt.Fprintln(a.stdout, "  "+line)
	}
}
