package plantest

import (
	"slices"
	"strings"

	"passband.example/plandiff/plan"
	"pgregory.net/rapid"
)

// Edit draws a variant of a plan with one to six edits: fields changed or taken
// away, records added, removed, renamed or moved, lists reordered. The plan
// itself stays as it is.
func Edit(t *rapid.T, p *plan.Plan) *plan.Plan {
	d := &draft{keys: make(map[plan.Kind][]string)}
	for _, s := range plan.Sections() {
		for _, r := range s.All(p) {
			d.put(plan.Clone(r))
			if s.HasOwnKeys() {
				d.keys[s.Kind] = append(d.keys[s.Kind], r.Thing().Key)
			}
		}
	}
	edits := []func(*rapid.T){d.change, d.change, d.change, d.add, d.remove, d.rename, d.rename, d.move, d.reorder}
	for range rapid.IntRange(1, 6).Draw(t, "edits") {
		edits[rapid.IntRange(0, len(edits)-1).Draw(t, "edit")](t)
	}
	return d.plan(t)
}

func (d *draft) pick(t *rapid.T) int {
	return rapid.IntRange(0, len(d.records)-1).Draw(t, "record")
}

// change gives a field another value, or none.
func (d *draft) change(t *rapid.T) {
	r := d.records[d.pick(t)]
	s := plan.SectionOf(r.Thing().Kind)
	f := &s.Fields[rapid.IntRange(0, len(s.Fields)-1).Draw(t, "field")]
	if required(s.Kind, f.Name) || rapid.Bool().Draw(t, "another value") {
		d.fill(t, s, f, r)
		return
	}
	for i := range s.Fields {
		if sub := &s.Fields[i]; sub == f || f.Form == plan.Flag && strings.HasPrefix(sub.Name, f.Name+".") {
			if err := sub.Set(r, nil); err != nil {
				t.Fatalf("%s: %s cannot be taken away: %v", r.Thing(), sub.Name, err)
			}
		}
	}
}

// add puts in a record with a new key.
func (d *draft) add(t *rapid.T) {
	sections := plan.Sections()[1:]
	s := sections[rapid.IntRange(0, len(sections)-1).Draw(t, "section")]
	key := ""
	if s.HasOwnKeys() {
		key = keyOf(s.Kind).Draw(t, "key")
		if slices.Contains(d.keys[s.Kind], key) {
			return
		}
		d.keys[s.Kind] = append(d.keys[s.Kind], key)
	}
	d.put(d.record(t, s, key))
}

func (d *draft) remove(t *rapid.T) {
	i := d.pick(t)
	thing := d.records[i].Thing()
	if thing.Kind == plan.KindPlan {
		return
	}
	d.records = slices.Delete(d.records, i, i+1)
	d.keys[thing.Kind] = slices.DeleteFunc(d.keys[thing.Kind], func(key string) bool { return key == thing.Key })
}

// rename gives a record another key. References to it mostly follow.
func (d *draft) rename(t *rapid.T) {
	i := d.pick(t)
	old := d.records[i].Thing()
	if !plan.SectionOf(old.Kind).HasOwnKeys() {
		return
	}
	key := keyOf(old.Kind).Draw(t, "key")
	if slices.Contains(d.keys[old.Kind], key) {
		return
	}
	d.records[i] = rekey(t, d.records[i], key)
	d.keys[old.Kind][slices.Index(d.keys[old.Kind], old.Key)] = key
	if rapid.IntRange(0, 4).Draw(t, "references stay") > 0 {
		d.follow(t, plan.Renames{old: key})
	}
}

// follow writes all references in the new keys.
func (d *draft) follow(t *rapid.T, names plan.Renames) {
	for _, r := range d.records {
		s := plan.SectionOf(r.Thing().Kind)
		for i := range s.Fields {
			f := &s.Fields[i]
			if texts := f.Texts(r, names); f.Ref != plan.NoRef && len(texts) > 0 {
				if err := f.Set(r, texts); err != nil {
					t.Fatalf("%s: %s after a rename: %v", r.Thing(), f.Name, err)
				}
			}
		}
	}
}

// move puts a record at another place in the file, which means nothing.
func (d *draft) move(t *rapid.T) {
	i, j := d.pick(t), d.pick(t)
	d.records[i], d.records[j] = d.records[j], d.records[i]
}

// reorder shuffles the values of a list.
func (d *draft) reorder(t *rapid.T) {
	r := d.records[d.pick(t)]
	s := plan.SectionOf(r.Thing().Kind)
	for i := range s.Fields {
		f := &s.Fields[i]
		texts := f.Texts(r, nil)
		if f.Form != plan.List && f.Form != plan.Set || len(texts) < 2 {
			continue
		}
		if err := f.Set(r, rapid.Permutation(texts).Draw(t, f.Name)); err != nil {
			t.Fatalf("%s: %s in another order: %v", r.Thing(), f.Name, err)
		}
	}
}
