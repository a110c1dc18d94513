package main

import (
	"io"

	"github.com/spf13/cobra"
	"passband.example/review/report"
)

func newRadios(a *app) *cobra.Command {
	cmd := &cobra.Command{
		Use:   "radios [REV|DIR]",
		Short: "Say how full the memory of each class of radio is",
		Long: `Radios counts what the plan gives each class of radio against every limit that
the class states, and says which channels it cannot use and why.`,
		Example:           "  passband radios\n  passband radios 2026.1 --json",
		Args:              atMost(1, "one revision or folder"),
		ValidArgsFunction: a.completeRevisions(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			d, err := a.one(cmd.Context(), args, a.loadSound)
			if err != nil {
				return err
			}
			return a.write(report.Radios(d), func(w io.Writer) error { return report.RadiosJSON(w, d) })
		},
	}
	addForms(cmd, &a.form)
	return cmd
}
