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
the class states, and names the channels that it cannot use.`,
		Example: "  passband radios\n  passband radios v2026.1 --json",
		Args:    cobra.MaximumNArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			d, err := a.one(cmd.Context(), args)
			if err != nil {
				return err
			}
			return a.write(report.Radios(d), func(w io.Writer) error { return report.RadiosJSON(w, d) })
		},
	}
	addForms(cmd, &a.form)
	return cmd
}
