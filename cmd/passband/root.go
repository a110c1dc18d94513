package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"runtime/debug"
	"strings"
	"time"

	"github.com/spf13/cobra"
)

// The exit statuses.
const (
	exitFine   = 0 // nothing blocks
	exitBlocks = 1 // something blocks, or diff --exit-code found changes
	exitFailed = 2 // the work could not be done
)

// errBlocks ends a run whose work was done and whose verdict is no.
var errBlocks = errors.New("something blocks")

// app is what every command needs from outside.
type app struct {
	stdout, stderr io.Writer
	raw            streams // the same, for what must pass as it is: commands to the runner, and files
	env            func(string) string
	now            func() time.Time

	plan string // the folder of the plan
	form form

	progress *progressLine // nil where nobody watches
}

// streams are where a program writes.
type streams struct{ out, err io.Writer }

// status turns the end of a run into an exit status, and says what went wrong.
func (a *app) status(err error) int {
	switch {
	case err == nil:
		return exitFine
	case errors.Is(err, errBlocks):
		return exitBlocks
	case errors.Is(err, context.Canceled):
		fmt.Fprintln(a.stderr, "passband: stopped")
		return exitFailed
	}
	fmt.Fprintf(a.stderr, "passband: %s\n", safe(err.Error()))
	return exitFailed
}

func newRoot(a *app) *cobra.Command {
	root := &cobra.Command{
		Use:   "passband",
		Short: "Version control and review for channel plans",
		Long: `passband keeps the channel plan of an amateur-radio club as text in git: it
says what changed, in the words of the trade, and what is wrong, where, and what
to do.

It works on the plan in the folder that you are in, or in the one that --plan
names; in a bare repository that is the repository and the folder of the plan in
it, such as club.git/plans/valley.

The license holder answers for every transmission; the frequency coordinator and
local law have the last word.

Exit status: 0 nothing blocks, 1 something blocks (or diff --exit-code found
changes), 2 the work could not be done.`,
		Example: "  passband demo                 # see it at work on an invented club\n" +
			"  passband start our-plan       # begin a plan of your own\n" +
			"  passband check                # in the folder of a plan",
		Version:       programVersion(),
		SilenceUsage:  true,
		SilenceErrors: true,
		Args:          cobra.ArbitraryArgs,

		SuggestionsMinimumDistance: 2,
		RunE: func(cmd *cobra.Command, args []string) error {
			if len(args) > 0 {
				return unknownCommand(cmd, args[0])
			}
			return cmd.Help()
		},
	}
	root.PersistentFlags().StringVar(&a.plan, "plan", ".", "the `folder` of the plan, or one inside it")
	root.AddCommand(
		newCheck(a), newDiff(a), newReview(a), newReport(a), newServe(a), newLog(a), newTrace(a), newNotes(a), newMerge(a), newTidy(a), newGit(a), newShow(a), newRadios(a), newPolicy(a), newExport(a), newImport(a), newCard(a), newMap(a), newPairs(a), newLaw(a), newExplain(a), newSchema(a), newStart(a), newDemo(a),
	)
	root.SetFlagErrorFunc(func(cmd *cobra.Command, err error) error {
		return fmt.Errorf("%w; see \"%s --help\"", err, cmd.CommandPath())
	})
	return root
}

func unknownCommand(root *cobra.Command, name string) error {
	if near := root.SuggestionsFor(name); len(near) > 0 {
		return fmt.Errorf("there is no command %q; did you mean %s?", name, strings.Join(near, " or "))
	}
	return fmt.Errorf("there is no command %q; \"passband --help\" lists them", name)
}

// atMost lets a command take up to n words, and says what they are.
func atMost(n int, what string) cobra.PositionalArgs {
	return func(cmd *cobra.Command, args []string) error {
		if len(args) > n {
			return fmt.Errorf("%q is one word too many: %s takes %s; see \"%s --help\"", args[n], cmd.Name(), what, cmd.CommandPath())
		}
		return nil
	}
}

// version is set by a release (package release).
var version string

// programVersion gives the version that the program was built as.
func programVersion() string {
	if version != "" {
		return version
	}
	if info, ok := debug.ReadBuildInfo(); ok && info.Main.Version != "" {
		return info.Main.Version
	}
	return "unknown"
}
