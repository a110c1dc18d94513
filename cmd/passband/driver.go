package main

import (
	"context"
	"fmt"
	"os"
	"strconv"

	"github.com/spf13/cobra"
	"passband.example/plandiff/driver"
	"passband.example/plandiff/history"
)

func newGit(a *app) *cobra.Command {
	cmd := &cobra.Command{
		Use:   "git",
		Short: "Let git merge and show plans by what they say, in this clone",
		Long: `Git sets passband up as what git calls to merge plans and to show them.

Two halves belong to it. The lines in .gitattributes say which files are plans; commit
them, and everybody has them. Which program to run stands in the configuration of each
clone, so everybody runs "passband git install" once. Without it git merges and shows
plans as lines of text, and does not say so; "passband git status" does.

The merge buttons of forges run no such program: check what they merge.`,
		Example: "  passband git install\n  passband git status\n  passband git remove",
		Args:    cobra.NoArgs,
		RunE:    func(cmd *cobra.Command, _ []string) error { return cmd.Help() },
	}
	cmd.AddCommand(newGitInstall(a), newGitRemove(a), newGitStatus(a), newMergeDriver(a), newTextconv(a))
	return cmd
}

func newGitInstall(a *app) *cobra.Command {
	return &cobra.Command{
		Use:     "install",
		Short:   "Set it up: .gitattributes, and the configuration of this clone",
		Example: "  passband git install && git add .gitattributes",
		Args:    cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			dir, err := a.planFolder(cmd.Context())
			if err != nil {
				return err
			}
			program, err := driver.Program()
			if err != nil {
				return err
			}
			if err := driver.Install(cmd.Context(), dir, program); err != nil {
				return err
			}
			a.say("Git merges and shows plans by what they say now, in this clone.")
			a.say("Commit %s; others run \"passband git install\" once in their clones.", driver.AttributesFile)
			return nil
		},
	}
}

func newGitRemove(a *app) *cobra.Command {
	return &cobra.Command{
		Use:   "remove",
		Short: "Take away what install put in",
		Args:  cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			dir, err := a.planFolder(cmd.Context())
			if err != nil {
				return err
			}
			if err := driver.Remove(cmd.Context(), dir); err != nil {
				return err
			}
			a.say("Git merges and shows plans as lines of text again, in this clone.")
			return nil
		},
	}
}

func newGitStatus(a *app) *cobra.Command {
	return &cobra.Command{
		Use:   "status",
		Short: "Say whether it is set up, and what is missing",
		Long: `Status says whether git merges and shows plans by what they say.

Exit status: 0 it is set up, 1 a part or all of it is missing, 2 the work could not be
done.`,
		Args: cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			dir, err := a.planFolder(cmd.Context())
			if err != nil {
				return err
			}
			s, err := driver.Look(cmd.Context(), dir)
			if err != nil {
				return err
			}
			fmt.Fprintln(a.stdout, s)
			if !s.Whole() {
				return errBlocks
			}
			return nil
		},
	}
}

// planFolder gives the folder of the plan that is being edited.
func (a *app) planFolder(ctx context.Context) (string, error) {
	sides, err := history.At(ctx, a.plan)
	if err != nil {
		return "", err
	}
	defer sides.Close()
	now, err := sides.Now(ctx)
	if err != nil {
		return "", err
	}
	if now.Commit != nil {
		return "", fmt.Errorf("this repository has no work tree, and so no plan that is being edited; go to a clone that has one")
	}
	return now.Folder, nil
}

func newMergeDriver(a *app) *cobra.Command {
	return &cobra.Command{
		Use:    "merge-driver BASE OURS THEIRS MARKER PATH",
		Short:  "Merge one file for git (git calls this)",
		Hidden: true,
		Args:   cobra.ExactArgs(5),
		RunE: func(cmd *cobra.Command, args []string) error {
			marker, err := strconv.Atoi(args[3])
			if err != nil {
				return fmt.Errorf("the length of the marks, %q, is not a number", args[3])
			}
			clean, err := driver.Merge(cmd.Context(), driver.Call{
				Base: args[0], Ours: args[1], Theirs: args[2], Marker: marker, Path: args[4], Environ: os.Environ(),
			}, func(line string) { a.say("passband: %s", safe(line)) })
			if err != nil {
				return err
			}
			if !clean {
				return errBlocks
			}
			return nil
		},
	}
}

func newTextconv(a *app) *cobra.Command {
	return &cobra.Command{
		Use:    "textconv FILE",
		Short:  "Show a plan as one fact a line (git calls this)",
		Hidden: true,
		Args:   cobra.ExactArgs(1),
		RunE: func(_ *cobra.Command, args []string) error {
			text, err := os.ReadFile(args[0])
			if err != nil {
				return err
			}
			_, err = a.raw.out.Write(driver.Facts(args[0], text))
			return err
		},
	}
}
