package plan

import "maps"

// An Assembly is the files of a plan at one moment of its history. Files come and
// go one by one, and it knows at every moment, without composing the plan, whether
// that would have problems. The zero Assembly has no files.
type Assembly struct {
	files map[string]*File
	keys  map[Thing]held
	twice int // keys that several records have
	bad   int // files with problems of their own
	size  int64
	count int // values
	alias int

	alike    int      // what several rows of tables say, which are numbered
	mentions Mentions // of all records; nil until somebody asks
}

// A held is how many records have a key, and one of them.
type held struct {
	n      int
	record Record // nil where it is not known which is left of several
}

// Put takes a file in, in the place of the one with its name.
func (a *Assembly) Put(f *File) {
	if a.files == nil {
		a.files, a.keys = make(map[string]*File), make(map[Thing]held)
	}
	var gone []Record
	if old, ok := a.files[f.name]; ok {
		a.weigh(old, -1)
		gone = old.records
	}
	a.files[f.name] = f
	a.weigh(f, 1)
	came := f.records
	for len(gone) > 0 && len(came) > 0 && gone[0] == came[0] { // an amended file has the others in their places
		gone, came = gone[1:], came[1:]
	}
	for len(gone) > 0 && len(came) > 0 && gone[len(gone)-1] == came[len(came)-1] {
		gone, came = gone[:len(gone)-1], came[:len(came)-1]
	}
	a.exchange(gone, came)
}

// Remove takes the file with this name out, if there is one.
func (a *Assembly) Remove(name string) {
	if f, ok := a.files[name]; ok {
		delete(a.files, name)
		a.weigh(f, -1)
		a.exchange(f.records, nil)
	}
}

// exchange counts the keys of records that go and come. Rows of a table may say the
// same.
func (a *Assembly) exchange(gone, came []Record) {
	for _, r := range gone {
		t := r.Thing()
		switch n := a.keys[t].n - 1; n {
		case 0:
			delete(a.keys, t)
		case 1:
			*a.same(t)--
			fallthrough
		default:
			a.keys[t] = held{n: n}
		}
		if a.mentions != nil {
			a.mentions.count(r, -1)
		}
	}
	for _, r := range came {
		t := r.Thing()
		n := a.keys[t].n + 1
		if a.keys[t] = (held{n, r}); n == 2 {
			*a.same(t)++
		}
		if a.mentions != nil {
			a.mentions.count(r, 1)
		}
	}
}

// same gives where it is counted that records have a key in common.
func (a *Assembly) same(t Thing) *int {
	if SectionOf(t.Kind).numbers() {
		return &a.alike
	}
	return &a.twice
}

func (a *Assembly) weigh(f *File, sign int) {
	a.size += f.size * int64(sign)
	a.count += f.values * sign
	a.alias += f.aliased * sign
	if len(f.problems) > 0 || f.lost {
		a.bad += sign
	}
}

// Find gives the record that a thing names, of a plan without problems. Its lines may be
// those of another version of its file.
func (a *Assembly) Find(t Thing) (Record, bool) {
	h, ok := a.keys[t]
	if !ok || h.record != nil {
		return h.record, ok
	}
	for _, f := range a.files {
		for _, r := range f.records {
			if r.Thing() == t {
				return r, true
			}
		}
	}
	return nil, false
}

// Targets gives the things that a record refers to by their keys. It gives false where a
// reference is to something that may have no key, or that is not there.
func (a *Assembly) Targets(r Record) ([]Thing, bool) {
	var targets []Thing
	s := SectionOf(r.Thing().Kind)
	for i := range s.Fields {
		f := &s.Fields[i]
		if f.Ref == NoRef {
			continue
		}
		for _, item := range f.items(r) {
			things, ok := f.Ref.targets(item.Text)
			if !ok {
				return nil, false
			}
			for _, t := range things {
				if _, ok := a.keys[t]; !ok {
					return nil, false
				}
			}
			targets = append(targets, things...)
		}
	}
	return targets, true
}

// File gives the file with this name.
func (a *Assembly) File(name string) (*File, bool) {
	f, ok := a.files[name]
	return f, ok
}

// Size gives the length of all files together, in bytes.
func (a *Assembly) Size() int64 { return a.size }

// Sound reports whether the plan of these files has no problems.
func (a *Assembly) Sound() bool {
	return a.bad == 0 && a.twice == 0 && a.size <= MaxTotalSize && a.count <= MaxValues && a.alias <= maxAliased
}

// Numbers reports whether rows of tables are numbered, because several say the same.
func (a *Assembly) Numbers() bool { return a.alike > 0 }

// Mentions tells what the records of the plan refer to, until a file comes or goes.
func (a *Assembly) Mentions() Mentions {
	if a.mentions == nil {
		a.mentions = make(Mentions)
		for _, f := range a.files {
			for _, r := range f.records {
				a.mentions.count(r, 1)
			}
		}
	}
	return a.mentions
}

// Compose makes the plan of the files; refused is what FindFiles told.
func (a *Assembly) Compose(refused []Problem) *Plan {
	files := make([]*File, 0, len(a.files))
	for f := range maps.Values(a.files) {
		files = append(files, f)
	}
	return Compose(refused, files...)
}
