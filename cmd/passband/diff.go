package main

import (
	"context"
	"io"
	"path/filepath"

	"github.com/spf13/cobra"
	"passband.example/plandiff"
	"passband.example/plandiff/history"
	"passband.example/review/report"
)

func newDiff(a *app) *cobra.Command {
	var tips, effects, exitCode bool
	cmd := &cobra.Command{
		Use:   "diff [REV|DIR [REV|DIR]]",
		Short: "Say what changed, and what it does to channels, zones and radios",
		Long: `Diff compares two plans. Without arguments: the last commit with what is being
edited. With one: that revision or folder with what is being edited. With two:
one with the other.

A revision is compared from where it and the other side parted, so that nobody
is blamed for what others merged meanwhile; --tips compares both as they stand.

Each record that somebody edited is shown with its changes and with what they
reach. Its weight says how much it matters: air (a radio transmits or listens
differently), layout (zones and lists), label (names and notes), policy.

Exit status: 0 done, 1 there are changes (with --exit-code), 2 the work could
not be done.`,
		Example:           "  passband diff\n  passband diff main new-repeater\n  passband diff 2026.1 2026.2 --markdown",
		Args:              atMost(2, "two revisions or folders at most"),
		ValidArgsFunction: a.completeRevisions(2),
		RunE: func(cmd *cobra.Command, args []string) error {
			d, err := a.pair(cmd.Context(), args, tips)
			if err != nil {
				return err
			}
			d.Unfold = effects
			if err := a.write(report.Diff(d), func(w io.Writer) error { return report.JSON(w, d) }); err != nil {
				return err
			}
			if exitCode && !d.Comparison.Empty() {
				return errBlocks
			}
			return nil
		},
	}
	addForms(cmd, &a.form)
	cmd.Flags().BoolVar(&tips, "tips", false, "compare the tips, not from where they parted")
	cmd.Flags().BoolVar(&effects, "effects", false, "list every channel that a change reaches")
	cmd.Flags().BoolVar(&exitCode, "exit-code", false, "end with status 1 if there are changes")
	return cmd
}

// pair loads and compares the two plans that a command was given.
func (a *app) pair(ctx context.Context, names []string, tips bool) (*report.Document, error) {
	sides, err := history.At(ctx, a.plan)
	if err != nil {
		return nil, err
	}
	defer sides.Close()
	oldSide, newSide, err := sides.Pair(ctx, names, tips)
	if err != nil {
		return nil, err
	}
	xs, err := a.eachSound(ctx, oldSide, newSide)
	if err != nil {
		return nil, err
	}
	before, now := xs[0], xs[1]
	old := origin(oldSide)
	if oldSide.Commit != nil && newSide.Commit == nil {
		old.Folder = filepath.ToSlash(filepath.Clean(newSide.Folder)) // where the reader would look for what is gone
	}
	return &report.Document{
		Old: old, New: origin(newSide), Comparison: plandiff.Compare(before, now), Expansion: now,
	}, nil
}
