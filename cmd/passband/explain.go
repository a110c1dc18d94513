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

// What explain calls the form of a plan, and that of a layout; no rule is called so.
const (
	planForm   = "plan"
	layoutForm = "layout"
)

func newExplain(a *app) *cobra.Command {
	cmd := &cobra.Command{
		Use:   "explain [RULE | plan | layout]",
		Short: "Show a rule, the list of rules, or the form of a plan",
		Long: `Explain shows the page of a rule: what is wrong, why it matters, what to do,
what it rests on, and an example that fails and one that passes. Without a rule
it lists them all, the worst first. "passband explain plan" shows what may stand
in the files of a plan, and what it means; "passband explain layout" how a club
says what the columns of its tables are.`,
		Example: "  passband explain\n  passband explain off-band\n  passband explain plan",
		Args:    atMost(1, "one rule"),
		ValidArgsFunction: func(_ *cobra.Command, args []string, typed string) ([]string, cobra.ShellCompDirective) {
			if len(args) > 0 {
				return nil, cobra.ShellCompDirectiveNoFileComp
			}
			return beginning(append(ruleIDs(), planForm, layoutForm), typed), cobra.ShellCompDirectiveNoFileComp
		},
		RunE: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 {
				return a.listRules()
			}
			switch args[0] {
			case planForm:
				return a.write(report.Manual(), report.ManualJSON)
			case layoutForm:
				return a.write(report.LayoutManual(), report.LayoutManualJSON)
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
