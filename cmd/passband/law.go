package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"
	"passband.example/plandiff/signal"
	"passband.example/review/license"
	"passband.example/review/report"
	"passband.example/review/rules"
)

func newLaw(a *app) *cobra.Command {
	var region, class string
	cmd := &cobra.Command{
		Use:   "law [FREQUENCY]",
		Short: "Say what the law allows at a frequency, and which section says so",
		Long: `Law shows what the tables say about a frequency in MHz: what may be sent there and by
whom, how near to the edges, from which section and edition of the law, what band
plans keep it for, which splits are usual, and what else lives there. Rows from
memory are marked so.

Region and class are those of the plan, and its license.csv counts, unless --region
or --class say otherwise. Without a frequency it lists the tables that there are.

The license holder answers for every transmission; the frequency coordinator and
local law have the last word.`,
		Example: "  passband law\n  passband law 146.52\n  passband law 446.00625 --region DE --class A\n  passband law 29.6 --region US --class technician --json",
		Args:    atMost(1, "one frequency"),
		ValidArgsFunction: func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
			return nil, cobra.ShellCompDirectiveNoFileComp
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 {
				return a.lawTables(region, class)
			}
			q, err := a.question(cmd.Context(), args[0], region, class)
			if err != nil {
				return err
			}
			return a.write(report.Law(q), func(w io.Writer) error { return report.LawJSON(w, q) })
		},
	}
	addForms(cmd, &a.form)
	cmd.Flags().StringVar(&region, "region", "", "the `country` whose tables apply, or ITU-R1, ITU-R2, ITU-R3")
	cmd.Flags().StringVar(&class, "class", "", "the `class` of license")
	_ = cmd.RegisterFlagCompletionFunc("region", func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
		return regionCodes(), cobra.ShellCompDirectiveNoFileComp
	})
	return cmd
}

func (a *app) lawTables(region, class string) error {
	if region != "" || class != "" {
		return errors.New("--region and --class need a frequency in MHz, such as: passband law 146.52 --region US")
	}
	page, err := report.LawTables()
	if err != nil {
		return err
	}
	return a.write(page, report.LawTablesJSON)
}

// question puts together what is asked: the flags first, then what the plan says, if
// there is one.
func (a *app) question(ctx context.Context, frequency, region, class string) (report.LawQuestion, error) {
	var q report.LawQuestion
	f, err := signal.ParseMegahertz(frequency)
	if err != nil {
		return q, err
	}
	q.Frequency = f
	if q.Tables, q.Class, err = a.tables(ctx, region); err != nil {
		return q, err
	}
	if class != "" {
		q.Class, err = q.Tables.Class(class)
	}
	return q, err
}

// tables gives the tables of a region, or those of the plan with the class that it names.
// The club's own rows count where the region is that of the plan.
func (a *app) tables(ctx context.Context, region string) (*license.Tables, license.Class, error) {
	d, noPlan := a.one(ctx, nil, a.load)
	if noPlan == nil {
		own := d.Expansion.Plan.Header.Region.Or("")
		if own != "" && (region == "" || strings.EqualFold(region, own)) {
			return rules.Tables(d.Expansion.Plan)
		}
	}
	switch {
	case region != "":
		t, err := license.For(region)
		return t, "", err
	case noPlan != nil:
		return nil, "", fmt.Errorf("which region? say it with --region, such as --region US; there is no plan to take it from (%w)", noPlan)
	}
	return nil, "", errors.New("which region? the plan names none; say it with --region, such as --region US")
}

func regionCodes() []string {
	regions, err := license.Regions()
	if err != nil {
		return nil
	}
	var codes []string
	for _, r := range regions {
		codes = append(codes, r.Code)
	}
	return codes
}
