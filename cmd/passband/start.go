package main

import (
	"context"
	"errors"

	"github.com/spf13/cobra"
	"passband.example/plandiff/driver"
	"passband.example/plandiff/start"
)

func newStart(a *app) *cobra.Command {
	return &cobra.Command{
		Use:   "start DIR",
		Short: "Make a new plan, with an example to replace line by line",
		Long: `Start makes a folder with a small plan that checks clean, whose comments explain
what each line is for, the schema by which editors complete and check it, and a
git repository in it without a commit, in which git merges and shows plans by
what they say ("passband git remove" undoes that). Inside a git repository it
makes the plan alone.

DIR must be new or empty. It appears whole or not at all.`,
		Example: "  passband start our-plan",
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 {
				return errors.New("start needs the name of a new folder, such as: passband start our-plan")
			}
			return atMost(1, "one folder")(cmd, args)
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			taught := false
			inside, err := start.Write(cmd.Context(), args[0], func(dir string) error {
				taught = teachGit(cmd.Context(), dir) == nil // without git there is a plan all the same
				return nil
			})
			if err != nil {
				return err
			}
			a.say("A new plan stands in %s. Next:", safe(args[0]))
			if inside != "" {
				a.say("  # it belongs to the git repository %s", safe(inside))
			}
			a.say("  cd %s", safe(quoted(args[0])))
			if inside == "" && !taught {
				a.say("  passband git install        # git merges plans as lines of text until then")
			}
			a.say("  passband check              # what is wrong, and what to do")
			a.say("  git add -A && git commit    # keep this as the first version")
			a.say("  passband diff               # after an edit: what it changes")
			return nil
		},
	}
}

// teachGit sets up git in a new repository to merge and show plans as plans.
func teachGit(ctx context.Context, dir string) error {
	program, err := driver.Program()
	if err != nil {
		return err
	}
	return driver.Install(ctx, dir, program)
}
