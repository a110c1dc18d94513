package rewrite

import (
	"strings"

	"passband.example/plandiff"
	"passband.example/plandiff/plan"
	"passband.example/plandiff/rewrite/layout"
)

// A target is a record that is being changed: what it was, what it will be, and
// where it stands.
type target struct {
	e        *editor
	s        *plan.Section
	old, now plan.Record
	spot     spot
	grown    []string // the paths that were put in, with all below them
}

// change gives the fields of records that stay their new values.
func (e *editor) change() error {
	for _, c := range e.changes {
		if c.Op != plandiff.Changed {
			continue
		}
		old, ok := e.old.Find(c.Was)
		if !ok {
			return missing(c)
		}
		if file, _ := plan.SectionOf(c.Was.Kind).Table(); file != "" {
			if err := e.tables[old.Place().File].change(old, c.Edits); err != nil {
				return err
			}
			continue
		}
		s, err := e.record(old)
		if err != nil {
			return err
		}
		now, ok := e.want.Find(c.Thing)
		if !ok {
			return missing(c)
		}
		t := &target{e: e, s: plan.SectionOf(c.Was.Kind), old: old, now: now, spot: s}
		if err := t.apply(c.Edits); err != nil {
			return err
		}
		t.tree().absent.see(s.in, s.entry)
	}
	return nil
}

func (t *target) apply(edits []plandiff.Edit) error {
	if isValue(t.s) {
		return t.setScalar(t.spot.in, t.spot.entry, edits[0].New[0])
	}
	if v := t.spot.entry.Value; v.Kind != layout.Mapping && !v.IsEmpty() && v.Text != "~" && v.Text != "null" {
		return lockedAt(t.old.Place())
	}
	var tuned, toned bool
	for _, edit := range edits {
		switch name := edit.Field; {
		case t.s.Kind == plan.KindRepeater && (name == "output" || name == "input" || name == "split"):
			tuned = true
		case strings.HasPrefix(name, "fm.tone."):
			toned = true
		default:
			if err := t.field(edit); err != nil {
				return err
			}
		}
	}
	if tuned {
		if err := t.tune(); err != nil {
			return err
		}
	}
	if toned {
		return t.tone()
	}
	return nil
}

// field gives one field its new value.
func (t *target) field(edit plandiff.Edit) error {
	f := t.s.Field(edit.Field)
	block, _, nested := cutLast(f.Name)
	switch {
	case t.isGrown(f.Name):
		return nil
	case len(edit.New) == 0:
		return t.drop(f.Name)
	case nested && t.has(block) == nil:
		return t.grow(block) // with all that it will hold
	case t.has(f.Name) == nil:
		return t.grow(f.Name)
	case f.Form == plan.Flag:
		return nil
	case f.Form == plan.Scalar:
		in, entry := below(t.spot.entry, f.Name)
		return t.setScalar(in, entry, edit.New[0])
	}
	return t.setList(f)
}

// cutLast parts a path of keys at its last point.
func cutLast(path string) (block, key string, nested bool) {
	if i := strings.LastIndexByte(path, '.'); i >= 0 {
		return path[:i], path[i+1:], true
	}
	return "", path, false
}

func (t *target) has(path string) *layout.Entry {
	_, e := below(t.spot.entry, path)
	return e
}

// setScalar gives an entry another text.
func (t *target) setScalar(in *layout.Node, e *layout.Entry, text string) error {
	if !e.SetText(text, in.Flow) {
		return t.lockedIn(e)
	}
	return nil
}

func (t *target) lockedIn(e *layout.Entry) error {
	file := t.old.Place().File
	if file == "" {
		file = plan.RootFile
	}
	return lockedAt(plan.Place{File: file, Line: int32(e.Value.Line), Col: int32(e.Value.Col)})
}

// drop takes a key away, and the blocks that only it kept: tone, limits.
func (t *target) drop(path string) error {
	in, e := below(t.spot.entry, path)
	if e == nil {
		return nil // gone with its block
	}
	if hasAnchor(e.Value) {
		return t.lockedIn(e)
	}
	in.Remove(e)
	if len(in.Entries) > 0 {
		return nil
	}
	block, _, nested := cutLast(path)
	if !nested {
		emptied(t.spot.entry)
		return nil
	}
	owner := t.has(block)
	if f := t.s.Field(block); f == nil {
		return t.drop(block)
	}
	emptied(owner)
	return nil
}

// emptied writes {} for a block that has nothing left.
func emptied(owner *layout.Entry) {
	if owner.Value.Flow || owner.Key == nil && owner.Sep == "" {
		return
	}
	head, comment, _ := strings.Cut(owner.Sep, ":")
	owner.Sep = head + ": "
	if owner.Key == nil {
		comment, owner.Sep = "", "- "
	}
	eol := owner.Value.LineEnd()
	rest := owner.Value.String() // comments that nothing hangs on any more
	owner.Value = layout.NewFlow(layout.Mapping, eol)
	owner.Trail = strings.TrimRight(comment, "\r\n") + eol + rest
}
