package rules

import (
	"passband.example/plandiff/plan"
)

// inZones gives the channels that some zone holds, and those that a mistyped
// entry of a zone most likely meant: another rule tells of that entry.
func inZones(x *plan.Expansion) map[*plan.Channel]bool {
	in := make(map[*plan.Channel]bool, len(x.Channels))
	for _, z := range x.Zones {
		for _, m := range z.Members {
			in[m.Channel] = true
		}
	}
	for _, u := range x.Unresolved {
		if u.From.Kind != plan.KindZone || u.Near == "" {
			continue
		}
		if c, ok := x.Find(u.Near); ok {
			in[c] = true
		}
		for _, c := range x.OnPath(u.Near) {
			in[c] = true
		}
	}
	return in
}
