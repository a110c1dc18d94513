package main

import (
	"fmt"
	"io"
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
	cmd.MarkFlagsMutuallyExclusive("json", "markdown")
}

// write writes a page in the form that was asked for; json writes the form for
// programs.
func (a *app) write(page *report.Page, json func(io.Writer) error) error {
	switch {
	case a.form.json:
		return json(a.stdout)
	case a.form.markdown:
		return report.Markdown(a.stdout, page)
	}
	return report.Text(a.stdout, page, a.terminal())
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

// safe makes an error message that may quote a plan safe for a terminal.
func safe(s string) string { return report.Visible(s) }
