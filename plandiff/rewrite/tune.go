package rewrite

import (
	"passband.example/plandiff/plan"
	"passband.example/plandiff/rewrite/layout"
)

// tune writes output, input and split of a repeater. Where it says a split, the
// split stays if the new input follows from it, and is another one if it does
// not; where it says an input, that is written.
func (t *target) tune() error {
	now := t.now.(*plan.Repeater)
	if err := t.put("output", t.s.Field("output").Texts(now, nil)); err != nil {
		return err
	}
	input := t.s.Field("input").Texts(now, nil)
	if odd := t.s.Field("split").Texts(now, nil); len(odd) > 0 { // a split that the input contradicts, or without an output
		if now.Input.IsSet() || t.has("input") != nil || len(input) > 0 {
			if err := t.put("input", input); err != nil {
				return err
			}
		}
		return t.put("split", odd)
	}
	split, can := splitOf(now)
	hasSplit, hasInput := t.has("split") != nil, t.has("input") != nil
	if !hasSplit && !hasInput {
		hasSplit = can && t.style().split
	}
	if len(input) == 0 || !can {
		hasSplit = false
	}
	if !hasSplit || hasInput {
		if err := t.put("input", input); err != nil {
			return err
		}
	}
	if !hasSplit {
		return t.drop("split")
	}
	return t.put("split", []string{split})
}

// put gives a key its text, unless it says so already.
func (t *target) put(name string, texts []string) error {
	f := t.s.Field(name)
	in, e := below(t.spot.entry, name)
	switch {
	case len(texts) == 0:
		return t.drop(name)
	case e == nil:
		return t.insert(name, texts[0])
	case saysAlready(f, t.old, e, texts[0]):
		return nil
	}
	return t.setScalar(in, e, texts[0])
}

// saysAlready reports whether an entry means a text, in whatever spelling.
func saysAlready(f *plan.Field, like plan.Record, e *layout.Entry, text string) bool {
	a, err := plan.NewRecord(like.Thing())
	if err != nil || e.Value.Kind != layout.Scalar || f.Set(a, []string{e.Value.Value}) != nil {
		return false
	}
	b, _ := plan.NewRecord(like.Thing())
	if f.Set(b, []string{text}) != nil {
		return false
	}
	x, y := f.Texts(a, nil), f.Texts(b, nil)
	return len(x) == 1 && len(y) == 1 && x[0] == y[0]
}

// insert puts a key with a scalar into the record itself.
func (t *target) insert(key, text string) error {
	owner := t.spot.entry
	opened(owner)
	if owner.Value.Kind != layout.Mapping || owner.Value.Locked {
		return t.lockedIn(owner)
	}
	in := owner.Value
	in.Insert(t.place(in, "", key), in.NewEntry(key, layout.NewScalar(text, in.Flow)))
	return nil
}

// tone writes the tones of the FM side: one value where only what is sent is said.
func (t *target) tone() error {
	send, receive := t.s.Field("fm.tone.send").Texts(t.now, nil), t.s.Field("fm.tone.receive").Texts(t.now, nil)
	if len(send)+len(receive) == 0 {
		return t.drop("fm.tone")
	}
	in, e := below(t.spot.entry, "fm.tone")
	switch {
	case e == nil:
		return t.grow("fm.tone")
	case e.Value.Locked:
		return t.lockedIn(e)
	case e.Value.Kind == layout.Scalar && len(receive) == 0:
		return t.setScalar(in, e, send[0])
	case e.Value.Kind == layout.Scalar:
		e.Value = writer{s: t.s, r: t.now, style: style{block: map[string]bool{}}}.block(in, "fm.tone")
		return nil
	}
	for i, texts := range [][]string{send, receive} {
		key := []string{"send", "receive"}[i]
		old := t.s.Field("fm.tone."+key).Texts(t.old, nil)
		if len(texts) == 1 && len(old) == 1 && texts[0] == old[0] {
			continue
		}
		if err := t.toneKey(key, texts); err != nil {
			return err
		}
	}
	return nil
}

func (t *target) toneKey(key string, texts []string) error {
	in, e := below(t.spot.entry, "fm.tone."+key)
	switch {
	case len(texts) == 0:
		return t.drop("fm.tone." + key)
	case e == nil:
		return t.grow("fm.tone." + key)
	}
	return t.setScalar(in, e, texts[0])
}
