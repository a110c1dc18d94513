package rules_test

import (
	"slices"
	"testing"

	"passband.example/review/rules"
)

// TestStatedRenames judges changes of a plan, and wants each stated rename told that counts for
// nothing, and whether it was there before.
func TestStatedRenames(t *testing.T) {
	const (
		ridge = "repeaters:\n  ridge: {output: 146.94, split: -0.6, fm: {}}\n"
		knob  = "  knob: {output: 147.33, split: +0.6, fm: {}}\n"
	)
	for _, c := range []struct {
		name, why string
		old, new  string
		want      []string
		gone      int
	}{
		{"heeded", "the change is told as a rename", ridge, "repeaters:\n  rock: {was: ridge, output: 53.05, split: -1, fm: {}}\n", nil, 0},
		{"heeded and alike", "it would be one without it too", ridge, "repeaters:\n  rock: {was: ridge, output: 146.94, split: -0.6, fm: {}}\n", nil, 0},
		{"still there", "nothing was renamed", ridge, ridge + "  rock: {was: ridge, output: 53.05, split: -1, fm: {}}\n",
			[]string{"new: repeater rock says that it was ridge, and the plan still has that key"}, 0},
		{"never there", "a slip of the key", ridge, "repeaters:\n  rock: {was: rigde, output: 146.94, split: -0.6, fm: {}}\n",
			[]string{"new: repeater rock says that it was rigde, and the plan before the change has no such key"}, 0},
		{"stated twice", "one of them alone can have been it", ridge, "repeaters:\n  cliff: {was: ridge, output: 53.05, split: -1, fm: {}}\n  rock: {was: ridge, output: 146.94, split: -0.6, fm: {}}\n",
			[]string{"new: repeater rock says that it was ridge, and that one is cliff now"}, 0},
		{"both there before", "the one has gone, and the other has been another all along", ridge + knob, "repeaters:\n  knob: {was: ridge, output: 147.33, split: +0.6, fm: {}}\n",
			[]string{"new: repeater knob says that it was ridge, and the plan before the change has knob too"}, 0},
		{"referred to before", "a zone of the old plan names the new key, which follows from nothing", ridge + "zones: {z: {channels: [rock/fm]}}\n", "repeaters:\n  rock: {was: ridge, output: 146.94, split: -0.6, fm: {}}\nzones: {z: {channels: [rock/fm]}}\n",
			[]string{"new: repeater rock says that it was ridge, and the plan before the change already refers to rock"}, 0},
		{"left standing", "who changes something else is not blamed for it", "repeaters:\n  rock: {was: ridge, output: 146.94, split: -0.6, fm: {}}\n", "repeaters:\n  rock: {was: ridge, output: 146.94, split: -0.6, fm: {tone: 100.0}}\n",
			[]string{"still there: repeater rock says that it was ridge, and the plan before the change has no such key"}, 0},
		{"taken out", "as it should be after the merge", "repeaters:\n  rock: {was: ridge, output: 146.94, split: -0.6, fm: {}}\n", "repeaters:\n  rock: {output: 146.94, split: -0.6, fm: {}}\n", nil, 1},
	} {
		t.Run(c.name, func(t *testing.T) {
			old, now := load(t, map[string]string{"plan.yaml": header + c.old}), load(t, map[string]string{"plan.yaml": header + c.new})
			v := judgeChange(t, only(rules.WasUnheeded.ID), old, now)
			var got []string
			for _, f := range v.Findings {
				got = append(got, f.Standing.String()+": "+f.What)
			}
			if !slices.Equal(got, c.want) || len(v.Gone) != c.gone {
				t.Errorf("%s: got %q and %d gone, want %q and %d", c.why, got, len(v.Gone), c.want, c.gone)
			}
		})
	}
}
