package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"
	"passband.example/plandiff/tables"
	"passband.example/plandiff/whole"
	"passband.example/review/report"
)

func newExport(a *app) *cobra.Command {
	var layout, radio, to, print string
	var show bool
	cmd := &cobra.Command{
		Use:   "export [REV|DIR]",
		Short: "Write the channels as tables that any program can load",
		Long: `Export writes the plan as tables in CSV: the one being edited, or the one at a
revision or in another folder. With --radio it writes what that class of radio
holds: the channels that fit it, numbered, with labels cut to its display.

A layout says which tables and columns there are and how values are written; the
club writes its own ("passband explain layout"), and begins with a copy of the
neutral one, which --show-layout prints. What a column cannot show exactly is an
error. What the plan says and no table shows is told.

With --to the tables are put into a new folder, whole or not at all; with
--print one of them is written to the standard output.`,
		Example:           "  passband export --to tables\n  passband export 2026.1 --radio pocket --layout our.layout --to pocket-tables\n  passband export --print channels.csv\n  passband export --show-layout > our.layout",
		Args:              atMost(1, "one revision or folder"),
		ValidArgsFunction: a.completeRevisions(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			if show {
				_, err := io.WriteString(a.stdout, tables.NeutralText())
				return written(err)
			}
			if (to == "") == (print == "") {
				return errors.New("say where the tables go: a new folder with --to DIR, or one table to the standard output with --print FILE")
			}
			return a.export(cmd.Context(), args, layout, radio, to, print)
		},
	}
	addForms(cmd, &a.form)
	cmd.Flags().StringVar(&layout, "layout", "", "the `file` with the layout; the neutral one if left out")
	cmd.Flags().StringVar(&radio, "radio", "", "the `key` of a class of radio; the whole plan if left out")
	cmd.Flags().StringVar(&to, "to", "", "the new `folder` for the tables")
	cmd.Flags().StringVar(&print, "print", "", "write the table of this `file` name to the standard output")
	cmd.Flags().BoolVar(&show, "show-layout", false, "print the neutral layout")
	return cmd
}

// export writes the tables of a plan.
func (a *app) export(ctx context.Context, names []string, layout, radio, to, print string) error {
	l, err := a.readLayout(layout)
	if err != nil {
		return err
	}
	d, err := a.one(ctx, names, a.loadSound)
	if err != nil {
		return err
	}
	e, err := tables.Write(d.Expansion, radio, l)
	if err != nil {
		return a.several("the tables cannot be written", err)
	}
	if print != "" {
		return a.printTable(e, print)
	}
	err = whole.Folder(to, func(dir string) error {
		if err := os.Mkdir(dir, 0o755); err != nil {
			return err
		}
		for _, f := range e.Files {
			if err := os.WriteFile(filepath.Join(dir, f.Name), f.Data, 0o644); err != nil {
				return err
			}
		}
		return nil
	})
	if err != nil {
		return err
	}
	return a.write(report.Exported(d, e, radio), func(w io.Writer) error { return report.ExportedJSON(w, d, e, radio) })
}

func (a *app) printTable(e *tables.Export, name string) error {
	var names []string
	for _, f := range e.Files {
		if f.Name == name {
			_, err := bytes.NewReader(f.Data).WriteTo(a.stdout)
			return written(err)
		}
		names = append(names, f.Name)
	}
	return fmt.Errorf("the layout has no table %q; it has %s", name, strings.Join(names, ", "))
}

// readLayout reads the layout in a file, or the neutral one.
func (a *app) readLayout(name string) (*tables.Layout, error) {
	if name == "" {
		return tables.Neutral()
	}
	f, err := os.Open(name)
	if err != nil {
		return nil, fmt.Errorf("the layout cannot be read: %w", err)
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, tables.MaxLayoutSize+1))
	if err != nil {
		return nil, fmt.Errorf("the layout cannot be read: %w", err)
	}
	l, err := tables.ParseLayout(filepath.ToSlash(name), data)
	if err != nil {
		return nil, a.several("the layout cannot be used", err)
	}
	return l, nil
}

// several says what failed: each reason on a line of its own where there are many.
func (a *app) several(what string, err error) error {
	var failure tables.Failure
	switch {
	case !errors.As(err, &failure):
		return err
	case len(failure) == 1:
		return fmt.Errorf("%s: %w", what, err)
	}
	for _, reason := range failure {
		a.say("%s", safe(reason.Error()))
	}
	return fmt.Errorf("%s, for the %d reasons above", what, len(failure))
}
