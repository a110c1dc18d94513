package main

import (
	"context"
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"
	"passband.example/plandiff/plan"
	"passband.example/review/report"
	"passband.example/review/rf"
	"passband.example/review/rules"
	"passband.example/review/survey"
)

func newPairs(a *app) *cobra.Command {
	var at, band, mode string
	most := 5
	cmd := &cobra.Command{
		Use:   "pairs --at PLACE --band BAND",
		Short: "List pairs worth asking the frequency coordinator about",
		Long: `Pairs lists pairs of frequencies for a repeater at a place: on the channels and
with the splits of the band plan, allowed to a repeater, as far from every known
station as the separation table asks, and without a mixing product of third
order or a harmonic at the site. The best are first, with the reason for each.

PLACE is LATITUDE,LONGITUDE, a locator, or the key of a repeater that is to get
another pair. Stations are those of the plan and of the neighbor list that it
names; the country is the plan's.

It is a list to take to the frequency coordinator, who decides.`,
		Example: "  passband pairs --at 40.1,-104.2 --band 70cm\n  passband pairs --at DN70vc --band 2m --mode fm\n  passband pairs --at ridge --band 70cm --json",
		Args:    cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			q, err := a.pairsQuestion(cmd.Context(), at, band, mode)
			if err != nil {
				return err
			}
			if most < 1 {
				return fmt.Errorf("--most takes a number of pairs from 1 up")
			}
			q.Most = most
			found := q.Choose()
			return a.write(report.Pairs(q, found), func(w io.Writer) error { return report.PairsJSON(w, q, found) })
		},
	}
	addForms(cmd, &a.form)
	cmd.Flags().StringVar(&at, "at", "", "the `place`: LATITUDE,LONGITUDE, a locator, or the key of a repeater")
	cmd.Flags().StringVar(&band, "band", "", "the `band`: "+strings.Join(rf.BandNames(), ", "))
	cmd.Flags().StringVar(&mode, "mode", "dmr", "the `mode`: dmr or fm")
	cmd.Flags().IntVar(&most, "most", most, "how many pairs to show; a run of alike ones counts as one")
	_ = cmd.RegisterFlagCompletionFunc("band", func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
		return rf.BandNames(), cobra.ShellCompDirectiveNoFileComp
	})
	return cmd
}

func (a *app) pairsQuestion(ctx context.Context, at, band, mode string) (report.PairsQuestion, error) {
	var q report.PairsQuestion
	if at == "" || band == "" {
		return q, fmt.Errorf("say where and on which band, such as: passband pairs --at 40.1,-104.2 --band 70cm")
	}
	if _, _, ok := rf.BandLimits(band); !ok {
		return q, fmt.Errorf("%q is not a band that is known; the bands are %s", band, strings.Join(rf.BandNames(), ", "))
	}
	if q.Mode = plan.Mode(mode); q.Mode != plan.ModeFM && q.Mode != plan.ModeDMR {
		return q, fmt.Errorf("%q is not a mode; write dmr or fm", mode)
	}
	d, err := a.one(ctx, nil, a.loadSound)
	if err != nil {
		return q, err
	}
	q.Plan, q.Band, q.Where = d.Expansion.Plan, band, at
	if q.Law, _, err = rules.Tables(q.Plan); err != nil {
		return q, fmt.Errorf("the plan must say its country (region:) for this: %w", err)
	}
	if r, ok := q.Plan.Repeaters.Find(at); ok {
		place := survey.PlaceOf(r)
		if place == nil {
			return q, fmt.Errorf("the plan does not say where %s stands; write site: with lat and lon, or give the place itself", r.Thing())
		}
		q.Moving, q.At = r, *place
		return q, nil
	}
	q.At, err = survey.ParsePlace(at)
	return q, err
}
