package main

import (
	"context"
	"fmt"
	"os"
	"path/filepath"

	"github.com/spf13/cobra"
	"passband.example/plandiff/card"
	"passband.example/plandiff/demo"
	"passband.example/plandiff/plan"
	"passband.example/review"
	"passband.example/review/report"
	"passband.example/review/rules"
)

func newDemo(a *app) *cobra.Command {
	return &cobra.Command{
		Use:   "demo [DIR]",
		Short: "See passband at work on the plan of an invented club",
		Long: `Demo writes a real git repository of an invented club, with its history, and
shows on it what passband does: the check of the plan, what changed between two
releases, and the review of a proposal that must not be merged. That review it
also writes as a page with pictures, DIR-review.html, beside the repository, and
the cards of one class of radio, to print, as DIR-cards.html.

DIR must be new or empty; without it the repository goes into a new folder among
the temporary ones. Nothing in it may be transmitted on.`,
		Example: "  passband demo\n  passband demo harrow-valley",
		Args:    atMost(1, "one folder"),
		RunE: func(cmd *cobra.Command, args []string) error {
			if len(args) > 0 {
				return a.demo(cmd.Context(), args[0])
			}
			above, err := os.MkdirTemp("", "passband-demo-")
			if err != nil {
				return fmt.Errorf("there is no place for the demo: %w; name a folder: passband demo DIR", err)
			}
			if err := a.demo(cmd.Context(), filepath.Join(above, "harrow-valley")); err != nil {
				_ = os.Remove(above) // stays if the demo stands in it
				return err
			}
			return nil
		},
	}
}

// demo writes the repository and shows the three main commands on it.
func (a *app) demo(ctx context.Context, dir string) error {
	page, cards := filepath.Clean(dir)+"-review.html", filepath.Clean(dir)+"-cards.html" // beside it: the work tree stays as it was committed
	full, _ := os.ReadDir(dir)
	for _, file := range []string{page, cards} {
		if _, err := os.Lstat(file); err == nil && len(full) == 0 {
			return fmt.Errorf("%s is there already, and nothing is overwritten; name a new folder", file)
		}
	}
	if err := demo.Write(ctx, dir); err != nil {
		return err
	}
	a.plan = dir
	fmt.Fprintf(a.stdout, "The repository of an invented club stands in %s\n", safe(dir))
	for _, show := range []func(context.Context) (*report.Page, error){a.demoCheck, a.demoDiff, a.demoReview} {
		page, err := show(ctx)
		if err != nil {
			return err
		}
		if err := written(report.Text(a.stdout, page, a.terminal())); err != nil {
			return err
		}
	}
	if err := a.demoReport(ctx, page); err != nil {
		return err
	}
	if err := a.demoCards(ctx, cards); err != nil {
		return err
	}
	a.next(dir)
	return nil
}

func (a *app) demoCheck(ctx context.Context) (*report.Page, error) {
	a.step("passband check")
	d, err := a.one(ctx, nil, a.load)
	if err != nil {
		return nil, err
	}
	d.New.Folder = "" // as somebody sees it who is in there
	if d.Verdict, err = review.Check(ctx, rules.All(), d.Expansion, plan.DateOf(a.now())); err != nil {
		return nil, err
	}
	return report.Check(d), nil
}

func (a *app) demoDiff(ctx context.Context) (*report.Page, error) {
	a.step("passband diff " + demo.FirstRelease + " " + demo.SecondRelease)
	d, err := a.pair(ctx, []string{demo.FirstRelease, demo.SecondRelease}, false)
	if err != nil {
		return nil, err
	}
	return report.Diff(d), nil
}

func (a *app) demoReview(ctx context.Context) (*report.Page, error) {
	a.step(reviewCommand() + ", in short")
	d, err := a.pair(ctx, []string{demo.Main, demo.Proposal}, false)
	if err != nil {
		return nil, err
	}
	if d.Verdict, err = review.Judge(ctx, rules.All(), d.Comparison, nil, plan.DateOf(a.now())); err != nil {
		return nil, err
	}
	return report.Review(d), nil
}

// reviewCommand reviews the branch that waits as a pull request would be.
func reviewCommand() string {
	return "passband review --base " + demo.Main + " --head " + demo.Proposal
}

// demoReport writes the review of the branch as a page with pictures.
func (a *app) demoReport(ctx context.Context, page string) error {
	a.step("passband report " + demo.Main + " " + demo.Proposal + " -o " + quoted(page))
	d, err := a.judged(ctx, []string{demo.Main, demo.Proposal}, false)
	if err != nil {
		return err
	}
	return a.writeReport(d, page)
}

// demoCards writes the cards of the pocket radio, to print.
func (a *app) demoCards(ctx context.Context, file string) error {
	choice := card.Choice{Radio: "pocket"}
	a.step("passband card --radio " + choice.Radio + " --html " + quoted(file))
	cards, err := a.cards(ctx, nil, choice)
	if err != nil {
		return err
	}
	return a.printable(cards, file)
}

// step says what the demo shows now.
func (a *app) step(what string) { fmt.Fprintf(a.stdout, "\n== %s\n\n", safe(what)) }

// next says what to try next.
func (a *app) next(dir string) {
	a.step("Try next")
	fmt.Fprintf(a.stdout, "  cd %s\n", safe(quoted(dir)))
	for _, line := range []string{
		"passband show ridge          # what a repeater is and carries",
		"passband radios              # how full each class of radio is",
		"passband explain off-band    # what a rule looks for, and why",
		"passband diff " + demo.Main + " " + demo.Proposal + " --effects",
		reviewCommand() + "   # as a pull request",
	} {
		fmt.Fprintln(a.stdout, "  "+line)
	}
	fmt.Fprint(a.stdout, "\nThen edit repeaters.yaml, and run passband check and passband diff again.\n")
}
