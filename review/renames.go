package review

import (
	"fmt"

	"passband.example/plandiff"
	"passband.example/plandiff/plan"
)

// WasUnheeded names the rule about renames that are stated and count for nothing. It is judged
// here, since it needs the plan before the change.
const WasUnheeded = "was-unheeded"

// A statement is what a record says of its key before the change.
type statement struct {
	record plan.Record
	was    plan.Item
}

// renamesStated gives what the records of a plan say of their keys before.
func renamesStated(p *plan.Plan) []statement {
	var all []statement
	for _, s := range plan.Sections() {
		f := s.Field(plan.FieldWas)
		if f == nil {
			continue
		}
		for _, r := range s.All(p) {
			if items := f.Items(r); len(items) > 0 {
				all = append(all, statement{r, items[0]})
			}
		}
	}
	return all
}

// renames reports each stated rename that counts for nothing, as why tells.
func (j *judge) renames(v *Verdict, p *plan.Plan, why func(statement) string) {
	if v.Skipped != "" {
		return
	}
	for _, s := range renamesStated(p) {
		reason := why(s)
		if reason == "" {
			continue
		}
		j.add(v, WasUnheeded, Finding{
			At: s.was.At, About: []plan.Thing{s.record.Thing()},
			What:   fmt.Sprintf("%s says that it was %s, and %s", s.record.Thing(), s.was.Text, reason),
			Why:    "it counts for nothing, and would mislead a later change that has such a key",
			Fix:    "after the merge take the line out; before it, write the key that the record has in the plan that the change starts from",
			Source: "the keys of the plan before and after the change",
		})
	}
}

// stillThere says that a key which a record says it had is that of another.
func stillThere(p *plan.Plan) func(statement) string {
	return func(s statement) string {
		if _, there := p.Find(plan.Thing{Kind: s.record.Thing().Kind, Key: s.was.Text}); there {
			return "the plan still has that key"
		}
		return ""
	}
}

// merged says of any rename in the plan before a change that it has been made.
func merged(statement) string { return "the rename is made" }

// unheeded says why a comparison did not heed a stated rename, if it did not.
func unheeded(c *plandiff.Comparison) func(statement) string {
	still := stillThere(c.New.Plan)
	return func(s statement) string {
		thing := s.record.Thing()
		was := plan.Thing{Kind: thing.Kind, Key: s.was.Text}
		if c.Renames[was] == thing.Key {
			return ""
		}
		if reason := still(s); reason != "" {
			return reason
		}
		if _, there := c.Old.Plan.Find(was); !there {
			return "the plan before the change has no such key"
		}
		if now, renamed := c.Renames[was]; renamed {
			return fmt.Sprintf("that one is %s now", now)
		}
		if _, there := c.Old.Plan.Find(thing); there {
			return fmt.Sprintf("the plan before the change has %s too", thing.Key)
		}
		return fmt.Sprintf("the plan before the change already refers to %s", thing.Key)
	}
}
