package merge

import (
	"maps"

	"passband.example/plandiff"
	"passband.example/plandiff/plan"
	"passband.example/plandiff/rewrite"
)

// evenKeys gives the records that a side renamed their new keys in all three plans,
// so that a key means the same record everywhere. It tells of records that have two
// new keys.
func (w *work) evenKeys(prefer side) ([]Conflict, error) {
	ours, theirs := w.made[0].Renames, w.made[1].Renames
	w.even = [3]tip{w.base, w.ours, w.theirs}
	if len(ours)+len(theirs) == 0 {
		return nil, nil
	}
	final := maps.Clone(ours)
	var conflicts []Conflict
	for thing, key := range theirs {
		if mine, both := ours[thing]; both && mine != key {
			conflicts = append(conflicts, twoKeys(w, thing, mine, key))
			if prefer == ourSide {
				continue
			}
		}
		final[thing] = key
	}
	w.dropTaken(final, ours, theirs)
	for i, has := range []plan.Renames{{}, ours, theirs} {
		even, err := w.renamed(w.even[i], has, final)
		if err != nil {
			return nil, err
		}
		w.even[i] = even
	}
	sortConflicts(conflicts)
	return conflicts, nil
}

func twoKeys(w *work, thing plan.Thing, ours, theirs string) Conflict {
	at := func(p *plan.Plan, key string) plan.Place {
		if r, ok := p.Find(plan.Thing{Kind: thing.Kind, Key: key}); ok {
			return r.Place()
		}
		return plan.Place{}
	}
	return Conflict{
		Thing: thing, Field: "key",
		Ours:   Version{"calls it " + ours, at(w.ours.plan, ours)},
		Theirs: Version{"calls it " + theirs, at(w.theirs.plan, theirs)},
	}
}

// dropTaken leaves out a new key that another record has in one of the plans: then
// the two keys stay what they are, and the records with the same key are merged.
func (w *work) dropTaken(final, ours, theirs plan.Renames) {
	heirs := make(map[plan.Thing]int, len(final)) // how many records get a key
	for thing, key := range final {
		heirs[plan.Thing{Kind: thing.Kind, Key: key}]++
	}
	for again := true; again; {
		again = false
		for thing, key := range final {
			now := plan.Thing{Kind: thing.Kind, Key: key}
			if heirs[now] > 1 || w.isTaken(thing, now, final, ours, theirs) {
				delete(final, thing)
				heirs[now]--
				again = true
			}
		}
	}
}

func (w *work) isTaken(thing, now plan.Thing, final, ours, theirs plan.Renames) bool {
	for i, has := range []plan.Renames{{}, ours, theirs} {
		if _, there := w.even[i].plan.Find(now); !there || has[thing] == now.Key {
			continue
		}
		if next, moves := final[now]; !moves || next == now.Key {
			return true
		}
	}
	return false
}

// renamed gives a plan the final keys; has tells which keys it already has.
func (w *work) renamed(v tip, has, final plan.Renames) (tip, error) {
	var changes []plandiff.Change
	for thing, key := range final {
		was := plan.Thing{Kind: thing.Kind, Key: has.Key(thing.Kind, thing.Key)}
		if _, there := v.plan.Find(was); !there || was.Key == key {
			continue
		}
		changes = append(changes, plandiff.Change{Op: plandiff.Renamed, Was: was, Thing: plan.Thing{Kind: thing.Kind, Key: key}})
	}
	if len(changes) == 0 {
		return v, nil
	}
	texts, err := rewrite.Apply(v.files, v.plan, changes)
	if err != nil {
		return tip{}, err
	}
	files := maps.Clone(v.files)
	maps.Copy(files, texts)
	return w.shelf.tip("the renamed plan", files)
}

// evened gives what ours and theirs made of the base, under the same keys.
func (w *work) evened() (ours, theirs *plandiff.Comparison) {
	made := w.made
	for i, side := range []tip{w.ours, w.theirs} {
		if even := w.even[i+1].plan; w.even[0].plan != w.base.plan || even != side.plan {
			made[i] = plandiff.CompareRecords(w.even[0].plan, even)
		}
	}
	return made[0], made[1]
}
