package main

import (
	"github.com/spf13/cobra"
	"passband.example/plandiff/start"
)

func newStart(a *app) *cobra.Command {
	return &cobra.Command{
		Use:   "start DIR",
		Short: "Make a new plan repository, with an example to replace line by line",
		Long: `Start makes a folder with a small plan that checks clean, whose comments explain
what each line is for, and a git repository without a commit.`,
		Example: "  passband start our-plan",
		Args:    cobra.ExactArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			if err := start.Write(cmd.Context(), args[0]); err != nil {
				return err
			}
			a.say("A new plan stands in %s. Next:", safe(args[0]))
			a.say("  cd %s", safe(args[0]))
			a.say("  passband check              what is wrong, and what to do")
			a.say("  git add -A && git commit    keep this as the first version")
			a.say("  passband diff               after an edit: what it changes")
			return nil
		},
	}
}
