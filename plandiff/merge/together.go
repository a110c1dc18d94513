package merge

import (
	"fmt"
	"maps"
	"slices"

	"passband.example/plandiff"
	"passband.example/plandiff/plan"
)

// Together tells what is wrong with a plan that came out of two, though it is with
// neither of them: see Result.After. The error is an *Unreadable where one of the
// three cannot be read.
func Together(ours, theirs, merged Files) ([]string, error) {
	shelf := make(shelf)
	var tips [3]tip
	for i, v := range []struct {
		name  string
		files Files
	}{{"ours", ours}, {"theirs", theirs}, {"the merged plan", merged}} {
		var err error
		if tips[i], err = shelf.tip(v.name, v.files); err != nil {
			return nil, err
		}
	}
	o, t, m := tips[0].plan, tips[1].plan, tips[2].plan
	return append(sameIDs(o, t, m), astrayTogether(o, t, m)...), nil
}

// astrayTogether tells of references that lead nowhere or back to themselves, and of
// memories that are too small, since both sides came together.
func astrayTogether(ours, theirs, merged *plan.Plan) []string {
	now := plan.Expand(merged)
	if len(now.Unresolved)+len(now.Cycles)+len(crossed(now)) == 0 {
		return nil
	}
	o, t := plan.Expand(ours), plan.Expand(theirs)
	all := dangling(known(o, now), known(t, now), now)
	all = append(all, circles(o, t, now)...)
	return append(all, overfull(o, t, now)...)
}

// known gives the references of one side that lead nowhere, in its own keys and in
// those of the merged plan.
func known(side, merged *plan.Expansion) map[string]bool {
	all := make(map[string]bool)
	renames := plandiff.CompareRecords(side.Plan, merged.Plan).Renames
	for _, u := range side.Unresolved {
		all[astray(u)] = true
		if len(renames) == 0 {
			continue
		}
		u.From.Key = renames.Key(u.From.Kind, u.From.Key)
		text := u.Text
		for _, ref := range []plan.Ref{plan.RefGroup, plan.RefReceiveList, plan.RefScanList, plan.RefZone, plan.RefEntry} {
			u.Text = renames.Translate(ref, text)
			all[astray(u)] = true
		}
	}
	return all
}

// astray tells of a reference that leads nowhere.
func astray(u plan.Unresolved) string {
	return fmt.Sprintf("%s refers to the %s %q", u.From, u.Kind, u.Text)
}

// Names gives the names of all files of several plans, sorted.
func Names(plans ...Files) []string {
	all := make(map[string]bool)
	for _, files := range plans {
		for name := range files {
			all[name] = true
		}
	}
	return slices.Sorted(maps.Keys(all))
}

// Version tells files with other texts apart, and those that are not there.
func (f Files) Version(name string) string {
	text, there := f[name]
	if !there {
		return ""
	}
	return "=" + string(text)
}
