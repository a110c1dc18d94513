package main

import (
	"context"
	"errors"
	"io"
	"strings"

	"github.com/spf13/cobra"
	"passband.example/plandiff/chronicle"
	"passband.example/plandiff/history"
	"passband.example/plandiff/plan"
	"passband.example/review/report"
)

func newTrace(a *app) *cobra.Command {
	var at string
	cmd := &cobra.Command{
		Use:   "trace THING",
		Short: "Say who last changed each setting of a thing",
		Long: `Trace tells for every attribute of a thing its value now, and the commit, person
and date that last changed it on the air or in name. It follows renamed keys and
records that moved to other files; a change of the text alone is none.

THING is the key of a repeater, group, channel, zone or list, a talk path such
as ridge/1/statewide, or a callsign; "group local" asks for one kind. A channel
is traced as a radio has it: through the repeater and the group that it is made
of.`,
		Example: "  passband trace ridge\n  passband trace ridge/1/statewide\n  passband trace zone valley --at 2026.1",
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 {
				return errors.New("trace needs the name of a thing, such as the key of a repeater; see \"passband trace --help\"")
			}
			return nil
		},
		ValidArgsFunction: a.completeThings,
		RunE: func(cmd *cobra.Command, args []string) error {
			d, traces, err := a.trace(cmd.Context(), strings.Join(args, " "), at)
			if err != nil {
				return err
			}
			return a.write(report.Trace(d, traces), func(w io.Writer) error { return report.TraceJSON(w, d, traces) })
		},
	}
	addForms(cmd, &a.form)
	cmd.Flags().StringVar(&at, "at", "", "the `revision` to trace back from")
	_ = cmd.RegisterFlagCompletionFunc("at", a.completeRevisions(1))
	return cmd
}

// trace traces a thing of the plan being edited, or of that at a revision.
func (a *app) trace(ctx context.Context, thing, at string) (d *report.Document, traces []*chronicle.Trace, err error) {
	rev := at
	if at == "" {
		rev = "HEAD"
		if d, err = a.one(ctx, nil, a.loadSound); err != nil {
			return nil, nil, err
		}
	}
	err = a.reading(ctx, func(repo *history.Repository, r *chronicle.Reader) error {
		if d == nil {
			if d, err = a.one(ctx, []string{at}, a.recorded(r)); err != nil {
				return err
			}
		}
		span, err := chronicle.ParseSpan(ctx, repo, rev)
		if err == nil {
			traces, err = r.Trace(ctx, span.To, d.Expansion, thing)
		}
		return err
	})
	return d, traces, err
}

// recorded reads a plan as loadSound does, and one at a commit as the reader of its history
// does, which then need not read it again.
func (a *app) recorded(r *chronicle.Reader) loader {
	return func(ctx context.Context, side history.Side) (*plan.Expansion, error) {
		if side.Commit != nil && side.Folder == r.Folder() {
			if x, err := r.At(ctx, *side.Commit); err == nil {
				return x, nil
			}
		}
		return a.loadSound(ctx, side) // which says what is wrong
	}
}
