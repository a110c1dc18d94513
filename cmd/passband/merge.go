package main

import (
	"fmt"

	"github.com/spf13/cobra"
	"passband.example/plandiff/driver"
	"passband.example/plandiff/merge"
)

func newMerge(a *app) *cobra.Command {
	var output string
	var labels merge.Labels
	cmd := &cobra.Command{
		Use:   "merge BASE OURS THEIRS [PATH]",
		Short: "Put together what two people made of one plan",
		Long: `Merge takes a plan as it was and as two people have it now, and puts both together,
by record and field: three folders of plans, or three versions of one file. PATH says
which file of a plan that is, by its path from the folder of the plan, where its name
does not tell.

The merged text goes to standard output: of folders, each file that is different from
OURS, behind a line with its name. With --output it is written into a file, or, of
folders, into OURS or a new folder; each file is written whole or not at all.

Where only a person can decide, the text holds the lines of both sides between the
marks that git uses, and both sides are explained. What is wrong only since both came
together is told too: one ID twice, a reference to what the other side removed, a
memory that is too small.

Exit status: 0 merged, 1 something is left to decide, 2 the work could not be done.`,
		Example: "  passband merge before.yaml mine.yaml yours.yaml plan.yaml\n  passband merge ../old . ../other --output .",
		Args:    cobra.RangeArgs(3, 4),
		RunE: func(_ *cobra.Command, args []string) error {
			name := ""
			if len(args) == 4 {
				name = args[3]
			}
			m, err := driver.Between(args[0], args[1], args[2], name, labels)
			if err != nil {
				return err
			}
			if err := a.keepMerge(m, output); err != nil {
				return err
			}
			return a.tellMerge(m)
		},
	}
	cmd.Flags().StringVarP(&output, "output", "o", "", "write into this `file or folder`, not to standard output")
	cmd.Flags().IntVar(&labels.Marker, "marker", 7, "the length of the marks around what is left to decide")
	return cmd
}

// tellMerge says what is left to decide, and what to look at.
func (a *app) tellMerge(m *driver.Merged) error {
	for _, c := range m.Conflicts {
		a.say("to decide: %s", safe(c.String()))
	}
	for _, warning := range m.After {
		a.say("after this merge: %s", safe(warning))
	}
	if len(m.Conflicts) > 0 {
		return errBlocks
	}
	return nil
}

// keepMerge writes what was merged to where a person wants it.
func (a *app) keepMerge(m *driver.Merged, output string) error {
	if output != "" {
		return m.Write(output)
	}
	for _, name := range m.Different() {
		if m.Folder {
			fmt.Fprintf(a.stdout, "-- %s --\n", safe(name))
		}
		if _, err := a.raw.out.Write(m.Files[name]); err != nil {
			return err
		}
	}
	for _, name := range m.Gone() {
		a.say("%s is not in the merged plan", safe(name))
	}
	return nil
}
