package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"strconv"

	"github.com/spf13/cobra"
	"golang.org/x/term"
	"passband.example/review/report"
)

// A form is the shape of the output that a person asked for.
type form struct {
	json, markdown bool
}

// addForms gives a command the flags for the form of its output.
func addForms(cmd *cobra.Command, f *form) {
	cmd.Flags().BoolVar(&f.json, "json", false, "write JSON for programs")
	cmd.Flags().BoolVar(&f.markdown, "markdown", false, "write Markdown")
	cmd.PreRunE = func(cmd *cobra.Command, _ []string) error {
		if f.json && f.markdown {
			return errors.New("--json and --markdown are two forms of the same output; ask for one of them")
		}
		return nil
	}
}

// write writes a page in the form that was asked for; json writes the form for
// programs.
func (a *app) write(page *report.Page, json func(io.Writer) error) error {
	switch {
	case a.form.json:
		return written(json(a.stdout))
	case a.form.markdown:
		return written(report.Markdown(a.stdout, page))
	}
	return written(report.Text(a.stdout, page, a.terminal()))
}

// written says what it means that the output could not be written.
func written(err error) error {
	var pe *fs.PathError
	if errors.As(err, &pe) {
		return fmt.Errorf("the output could not be written: %w; what has been written is not all", pe.Err)
	}
	return err
}

// terminal says how wide the output is, and whether it may have colors: only on
// a terminal, and not where NO_COLOR is set (no-color.org) or TERM is dumb.
func (a *app) terminal() report.Terminal {
	t := report.Terminal{}
	if columns, err := strconv.Atoi(a.env("COLUMNS")); err == nil && columns > 0 {
		t.Width = columns
	}
	f, ok := a.stdout.(*os.File)
	if !ok || !term.IsTerminal(int(f.Fd())) {
		return t
	}
	if width, _, err := term.GetSize(int(f.Fd())); err == nil && width > 0 && t.Width == 0 {
		t.Width = width
	}
	t.Color = a.env("NO_COLOR") == "" && a.env("TERM") != "dumb"
	return t
}

// say writes a line for a person to standard error.
func (a *app) say(format string, args ...any) {
	fmt.Fprintf(a.stderr, format+"\n", args...)
}

// safe makes a text that may quote a plan safe for a terminal.
func safe(s string) string { return report.Visible(s) }
