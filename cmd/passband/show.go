package main

import (
	"errors"
	"io"
	"strings"

	"github.com/spf13/cobra"
	"passband.example/review/report"
)

func newShow(a *app) *cobra.Command {
	var at string
	cmd := &cobra.Command{
		Use:   "show THING",
		Short: "Explain a channel, repeater, group, zone or operator",
		Long: `Show explains one thing of a plan to somebody who is new to it: what the radio
sends and hears, and what each setting is for.

THING is the key of a channel, repeater, group or zone, a talk path such as
ridge/1/statewide, a callsign, also that of a neighbor, or a radio ID. Where one
name means several things, each is shown; "group local" asks for one.`,
		Example: "  passband show ridge/1/statewide\n  passband show calling-2m\n  passband show group local\n  passband show N0QRV\n  passband show ridge --at 2026.1",
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 {
				return errors.New("show needs the name of a thing, such as the key of a repeater; see \"passband show --help\"")
			}
			return nil
		},
		ValidArgsFunction: a.completeThings,
		RunE: func(cmd *cobra.Command, args []string) error {
			var names []string
			if at != "" {
				names = []string{at}
			}
			d, err := a.one(cmd.Context(), names, a.loadSound)
			if err != nil {
				return err
			}
			name := strings.Join(args, " ")
			page, err := report.Show(d, name)
			if err != nil {
				return err
			}
			return a.write(page, func(w io.Writer) error { return report.ShowJSON(w, d, name) })
		},
	}
	addForms(cmd, &a.form)
	cmd.Flags().StringVar(&at, "at", "", "the `revision` or folder of the plan")
	_ = cmd.RegisterFlagCompletionFunc("at", a.completeRevisions(1))
	return cmd
}
