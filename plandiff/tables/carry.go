package tables

import (
	"fmt"

	"passband.example/plandiff"
	"passband.example/plandiff/plan"
	"passband.example/plandiff/rewrite"
)

// New gives a plan with a name and nothing else, for tables that come before any plan.
func New(name string) (*plan.Expansion, error) {
	files := map[string][]byte{plan.RootFile: fmt.Appendf(nil, "plan: %q\nedition: %d\n", name, plan.FirstEdition)}
	p, err := rewrite.Load(files)
	if err != nil {
		return nil, err
	}
	if len(p.Problems) > 0 {
		return nil, fmt.Errorf("%q cannot be the name of a plan: %w", clip(name), p.Problems[0])
	}
	return plan.Expand(p), nil
}

// Carry puts the plan of an import into the files of the plan x that it was made of, and
// gives the files whose text is another one now, with the plan as it is read from all.
// Without files it is written anew. On an error there are no files.
func Carry(files map[string][]byte, x *plan.Expansion, in *Import) (texts map[string][]byte, after *plan.Expansion, err error) {
	changes := plandiff.CompareRecords(x.Plan, in.Plan).Changes
	all := make(map[string][]byte, len(files))
	for name, text := range files {
		all[name] = text
	}
	if len(files) == 0 {
		texts, err = plan.Files(in.Plan)
	} else {
		texts, err = rewrite.Apply(files, x.Plan, changes)
	}
	if err != nil {
		return nil, nil, err
	}
	for name, text := range texts {
		all[name] = text
	}
	p, err := rewrite.Load(all)
	if err != nil {
		return nil, nil, err
	}
	if len(p.Problems) > 0 {
		return nil, nil, fmt.Errorf("what the tables say cannot be written so that it is read back (%w); change the plan by hand", p.Problems[0])
	}
	after = plan.Expand(p)
	if c := plandiff.Compare(plan.Expand(in.Plan), after); !c.Empty() {
		return nil, nil, fmt.Errorf("what the tables say cannot be written so that it is read back: %s differs; change the plan by hand", c.Changes[0].Thing)
	}
	return texts, after, nil
}
