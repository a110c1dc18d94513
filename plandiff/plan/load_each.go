package plan

import (
	"context"
	"io/fs"
	"runtime"
	"unsafe"
)

// Loaded is what became of one plan that LoadEach read: the plan, or the error.
type Loaded struct {
	Plan *Plan
	Err  error
}

// LoadEach reads several plans as Load reads each, such as two revisions of one: a file
// that says the same in both is read once, and its records are the very same in both
// plans. Several files are read at once, up to GOMAXPROCS; what comes out does not
// depend on it.
func LoadEach(ctx context.Context, all ...fs.FS) []Loaded {
	p := &parser{known: make(map[fileText]*reading), slots: make(chan struct{}, runtime.GOMAXPROCS(0))}
	loaders, loaded := make([]*loader, len(all)), make([]Loaded, len(all))
	for i, fsys := range all {
		loaders[i] = &loader{plan: new(Plan), fsys: fsys, parser: p}
		loaded[i].Err = loaders[i].begin(ctx)
	}
	for i, l := range loaders {
		if loaded[i].Err == nil {
			loaded[i].Plan = l.finish()
		}
	}
	return loaded
}

// begin finds the files of the plan and reads them, in the order of their names. The
// last of them may still be being parsed when it comes back.
func (l *loader) begin(ctx context.Context) error {
	l.plan.Header.Key.At = Place{File: RootFile}
	if err := l.findFiles(); err != nil {
		return err
	}
	if !l.hasRoot() {
		return ErrNoPlan
	}
	for _, name := range l.plan.Files {
		if err := ctx.Err(); err != nil {
			return err
		}
		if l.stop {
			break
		}
		data, ok := l.read(name, mostOf(name))
		if !ok {
			continue
		}
		l.ahead = append(l.ahead, l.parser.start(name, data))
		if len(l.ahead) > cap(l.parser.slots) { // no more, so that a limit stops the work
			l.next()
		}
	}
	return nil
}

// next puts the file that was read first into the plan.
func (l *loader) next() {
	r := l.ahead[0]
	l.ahead = l.ahead[1:]
	<-r.done
	if !l.stop {
		l.join(r.file)
	}
}

func (l *loader) finish() *Plan {
	for len(l.ahead) > 0 {
		l.next()
	}
	l.checkSplits()
	l.plan.Problems = sortProblems(l.plan.Problems)
	return l.plan
}

// A parser parses files, each text under a name once.
type parser struct {
	known map[fileText]*reading
	slots chan struct{} // one for each file that may be parsed at a time
}

// fileText is a file as its name and its whole text: equal is equal.
type fileText struct{ name, text string }

// A reading is a file that is being parsed until done is closed.
type reading struct {
	done chan struct{}
	file *File
}

// start begins to parse a file, unless it has the same text already.
func (p *parser) start(name string, data []byte) *reading {
	key := fileText{name, textOf(data)}
	r, ok := p.known[key]
	if !ok {
		r = &reading{done: make(chan struct{})}
		p.known[key] = r
		go func() {
			p.slots <- struct{}{}
			r.file = ParseFile(name, data)
			<-p.slots
			close(r.done)
		}()
	}
	return r
}

// textOf gives bytes as a string without a copy: a plan's values point into the texts
// of its files. The bytes must not be changed afterwards, as ParseFile says.
func textOf(data []byte) string { return unsafe.String(unsafe.SliceData(data), len(data)) }
