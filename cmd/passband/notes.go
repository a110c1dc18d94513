package main

import (
	"context"
	"errors"
	"fmt"
	"io"

	"github.com/spf13/cobra"
	"passband.example/plandiff"
	"passband.example/plandiff/chronicle"
	"passband.example/plandiff/history"
	"passband.example/plandiff/notes"
	"passband.example/plandiff/plan"
	"passband.example/review/report"
)

func newNotes(a *app) *cobra.Command {
	cmd := &cobra.Command{
		Use:   "notes [REV..REV|TAG]",
		Short: "Write what members must know between two releases",
		Long: `Notes writes for members what is new, gone, retuned or called otherwise between
two releases, and which radios must be loaded again and why. It tells labels,
frequencies and tones, and nothing internal: no files, keys or commits, no notes
or sites, and of operators only how many came and went.

A release is a tag. With one tag: from the release before it. Without: from the
last release to the last commit.`,
		Example:           "  passband notes\n  passband notes 2026.2 --markdown > notes.md\n  passband notes 2026.1..2026.2",
		Args:              atMost(1, "a range or a tag"),
		ValidArgsFunction: a.completeRevisions(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			rev := ""
			if len(args) > 0 {
				rev = args[0]
			}
			return a.notes(cmd.Context(), rev)
		},
	}
	addForms(cmd, &a.form)
	return cmd
}

func (a *app) notes(ctx context.Context, rev string) error {
	return a.reading(ctx, func(repo *history.Repository, r *chronicle.Reader) error {
		span, err := chronicle.Releases(ctx, repo, rev)
		if err != nil {
			return err
		}
		before, err := a.released(ctx, r, span.FromName, span.From)
		if err != nil {
			return err
		}
		now, err := a.released(ctx, r, span.ToName, span.To)
		if err != nil {
			return err
		}
		n := notes.Of(plandiff.Compare(before, now))
		from, to := report.ReleaseOf(span.FromName, span.From), report.ReleaseOf(span.ToName, span.To)
		return a.write(report.ReleaseNotes(n, from, to), func(w io.Writer) error { return report.NotesJSON(w, n, from, to) })
	})
}

// released reads the plan of a release, which must be readable.
func (a *app) released(ctx context.Context, r *chronicle.Reader, name string, c history.Commit) (*plan.Expansion, error) {
	x, err := r.At(ctx, c)
	if errors.Is(err, plan.ErrNoPlan) {
		return nil, fmt.Errorf("%s holds no plan in this folder, so there is nothing to compare with", name)
	}
	if err != nil {
		return nil, fmt.Errorf("the plan of %s cannot be read: %w", name, err)
	}
	return x, nil
}
