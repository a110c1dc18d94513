package plan

import (
	"fmt"
	"slices"

	"passband.example/plandiff/plan/tree"
)

// topKey reads one key at the top of a file: one of the header, or a section.
func (l *loader) topKey(key, value tree.Node) {
	header := sections()[0]
	if f := header.Field(key.Value()); f != nil {
		if l.file != RootFile {
			l.problem(UnknownKey, l.place(key), fmt.Sprintf("the key %s belongs into %s alone", key.Value(), RootFile), "a plan has one of it", "move it there")
			return
		}
		if f.Name == "plan" {
			l.plan.Header.Key = Value[string]{At: l.place(key)}
		}
		f.load(l, &l.plan.Header, value)
		return
	}
	if key.Value() == "review" {
		l.inside("review", func() { l.mapping(value, func(key, value tree.Node) { l.section("review", key, value) }) })
		return
	}
	l.section("", key, value)
}

// section reads the records of the section that key names.
func (l *loader) section(under string, key, value tree.Node) {
	i := slices.IndexFunc(sections(), func(s *Section) bool { return s.Key != "" && s.Key == key.Value() && s.under == under })
	if i < 0 {
		l.unknown(key, "section", hint(key.Value(), sectionKeys(under)))
		return
	}
	s := sections()[i]
	if s.listed {
		l.items(s, value)
		return
	}
	l.members(s, value)
}

// members reads the records of a section that maps keys to records.
func (l *loader) members(s *Section, records tree.Node) {
	lay := layouts()[s]
	l.inside(s.Key, func() {
		l.mapping(records, func(key, value tree.Node) {
			if r := l.record(s, lay, key, value); r != nil && records.Kind() == tree.Mapping {
				r.setWording(records.Source(key))
			}
		})
	})
}

func sectionKeys(under string) []string {
	var keys []string
	for _, s := range sections() {
		if s.Key != "" && s.under == under {
			keys = append(keys, s.Key)
		}
	}
	if under == "" {
		for _, f := range sections()[0].Fields {
			keys = append(keys, f.Name)
		}
		keys = append(keys, "review")
	}
	return keys
}

func (l *loader) unknown(key tree.Node, what, fix string) {
	l.problem(UnknownKey, l.place(key), fmt.Sprintf("%q is not a %s that is known", clip(key.Value()), what), "a key that is not read looks as if it worked", fix)
}

// record reads one record of a section that maps keys to records; nil where its key cannot be one.
func (l *loader) record(s *Section, lay *layout, key, value tree.Node) Record {
	r := s.create()
	name := Value[string]{V: key.Value(), Text: key.Value(), At: l.place(key)}
	if err := checkKey(s.Kind, key.Value()); err != nil {
		l.bad(key, err.Error(), "")
		name.Bad = true
	}
	r.setKey(name)
	before := len(l.plan.Problems)
	if s.value != "" {
		s.Field(s.value).load(l, r, value)
	} else {
		word := key.Value()
		if name.Bad { // it could hold anything
			word = ""
		}
		outer := l.trail
		l.trail = append(l.words[:0], s.Kind.String(), word)
		l.block(lay, r, value)
		l.trail = outer
	}
	if len(l.plan.Problems) > before {
		r.setPartly()
	}
	if name.Bad {
		return nil
	}
	l.records = append(l.records, r)
	return r
}

func checkKey(kind Kind, key string) error {
	switch {
	case kind == KindShortcut:
		if len(key) != 1 || !isDigits(key) {
			return fmt.Errorf("%q is not a number key; write one digit", clip(key))
		}
	case kind == KindReceiveList && (key == ListenSlot || key == ListenRepeater || key == ListenNone):
		return fmt.Errorf("a receive list cannot have the key %q, which has a meaning of its own; give it another", key)
	default:
		_, err := parseKey(key)
		return err
	}
	return nil
}

// items reads the records of a section that is a list.
func (l *loader) items(s *Section, n tree.Node) {
	at := n
	if n = l.follow(n); n.IsZero() || n.IsNull() {
		return
	}
	if n.Kind() != tree.Sequence {
		l.bad(at, s.Key+" is "+shape(n)+", and needs a list", "begin each item with a hyphen")
		return
	}
	for item := range n.Items() {
		at, told := l.place(item), len(l.plan.Problems)
		r := s.create()
		r.setKey(Value[string]{At: at})
		l.inside("an item of "+s.Key, func() { l.block(layouts()[s], r, item) })
		if missing := s.missing(r); missing != "" {
			if told == len(l.plan.Problems) {
				l.bad(item, "an item of "+s.Key+" has no "+missing, "write "+missing+": and a value")
			}
			continue
		}
		r.setKey(Value[string]{V: s.keyOf(r), At: at})
		l.records = append(l.records, r)
	}
}

// block reads the keys of a record, or of a block inside it.
func (l *loader) block(lay *layout, r Record, n tree.Node) {
	l.mapping(n, func(key, value tree.Node) {
		in := lay.of[key.Value()]
		f, inner := in.field, in.block
		switch {
		case f == nil && inner == nil:
			if !l.full() { // finding what was meant takes time
				l.unknown(key, "key of "+l.trail.String(), lay.hint(key.Value(), value))
			}
			return
		case f != nil && f.Form != Flag:
			f.load(l, r, value)
			return
		case f != nil:
			f.mark(r, l.place(key))
		}
		if short := inner.of["send"].field; short != nil && isScalar(value) {
			short.load(l, r, value) // tone: 103.5 says what is sent
			return
		}
		l.trail = append(l.trail, key.Value())
		if fix := inner.instead(key.Value(), f != nil, value); fix != "" {
			l.bad(value, l.trail.String()+" is "+shape(value)+" here, and needs keys with values", fix)
		} else {
			l.block(inner, r, value)
		}
		l.trail = l.trail[:len(l.trail)-1]
	})
}
