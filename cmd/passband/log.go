package main

import (
	"context"
	"errors"
	"fmt"
	"strings"

	"github.com/spf13/cobra"
	"passband.example/plandiff/chronicle"
	"passband.example/plandiff/history"
	"passband.example/plandiff/plan"
	"passband.example/review/report"
)

func newLog(a *app) *cobra.Command {
	var weight string
	l := &report.Log{}
	cmd := &cobra.Command{
		Use:   "log [REV..REV|REV] [THING]",
		Short: "Say what each commit did to the plan, newest first",
		Long: `Log tells the history of a plan: for each commit that changed it who, when and
why, and which records it edited. Without a revision it begins at the last
commit; REV..REV tells the commits since the first that led to the second.

THING is the key of a repeater, group, channel, zone or list, a talk path such
as ridge/1/statewide, or a callsign: only what changed about it is told, under
older names too. "group local" asks for one kind. A word that could be both is
taken for the thing; name the revision as well to be clear.

Commits that changed the text alone are counted at the end. So are those that
--weight holds back: air (a radio transmits or listens differently), layout
(zones and lists), label (names and notes), policy, from the heaviest to the
lightest. A merge is told where it changed something itself. A commit after
which the plan cannot be read is told as such, and the next one is compared
with the one before.`,
		Example:           "  passband log\n  passband log 2026.1..2026.2\n  passband log ridge\n  passband log --weight air --by lena\n  passband log main ridge/1/statewide --effects",
		Args:              atMost(3, "a revision or range and a thing"),
		ValidArgsFunction: a.completeRevisions(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			var err error
			if l.Query.Least, err = weightNamed(weight); err != nil {
				return err
			}
			return a.log(cmd.Context(), l, args)
		},
	}
	addForms(cmd, &a.form)
	cmd.Flags().StringVar(&weight, "weight", "", "only changes of this `weight` or a heavier one")
	cmd.Flags().StringVar(&l.Query.By, "by", "", "only commits of this `person`: part of a name or address")
	cmd.Flags().BoolVar(&l.Query.Reach, "effects", false, "say which channels, zones and radios each change reaches")
	return cmd
}

func weightNamed(word string) (plan.Weight, error) {
	for _, w := range []plan.Weight{plan.Air, plan.Layout, plan.Label, plan.Policy} {
		if word == w.String() {
			return w, nil
		}
	}
	if word == "" {
		return 0, nil
	}
	return 0, fmt.Errorf("--weight: %q is no weight; write air, layout, label or policy", word)
}

// log writes the log in the form that was asked for.
func (a *app) log(ctx context.Context, l *report.Log, args []string) error {
	return a.reading(ctx, func(repo *history.Repository, r *chronicle.Reader) error {
		span, thing, noRevision, err := spanAndThing(ctx, repo, r, args)
		if err != nil {
			return err
		}
		l.Query.Thing, l.Of = thing, commitOrigin(span.ToName, span.To)
		if span.FromName != "" {
			l.From = commitOrigin(span.FromName, span.From)
		}
		if l.Plan, err = r.Title(ctx, span.To); err != nil {
			return err
		}
		if a.form.json {
			err = a.logJSON(ctx, l, r, span)
		} else {
			err = a.logPages(ctx, l, r, span)
		}
		if errors.Is(err, chronicle.ErrNoThing) && noRevision != nil {
			return fmt.Errorf("%w; nor is it a revision: %w", err, noRevision)
		}
		return err
	})
}

func (a *app) logJSON(ctx context.Context, l *report.Log, r *chronicle.Reader, span chronicle.Span) error {
	form := l.Form()
	tally, err := r.Log(ctx, span, l.Query, func(e *chronicle.Entry) error {
		form.Add(l, e)
		return nil
	})
	if err != nil {
		return err
	}
	form.Finish(tally)
	return written(report.WriteJSON(a.stdout, form))
}

// logPages writes each entry as soon as it is known.
func (a *app) logPages(ctx context.Context, l *report.Log, r *chronicle.Reader, span chronicle.Span) error {
	begun := false
	next := func(p *report.Page) error {
		a.progress.clear()
		if !begun { // not before it is known that there is such a thing
			begun = true
			if err := a.write(l.Head(), nil); err != nil {
				return err
			}
		}
		fmt.Fprintln(a.stdout)
		return a.write(p, nil)
	}
	tally, err := r.Log(ctx, span, l.Query, func(e *chronicle.Entry) error { return next(l.Entry(e)) })
	if err != nil {
		return err
	}
	return next(l.Foot(tally))
}

// spanAndThing tells what the words of a command line mean. A first word that is
// neither a revision nor a thing of the plan may be one that is gone; then
// noRevision says why it is no revision.
func spanAndThing(ctx context.Context, repo *history.Repository, r *chronicle.Reader, args []string) (span chronicle.Span, thing string, noRevision, err error) {
	head, noHead := chronicle.ParseSpan(ctx, repo, "HEAD")
	if len(args) == 0 {
		return head, "", nil, noHead
	}
	all := strings.Join(args, " ")
	isRange := strings.Contains(args[0], "..")
	if noHead == nil && !isRange {
		if known, err := r.Knows(ctx, head.To, all); err != nil || known {
			return head, all, nil, err
		}
	}
	span, err = chronicle.ParseSpan(ctx, repo, args[0])
	if errors.Is(err, history.ErrUnknownRevision) && !isRange && noHead == nil {
		return head, all, err, nil
	}
	return span, strings.Join(args[1:], " "), nil, err
}
