package rules

import (
	"slices"

	"passband.example/plandiff/plan"
)

// fitsOf gives what the classes of radio hold that can be judged: all but those
// whose bands, modes or zones could not be read, or name a zone that there is not.
func fitsOf(x *plan.Expansion) []*plan.Fit {
	if !x.Overflow.IsZero() {
		return nil // the zones are not worked out to their end
	}
	unsure := make(map[plan.Thing]bool)
	for _, u := range x.Unresolved {
		unsure[u.From] = true
	}
	var fits []*plan.Fit
	for _, f := range x.Fits {
		r := f.Radio
		if !unsure[r.Thing()] && !anyBad(r.Bands) && !anyBad(r.Modes) && !anyBad(r.Zones) {
			fits = append(fits, f)
		}
	}
	return fits
}

func anyBad[T any](values []plan.Value[T]) bool {
	return slices.ContainsFunc(values, func(v plan.Value[T]) bool { return v.Bad })
}

// reasons gives why a radio cannot use the channels that it leaves out.
func reasons(f *plan.Fit) map[*plan.Channel]string {
	why := make(map[*plan.Channel]string, len(f.LeftOut))
	for _, l := range f.LeftOut {
		why[l.Channel] = l.Why
	}
	return why
}

// carriesAny reports whether a zone with channels is among those that the radio carries.
func carriesAny(x *plan.Expansion, f *plan.Fit) bool {
	return slices.ContainsFunc(x.Zones, func(z *plan.ZoneChannels) bool { return len(z.Members) > 0 && f.Carries(z.Zone) })
}
