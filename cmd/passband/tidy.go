package main

import (
	"fmt"

	"github.com/spf13/cobra"
	"passband.example/plandiff/driver"
)

func newTidy(a *app) *cobra.Command {
	var check bool
	cmd := &cobra.Command{
		Use:   "tidy",
		Short: "Give the files of a plan one layout; comments stay",
		Long: `Tidy lays out the files of a plan: keys in the order of "passband start", two blanks
for each step, one-line records with their values in one column, lines of at most 100
characters, numbers in the form in which passband writes them. Comments, quotes and
the order of records stay.

The plan means the same afterwards: what was laid out is read again and compared
before anything is written, and each file is written whole or not at all.

Exit status: 0 done, 1 with --check if a file is not tidy, 2 the work could not be done.`,
		Example: "  passband tidy\n  passband tidy --check",
		Args:    cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			dir, err := a.planFolder(cmd.Context())
			if err != nil {
				return err
			}
			names, err := driver.Tidy(dir, check)
			for _, name := range names {
				fmt.Fprintln(a.stdout, safe(name))
			}
			if err == nil && check && len(names) > 0 {
				return errBlocks
			}
			return err
		},
	}
	cmd.Flags().BoolVar(&check, "check", false, "write nothing; say which files are not tidy")
	return cmd
}
