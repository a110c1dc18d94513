package plan

import (
	"fmt"
	"slices"

	"passband.example/plandiff/plan/tree"
)

// A Form is the shape of a field's value.
type Form uint8

// The forms.
const (
	Scalar Form = iota + 1 // one value
	Flag                   // a block that is there or not: dmr
	List                   // values in an order that means something
	Set                    // values whose order means nothing
)

// A Field is one key that a record may have. The tables of fields are the one
// place that knows the form of a plan: reading, writing, comparing and applying
// changes all walk them.
type Field struct {
	Name   string // dmr.color_code, as the path of keys to it
	Doc    string // what it is for, for a person
	Form   Form
	Weight Weight
	Ref    Ref // what the text refers to, if to anything

	// spelling tells which texts it takes; nil for a flag.
	spelling func() Spelling
	// load reads the value from a node; nil for a field that follows from others.
	load func(l *loader, r Record, n tree.Node)
	// mark notes that the block whose key stands at a place is there, where the field is a Flag.
	mark func(r Record, at Place)
	// cell reads the value from a cell of a table.
	cell func(l *loader, r Record, text string, at Place)
	// items gives the value in canonical text; nothing where it is not set.
	items func(r Record) []Item
	// each does the same one by one, and makes no list of them.
	each func(r Record, take func(text string, at Place))
	// same compares the values of two records without making text of them.
	same func(a, b Record) bool
	// set writes a value in canonical text; none takes the value away.
	set func(r Record, texts []string) error
	// written gives what to write into a file; nil means items.
	written func(r Record) []Item
}

// An Item is one value of a field in its canonical text, and where it stands.
type Item struct {
	Text string
	At   Place
}

// Items gives the values of the field in r.
func (f *Field) Items(r Record) []Item { return f.items(r) }

// Each hands over the values of the field in r, as Items gives them.
func (f *Field) Each(r Record, take func(text string, at Place)) { f.each(r, take) }

// Same reports whether the field means the same in both records.
func (f *Field) Same(a, b Record) bool { return f.same(a, b) }

// Set gives the field of r a value in canonical text, as Items gives it; no
// text takes the value away. It fails where a text is not a value of the field.
func (f *Field) Set(r Record, texts []string) error {
	r.setWording("")
	return f.set(r, texts)
}

// A codec reads and writes the values of one type.
type codec[T any] struct {
	parse  func(string) (T, error)
	format func(T) string
	same   func(a, b T) bool

	spelling func() Spelling // nil where no editor sees its texts
}

func (c codec[T]) value(text string) (Value[T], error) {
	v, err := c.parse(text)
	return Value[T]{V: v, Text: text, At: applied}, err
}

// applied is the place of a value that came from a change and not from a file.
var applied = Place{File: "-"}

// scalar makes a field of one value.
func scalar[R Record, T any](name string, w Weight, c codec[T], at func(R) *Value[T], doc string) Field {
	return Field{
		Name: name, Doc: doc, Form: Scalar, Weight: w, spelling: c.spelling,
		load: func(l *loader, r Record, n tree.Node) {
			*at(r.(R)) = loadValue(l, name, c, n)
		},
		cell: func(l *loader, r Record, text string, place Place) {
			*at(r.(R)) = loadCell(l, name, c, text, place)
		},
		items: func(r Record) []Item {
			v := at(r.(R))
			if !v.IsSet() {
				return nil
			}
			return []Item{{c.format(v.V), v.At}}
		},
		each: func(r Record, take func(string, Place)) {
			if v := at(r.(R)); v.IsSet() {
				take(c.format(v.V), v.At)
			}
		},
		same: func(a, b Record) bool { return sameValue(c, at(a.(R)), at(b.(R))) },
		set: func(r Record, texts []string) error {
			if len(texts) == 0 {
				*at(r.(R)) = Value[T]{}
				return nil
			}
			if len(texts) > 1 {
				return fmt.Errorf("%s takes one value, not %d", name, len(texts))
			}
			v, err := c.value(texts[0])
			if err == nil {
				*at(r.(R)) = v
			}
			return err
		},
	}
}

