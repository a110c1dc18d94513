package rewrite

import (
	"passband.example/plandiff"
	"passband.example/plandiff/plan"
)

// rename writes new keys, and writes them wherever the old ones were referred to.
func (e *editor) rename() error {
	e.renames = plan.Renames{}
	for _, c := range e.changes {
		if c.Op != plandiff.Renamed {
			continue
		}
		e.renames[c.Was] = c.Thing.Key
		r, ok := e.old.Find(c.Was)
		if !ok {
			return missing(c)
		}
		s, err := e.key(r)
		if err != nil {
			return err
		}
		s.entry.Key.SetText(c.Thing.Key, s.in.Flow)
	}
	if len(e.renames) == 0 {
		return nil
	}
	for _, s := range plan.Sections() {
		for _, r := range s.All(e.old) {
			if err := e.follow(s, r); err != nil {
				return err
			}
		}
	}
	return nil
}

// follow writes the references of a record in the new keys.
func (e *editor) follow(s *plan.Section, r plan.Record) error {
	for i := range s.Fields {
		f := &s.Fields[i]
		if f.Ref == plan.NoRef {
			continue
		}
		for _, item := range f.Items(r) {
			now := e.renames.Translate(f.Ref, item.Text)
			if now == item.Text {
				continue
			}
			at, err := e.at(item.At, values)
			if err != nil {
				return err
			}
			at.entry.SetText(now, at.in.Flow)
		}
	}
	return nil
}
