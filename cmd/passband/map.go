package main

import (
	"io"

	"github.com/spf13/cobra"
	"passband.example/plandiff/geo"
	"passband.example/review/report"
)

func newMap(a *app) *cobra.Command {
	var geojson, gpx bool
	cmd := &cobra.Command{
		Use:   "map [REV|DIR]",
		Short: "Write where the repeaters stand, for maps",
		Long: `Map lists where the repeaters of a plan stand, or writes it in an open format
that maps read: GeoJSON (RFC 7946) or GPX 1.1, on WGS 84.

A repeater with coordinates stands there, to about a meter. One with a locator
alone stands at the center of its cell, and how far off that may be is said. One
with neither is named on standard error.`,
		Example:           "  passband map\n  passband map --geojson > repeaters.geojson\n  passband map 2026.1 --gpx > repeaters.gpx",
		Args:              atMost(1, "one revision or folder"),
		ValidArgsFunction: a.completeRevisions(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			d, err := a.one(cmd.Context(), args, a.loadSound)
			if err != nil {
				return err
			}
			places, nowhere := geo.Places(d.Expansion.Plan)
			if w := report.Nowhere(nowhere); w != "" && (geojson || gpx) {
				a.say("%s", safe(w))
			}
			switch {
			case geojson:
				return written(geo.GeoJSON(a.stdout, places))
			case gpx:
				return written(geo.GPX(a.stdout, d.Expansion.Plan.Header.Title.Or("Repeaters"), places))
			}
			return a.write(report.Map(d), func(w io.Writer) error { return report.MapJSON(w, d) })
		},
	}
	addForms(cmd, &a.form)
	cmd.Flags().BoolVar(&geojson, "geojson", false, "write GeoJSON")
	cmd.Flags().BoolVar(&gpx, "gpx", false, "write GPX")
	cmd.MarkFlagsMutuallyExclusive("geojson", "gpx", "json", "markdown")
	return cmd
}
