package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"

	"github.com/spf13/cobra"
	"passband.example/plandiff/plan"
	"passband.example/plandiff/whole"
	"passband.example/review"
	"passband.example/review/page"
	"passband.example/review/report"
	"passband.example/review/rules"
)

// reportFile is the file that report writes where none is named.
const reportFile = "passband-report.html"

func newReport(a *app) *cobra.Command {
	var tips bool
	var out string
	cmd := &cobra.Command{
		Use:   "report [REV|DIR [REV|DIR]]",
		Short: "Write a plan or a change as one page with pictures",
		Long: `Report writes one HTML file for people who look rather than read: what changed
and what that reaches, the findings, each zone as a grid, how full each class of
radio is, the spectrum under license and band plan, a map of the repeaters, and
all channels in a table that can be searched. The file holds all that it needs,
fetches nothing, opens from a disk, and can be read without scripts and printed.

With one revision or folder, or none, it shows the plan as it stands; with two,
the change from one to the other, from where they parted, as diff does. A plan
being edited is the folder it is in: "passband report main ." shows what the
edit changes.

Exit status: 0 nothing blocks, 1 something blocks (the page is written all the
same), 2 the work could not be done.`,
		Example:           "  passband report\n  passband report main new-repeater -o review.html\n  passband report main . -o - > edit.html",
		Args:              atMost(2, "two revisions or folders at most"),
		ValidArgsFunction: a.completeRevisions(2),
		RunE: func(cmd *cobra.Command, args []string) error {
			d, err := a.judged(cmd.Context(), args, tips)
			if err != nil {
				return err
			}
			if err := a.writeReport(d, out); err != nil {
				return err
			}
			if d.Verdict.Blocks() {
				return errBlocks
			}
			return nil
		},
	}
	cmd.Flags().BoolVar(&tips, "tips", false, "compare the tips, not from where they parted")
	cmd.Flags().StringVarP(&out, "output", "o", reportFile, "the `file`, or - prints it")
	return cmd
}

// judged gives a plan with its verdict, or of two names the change with its verdict.
func (a *app) judged(ctx context.Context, names []string, tips bool) (d *report.Document, err error) {
	if len(names) < 2 {
		if tips {
			return nil, errors.New("--tips is about two revisions; name both")
		}
		if d, err = a.one(ctx, names, a.load); err == nil {
			d.Verdict, err = review.Check(ctx, rules.All(), d.Expansion, plan.DateOf(a.now()))
		}
		return d, err
	}
	if d, err = a.pair(ctx, names, tips); err == nil {
		d.Verdict, err = review.Judge(ctx, rules.All(), d.Comparison, nil, plan.DateOf(a.now()))
	}
	return d, err
}

// writeReport writes the page whole or not at all, and says where it stands.
func (a *app) writeReport(d *report.Document, file string) error {
	var text bytes.Buffer
	if err := page.Write(&text, d); err != nil {
		return err
	}
	if file == "-" {
		_, err := a.stdout.Write(text.Bytes())
		return written(err)
	}
	if err := whole.File(file, text.Bytes()); err != nil {
		return err
	}
	_, err := fmt.Fprintf(a.stdout, "The report stands in %s; open it in a browser.\n%s.\n", safe(file), safe(d.Status()))
	return written(err)
}