// eachOf makes of what gives all items what hands over one by one.
func eachOf(items func(Record) []Item) func(Record, func(string, Place)) {
	return func(r Record, take func(string, Place)) {
		for _, item := range items(r) {
			take(item.Text, item.At)
		}
	}
}

func sameValue[T any](c codec[T], a, b *Value[T]) bool {
	if a.IsSet() != b.IsSet() {
		return false
	}
	return !a.IsSet() || c.same(a.V, b.V)
}

// list makes a field of several values, whose order means something (List) or not (Set).
func list[R Record, T any](name string, form Form, c codec[T], at func(R) *[]Value[T], doc string) Field {
	return Field{
		Name: name, Doc: doc, Form: form, Weight: Layout, spelling: c.spelling,
		load: func(l *loader, r Record, n tree.Node) {
			*at(r.(R)) = loadList(l, name, c, n)
		},
		items: func(r Record) []Item {
			var items []Item
			for _, v := range *at(r.(R)) {
				if v.IsSet() {
					items = append(items, Item{c.format(v.V), v.At})
				}
			}
			return items
		},
		each: func(r Record, take func(string, Place)) {
			list := *at(r.(R))
			for i := range list {
				if v := &list[i]; v.IsSet() {
					take(c.format(v.V), v.At)
				}
			}
		},
		same: func(a, b Record) bool {
			x, y := *at(a.(R)), *at(b.(R))
			if form == Set {
				return sameSet(c, x, y)
			}
			return slices.EqualFunc(readable(x), readable(y), func(v, w Value[T]) bool { return c.same(v.V, w.V) })
		},
		set: func(r Record, texts []string) error {
			values := make([]Value[T], 0, len(texts))
			for _, text := range texts {
				v, err := c.value(text)
				if err != nil {
					return err
				}
				values = append(values, v)
			}
			*at(r.(R)) = values
			return nil
		},
	}
}

// readable gives the values that could be read.
func readable[T any](vs []Value[T]) []Value[T] {
	if !slices.ContainsFunc(vs, isBad) {
		return vs
	}
	return slices.DeleteFunc(slices.Clone(vs), isBad)
}

func isBad[T any](v Value[T]) bool { return !v.IsSet() }

func sameSet[T any](c codec[T], x, y []Value[T]) bool {
	return slices.Equal(sortedTexts(c, x), sortedTexts(c, y))
}

func sortedTexts[T any](c codec[T], vs []Value[T]) []string {
	texts := make([]string, 0, len(vs))
	for _, v := range vs {
		if v.IsSet() {
			texts = append(texts, c.format(v.V))
		}
	}
	slices.Sort(texts)
	return texts
}

// flag makes a field that says only whether a block of keys is there.
func flag[R Record](name string, w Weight, at func(R) *Value[bool], doc string) Field {
	f := scalar(name, w, yesNos, at, doc)
	f.Form, f.spelling = Flag, nil
	f.mark = func(r Record, place Place) { *at(r.(R)) = Value[bool]{V: true, Text: yesNo(true), At: place} }
	return f
}

// into has something done to a record before the field of it is written.
func (f *Field) into(prepare func(Record)) {
	load, mark, cell, set := f.load, f.mark, f.cell, f.set
	f.load = func(l *loader, r Record, n tree.Node) { prepare(r); load(l, r, n) }
	f.set = func(r Record, texts []string) error { prepare(r); return set(r, texts) }
	if mark != nil {
		f.mark = func(r Record, at Place) { prepare(r); mark(r, at) }
	}
	if cell != nil {
		f.cell = func(l *loader, r Record, text string, at Place) { prepare(r); cell(l, r, text, at) }
	}
}

// weighing gives the field another weight than its maker did.
func (f Field) weighing(w Weight) Field { f.Weight = w; return f }

// naming says what the text of the field refers to.
func (f Field) naming(ref Ref) Field { f.Ref = ref; return f }
