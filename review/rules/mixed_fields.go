package rules

import (
	_ "embed"
	"fmt"
	"strings"

	"passband.example/plandiff/plan"
	"passband.example/review"
)

//go:embed mixed_fields.md
var mixedFieldsDoc string

// MixedFields reports a channel that says what its mode, or its talk path, has no
// use for.
var MixedFields = &review.Rule{
	ID:       "mixed-fields",
	Severity: review.Block, // the plan says one thing and the radio does another
	Edition:  2026,
	Doc:      mixedFieldsDoc,
	Run:      mixedFields,
}

func mixedFields(p *review.Pass) {
	m := mixing{
		all: map[plan.Mode][]*plan.Field{
			plan.ModeFM:  fieldsNamed(plan.KindChannel, "fm", "fm.tone.send", "fm.tone.receive", "fm.width", "fm.access"),
			plan.ModeDMR: fieldsNamed(plan.KindChannel, "dmr", "dmr.color_code", "dmr.slot", "dmr.group", "dmr.receive_list", "dmr.access", "dmr.privacy"),
		},
		facts: map[plan.Mode][]*plan.Field{
			plan.ModeFM:  fieldsNamed(plan.KindChannel, "fm.tone.send", "fm.tone.receive", "fm.width"),
			plan.ModeDMR: fieldsNamed(plan.KindChannel, "dmr.color_code", "dmr.slot", "dmr.group"),
		},
	}
	for _, c := range p.Plan.Channels.All() {
		switch {
		case c.Simplex.Written() || c.Receive.Written():
			if c.FM.Present.IsSet() && c.DMR.Present.IsSet() {
				p.Report(both(c))
			}
		case c.Path.IsSet():
			if on, ok := p.Expansion.Find(c.Key.V); ok && on.Spec == c {
				m.onPath(p, c, on)
			}
		}
	}
}

// A mixing knows which fields belong to which mode, and which of them are facts of a talk path.
type mixing struct{ all, facts map[plan.Mode][]*plan.Field }

// both is the finding for a channel that is to be FM and DMR at once.
func both(c *plan.ChannelSpec) review.Finding {
	return review.Finding{
		At: c.DMR.Present.At, About: []plan.Thing{c.Thing()}, Values: []string{"fm", "dmr"},
		What:   fmt.Sprintf("%s is FM and DMR at once", c.Thing()),
		Why:    "a channel sends one way, and which of the two a radio would be loaded with is a guess",
		Fix:    "keep one of them, or make two channels",
		Source: "the plan's own text",
		Also:   []review.Related{{At: c.FM.Present.At, Text: "fm stands here"}},
	}
}

// onPath judges a channel of a talk path: on is what became of it.
func (m mixing) onPath(p *review.Pass, c *plan.ChannelSpec, on *plan.Channel) {
	other := plan.ModeDMR
	if on.Mode == plan.ModeDMR {
		other = plan.ModeFM
	}
	if said := stated(c, m.all[other]); len(said) > 0 {
		p.Report(idle(c, said, fmt.Sprintf("%s has %s, and its talk path %s is %s", c.Thing(), other, c.Path.V, strings.ToUpper(string(on.Mode))),
			"take it out, or name another talk path"))
	}
	if repeated := stated(c, m.facts[on.Mode]); len(repeated) > 0 {
		p.Report(idle(c, repeated, fmt.Sprintf("%s says %s, which its talk path %s decides", c.Thing(), several(texts(repeated)), c.Path.V),
			"take it out; to change it, change the repeater or the channel that the path names"))
	}
}

// idle is the finding for fields that no radio is loaded with.
func idle(c *plan.ChannelSpec, said []plan.Item, what, fix string) review.Finding {
	return review.Finding{
		At: said[0].At, About: []plan.Thing{c.Thing()}, Values: texts(said),
		What: what, Fix: fix,
		Why:    "no radio is loaded with it, so the plan says one thing and members get another",
		Source: "the plan's own text: a channel with a path may say receive_list, access and privacy, and no other fact of the signal",
		Also:   places(said[1:]),
	}
}
