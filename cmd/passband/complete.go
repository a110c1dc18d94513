package main

import (
	"strings"

	"github.com/spf13/cobra"
	"passband.example/plandiff/history"
	"passband.example/review/report"
)

// A completion is what a shell asks for while somebody types. It is quick, and
// what goes wrong is not said: the command itself will say it.
type completion = func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective)

// completeRevisions offers the branches and tags for up to n words; the shell adds
// the folders.
func (a *app) completeRevisions(n int) completion {
	return func(cmd *cobra.Command, args []string, typed string) ([]string, cobra.ShellCompDirective) {
		if len(args) >= n {
			return nil, cobra.ShellCompDirectiveNoFileComp
		}
		sides, err := history.At(cmd.Context(), a.plan)
		if err != nil {
			return nil, cobra.ShellCompDirectiveDefault
		}
		defer sides.Close()
		return beginning(sides.Revisions(cmd.Context()), typed), cobra.ShellCompDirectiveDefault
	}
}

// completeThings offers what show can explain.
func (a *app) completeThings(cmd *cobra.Command, args []string, typed string) ([]string, cobra.ShellCompDirective) {
	if len(args) > 1 {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	var names []string
	if at := cmd.Flag("at").Value.String(); at != "" {
		names = []string{at}
	}
	d, err := a.one(cmd.Context(), names, a.load)
	if err != nil {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	return beginning(report.Names(d.Expansion), typed), cobra.ShellCompDirectiveNoFileComp
}

// beginning keeps the names that begin with what was typed. A name with a
// character that a shell or its completion script would read as something else
// is left out: plans and branches are anybody's text.
func beginning(names []string, typed string) []string {
	var kept []string
	for _, name := range names {
		if strings.HasPrefix(name, typed) && quoted(name) == name {
			kept = append(kept, name)
		}
	}
	return kept
}
