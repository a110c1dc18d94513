package main

import (
	"bytes"
	"context"
	"fmt"

	"github.com/spf13/cobra"
	"passband.example/plandiff/card"
	"passband.example/plandiff/plan"
	"passband.example/plandiff/whole"
	"passband.example/review"
	"passband.example/review/report"
	"passband.example/review/rules"
)

func newCard(a *app) *cobra.Command {
	var choice card.Choice
	var file string
	cmd := &cobra.Command{
		Use:   "card [REV|DIR]",
		Short: "Make pocket cards for newcomers, to read or to print",
		Long: `Card makes a card for each zone: the number of each channel on the knob, its
label, what it hears and sends, what opens it, and when to use it, which the plan
says by the key when of a channel, group or repeater.

With --radio the cards are for one class of radio: its zones, with labels and
numbers as it shows them. What it cannot use or has no room for is named.

With --html the cards go into a file to print on A4 or Letter paper, on both sides,
turned over on the long edge, without scaling: four cards a sheet.

The plan is checked too, and where something blocks the cards say so.`,
		Example:           "  passband card\n  passband card --radio pocket --html cards.html\n  passband card 2026.1 --zone valley",
		Args:              atMost(1, "one revision or folder"),
		ValidArgsFunction: a.completeRevisions(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			cards, err := a.cards(cmd.Context(), args, choice)
			if err != nil {
				return err
			}
			if file != "" {
				return a.printable(cards, file)
			}
			return a.write(cards.Page(), cards.JSON)
		},
	}
	addForms(cmd, &a.form)
	cmd.Flags().StringVar(&choice.Zone, "zone", "", "the `key` of the zone; all if left out")
	cmd.Flags().StringVar(&choice.Radio, "radio", "", "the `key` of the class of radio")
	cmd.Flags().StringVar(&file, "html", "", "the `file` to write the cards into, to print; - prints it")
	cmd.MarkFlagsMutuallyExclusive("html", "json", "markdown")
	return cmd
}

// cards makes the cards of a plan that could be read, judged.
func (a *app) cards(ctx context.Context, names []string, choice card.Choice) (*report.Cards, error) {
	d, err := a.one(ctx, names, a.loadSound)
	if err != nil {
		return nil, err
	}
	cards, err := card.Of(d.Expansion, choice)
	if err != nil {
		return nil, err
	}
	if d.Verdict, err = review.Check(ctx, rules.All(), d.Expansion, plan.DateOf(a.now())); err != nil {
		return nil, err
	}
	return report.NewCards(d, cards), nil
}

// printable writes the cards into a file to print.
func (a *app) printable(cards *report.Cards, file string) error {
	var page bytes.Buffer
	if err := cards.HTML(&page); err != nil {
		return err
	}
	if file == "-" {
		_, err := a.stdout.Write(page.Bytes())
		return written(err)
	}
	if err := whole.File(file, page.Bytes()); err != nil {
		return err
	}
	if w := cards.Warning(); w != "" {
		a.say("%s", w)
	}
	_, err := fmt.Fprintf(a.stdout, "The cards stand in %s.\nPrint it on both sides, turned over on the long edge, at 100 %%.\n", safe(file))
	return written(err)
}
