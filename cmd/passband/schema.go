package main

import (
	"github.com/spf13/cobra"
	"passband.example/plandiff/plan"
)

func newSchema(a *app) *cobra.Command {
	return &cobra.Command{
		Use:   "schema",
		Short: "Write the JSON Schema of plan files, for editors",
		Long: `Schema writes the form of the YAML files of a plan as a JSON Schema (draft-07), by
which an editor with a language server for YAML completes keys, shows what they
are for, and marks what is wrong as you type.

"passband start" puts it beside plan.yaml. For a plan that is there already, put it
in the folder and this line at the head of each file; in a folder below, with ../
before the name of the schema:

  ` + plan.SchemaLine + `

What only a whole plan can tell, such as a key that two files have, is found by
passband check.`,
		Example: "  passband schema > " + plan.SchemaFile,
		Args:    cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error {
			_, err := a.stdout.Write(plan.JSONSchema())
			return written(err)
		},
	}
}
