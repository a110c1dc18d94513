package plan

import (
	"io/fs"
	"iter"
	"slices"
	"strings"
	"sync"
)

// A File is what one file of a plan says, on its own. It is never changed, and may
// be part of many plans: of each commit of a history in which the file is the same.
type File struct {
	name     string
	size     int64 // bytes
	values   int   // what could be a value, in those bytes
	aliased  int   // nodes reached through aliases
	text     bool  // it is text that could be taken
	lost     bool  // a split in it leads to no frequency
	records  []Record
	header   *Header // of the root file
	problems []Problem
	data     []byte

	pieces  func() []piece // as which it can be read alone
	shifted bool           // some records say other lines than theirs: see exact
}

// Name gives the path of the file below the root of the plan.
func (f *File) Name() string { return f.name }

// Size gives its length in bytes.
func (f *File) Size() int64 { return f.size }

// ParseFile reads one file of a plan, whose path below the root is name. What is
// wrong with it is told by the plan that it becomes part of. The bytes must not be
// changed afterwards.
func ParseFile(name string, data []byte) *File { return parseFile(name, data, 0) }

// parseFile reads a file when that many nodes were reached through aliases before.
func parseFile(name string, data []byte, aliased int) *File {
	l := &loader{plan: new(Plan), file: name, alias: aliased}
	f := &File{name: name, size: int64(len(data))}
	if most := mostOf(name); f.size > most {
		l.tooLarge(name, megabytes(f.size), most)
		f.size = 0 // it is not read
	} else if text, ok := l.clean(data); ok {
		f.text = true
		l.parse(text)
	}
	f.values, f.aliased = l.values, l.alias-aliased
	f.records, f.problems = slices.Clip(l.records), slices.Clip(l.plan.Problems)
	if name == RootFile {
		f.header = &l.plan.Header
	}
	f.lost = lostIn(f.records)
	f.data = data
	f.pieces = sync.OnceValue(f.cut)
	return f
}

// TooLarge stands for a file of more bytes than ParseFile takes, so that nobody
// has to read them.
func TooLarge(name string, size int64) *File {
	l := &loader{plan: new(Plan)}
	l.tooLarge(name, megabytes(size), mostOf(name))
	return &File{name: name, problems: l.plan.Problems, pieces: func() []piece { return nil }}
}

// FindFiles finds the files of the plan whose root is the root of fsys, sorted by
// name, and tells which were refused and why. The error is ErrNoPlan where there is
// no plan.yaml, or that of a root folder that cannot be read.
func FindFiles(fsys fs.FS) (names []string, refused []Problem, err error) {
	l := &loader{plan: new(Plan), fsys: fsys}
	if err := l.findFiles(); err != nil {
		return nil, nil, err
	}
	if !l.hasRoot() {
		return nil, nil, ErrNoPlan
	}
	return l.plan.Files, l.plan.Problems, nil
}

// Compose makes a plan of its files, as Load does of their texts: Load is FindFiles,
// ParseFile of each, and Compose. refused is what FindFiles told. Only where there are more
// than MaxProblems problems may it be others of them that are told.
func Compose(refused []Problem, files ...*File) *Plan {
	files = slices.Clone(files)
	slices.SortFunc(files, func(a, b *File) int { return strings.Compare(a.name, b.name) })
	l := &loader{plan: new(Plan)}
	l.plan.Header.Key.At = Place{File: RootFile}
	for _, p := range refused {
		l.note(p)
	}
	for _, f := range files {
		l.plan.Files = append(l.plan.Files, f.name)
		switch l.total += f.size; {
		case l.stop:
		case l.total > MaxTotalSize:
			l.tooMuch(f.name)
		case f.shifted:
			l.join(parseFile(f.name, f.data, 0))
		default:
			l.join(f)
		}
	}
	l.checkSplits()
	l.plan.Problems = sortProblems(l.plan.Problems)
	return l.plan
}

// join puts what a file says into the plan.
func (l *loader) join(f *File) {
	if l.values += f.values; l.values > MaxValues {
		l.stop = true
		if f.text { // else it tells that itself
			l.tooManyValues(f.name)
			return
		}
	}
	if f.aliased > 0 && l.alias+f.aliased > maxAliased {
		f = parseFile(f.name, f.data, l.alias)
	}
	l.alias += f.aliased
	for _, p := range f.problems {
		l.note(p)
	}
	if f.header != nil {
		key := f.header.Key
		if key.At.IsZero() {
			key = l.plan.Header.Key
		}
		l.plan.Header = *f.header
		l.plan.Header.Key = key
	}
	for kind, records := range byKind(f.records) {
		s := SectionOf(kind)
		s.expect(l.plan, len(records))
		for _, r := range records {
			l.keep(s, r)
		}
	}
}

// byKind gives the runs of records of one kind.
func byKind(records []Record) iter.Seq2[Kind, []Record] {
	return func(yield func(Kind, []Record) bool) {
		for len(records) > 0 {
			kind, n := records[0].Thing().Kind, 1
			for n < len(records) && records[n].Thing().Kind == kind {
				n++
			}
			if !yield(kind, records[:n]) {
				return
			}
			records = records[n:]
		}
	}
}

// keep puts a record into the plan, unless another has its key. Several rows of a table
// may say the same.
func (l *loader) keep(s *Section, r Record) {
	first, ok := s.add(l.plan, r)
	if ok {
		return
	}
	if s.numbers() {
		row := copied(r) // the file may be part of other plans
		l.plan.number(s, row)
		s.add(l.plan, row)
		return
	}
	l.duplicate(r.Place(), r.Thing().Key, first.Place())
}

// copied gives a row of its own, for a plan to number.
func copied(r Record) Record {
	switch row := r.(type) {
	case *Operator:
		c := *row
		return &c
	case *Neighbor:
		c := *row
		return &c
	}
	return r
}
