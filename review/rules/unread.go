package rules

import "passband.example/plandiff/plan"

// unread reports whether part of what makes the channel what it is could not be read.
func unread(p *plan.Plan, c *plan.Channel) bool {
	if c.Repeater != nil && c.Repeater.Partly() {
		return true
	}
	if c.Spec == nil {
		return false
	}
	direct, ok := p.Channels.Find(c.Path) // whose frequency a channel with a path may take
	return c.Spec.Partly() || ok && direct.Partly()
}
