package main

import (
	"fmt"
	"io"

	"github.com/spf13/cobra"
	"passband.example/plandiff/plan"
	"passband.example/review"
	"passband.example/review/report"
	"passband.example/review/rules"
)

func newExplain(a *app) *cobra.Command {
	cmd := &cobra.Command{
		Use:     "explain [RULE]",
		Short:   "Show the page of a rule: what, why, what to do, and an example; or list all rules",
		Example: "  passband explain\n  passband explain off-band",
		Args:    cobra.MaximumNArgs(1),
		ValidArgsFunction: func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
			return ruleIDs(), cobra.ShellCompDirectiveNoFileComp
		},
		RunE: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 {
				return a.listRules()
			}
			r, ok := rules.Find(args[0])
			if !ok {
				return unknownRule(args[0])
			}
			return a.explain(r)
		},
	}
	addForms(cmd, &a.form)
	return cmd
}

func (a *app) listRules() error {
	page, err := report.Rules(rules.All())
	if err != nil {
		return err
	}
	return a.write(page, func(w io.Writer) error { return report.RulesJSON(w, rules.All()) })
}

func (a *app) explain(r *review.Rule) error {
	page, err := report.Explain(r)
	if err != nil {
		return err
	}
	return a.write(page, func(w io.Writer) error { return report.ExplainJSON(w, r) })
}

func unknownRule(id string) error {
	if near := plan.Nearest(id, ruleIDs()); near != "" {
		return fmt.Errorf("there is no rule %q; did you mean %s?", id, near)
	}
	return fmt.Errorf("there is no rule %q; \"passband explain\" lists them", id)
}

func ruleIDs() []string {
	var ids []string
	for _, r := range rules.All() {
		ids = append(ids, r.ID)
	}
	return ids
}
