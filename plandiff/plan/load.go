package plan

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"slices"
	"strings"
)

// The names of the file that marks the root of a plan, of its tables of operators and of
// neighbors, and of the club's own rows of the license and separation tables, which stand
// beside plan.yaml.
const (
	RootFile       = "plan.yaml"
	OperatorsFile  = "operators.csv"
	NeighborsFile  = "neighbors.csv"
	LicenseFile    = "license.csv"
	SeparationFile = "separation.csv"
)

// What Load takes at most. A club's plan is far below; the limits are there so
// that no file can hang or exhaust the program.
const (
	MaxFileSize  = 16 << 20 // bytes of one YAML file; 100,000 channels take 7 MB
	MaxTableSize = 64 << 20 // bytes of one table in CSV
	MaxTotalSize = 128 << 20
	MaxFiles     = 10_000    // files of a plan
	MaxEntries   = 50_000    // files and folders looked at
	MaxFolders   = 32        // folders inside one another
	MaxValues    = 3_000_000 // values of a plan, by its commas, colons and line ends
	MaxProblems  = 1_000     // problems that are told

	MaxLicenseRows = 200 // of license.csv: every frequency is held against each; a country has 70. Also of separation.csv
)

// ErrNoPlan says that a folder holds no plan.
var ErrNoPlan = errors.New("there is no " + RootFile + " here")

// Load reads the plan whose root is the root of fsys. What cannot be read is
// told in Plan.Problems, all of it at once; the rest of the plan stands.
// The error is ErrNoPlan where there is no plan.yaml, ctx's error when it was
// cancelled, or that of a root folder that cannot be read.
func Load(ctx context.Context, fsys fs.FS) (*Plan, error) {
	loaded := LoadEach(ctx, fsys)
	return loaded[0].Plan, loaded[0].Err
}

// checkSplits notes the splits that lead to no frequency.
func (l *loader) checkSplits() {
	for _, r := range l.plan.Repeaters.All() {
		if r.splitLost() {
			l.problem(BadValue, r.Split.At, fmt.Sprintf("split: %s from %s MHz leads to no frequency", r.Split.V, r.Output.V), "", "look at the output and at the sign and size of the split")
		}
	}
}

// splitLost reports whether the split of a repeater leads to no frequency.
func (r *Repeater) splitLost() bool {
	return r.Output.IsSet() && r.Split.IsSet() && !r.Input.Written() && r.TransmitOn() == 0
}

type loader struct {
	plan   *Plan
	fsys   fs.FS
	parser *parser
	ahead  []*reading // files that are being parsed, in the order of their names
	file   string     // the file being read
	total  int64      // bytes read so far
	values int        // what could be a value, in the bytes read so far
	alias  int        // nodes reached through aliases so far
	stop   bool       // a limit on the whole plan was reached

	records []Record // of the file, in its order
	trail   trail    // what is being read
	words   [8]string
}

// problem notes what is wrong, and where.
func (l *loader) problem(rule string, at Place, what, why, fix string) {
	if fix == "" { // the errors of values say what is wrong, and then what to write
		if i := strings.LastIndex(what, "; "); i > 0 {
			what, fix = what[:i], what[i+len("; "):]
		}
	}
	l.note(Problem{Rule: rule, At: at, What: what, Why: why, Fix: fix})
}

// note keeps a problem, unless there are too many to be read.
func (l *loader) note(p Problem) {
	switch n := len(l.plan.Problems); {
	case n < MaxProblems:
		l.plan.Problems = append(l.plan.Problems, p)
	case n == MaxProblems:
		l.plan.Problems = append(l.plan.Problems, Problem{
			Rule: p.Rule, At: p.At, What: fmt.Sprintf("there are more than %d problems, and the rest is not told", MaxProblems),
			Why: "most of them have likely one cause", Fix: "mend those above first",
		})
	}
}

// full reports whether no further problem will be told.
func (l *loader) full() bool { return len(l.plan.Problems) > MaxProblems }

// hasRoot reports whether there is a plan.yaml: one that is read, one that was
// refused, or one behind the point where looking stopped.
func (l *loader) hasRoot() bool {
	if slices.Contains(l.plan.Files, RootFile) || slices.ContainsFunc(l.plan.Problems, func(p Problem) bool { return p.At.File == RootFile }) {
		return true
	}
	info, err := fs.Stat(l.fsys, RootFile)
	return err == nil && info.Mode().IsRegular()
}

func (l *loader) refuse(file, what, why, fix string) {
	l.problem(FileRefused, Place{File: file}, what, why, fix)
}

// read gives the bytes of a file, or false after noting why it has none to give.
func (l *loader) read(name string, most int64) ([]byte, bool) {
	f, err := l.fsys.Open(name)
	if err != nil {
		l.refuse(name, "this file cannot be read: "+reason(err), "what stands in it is missing from the plan", cure(err))
		return nil, false
	}
	defer f.Close()
	tooLarge := func(size string) ([]byte, bool) {
		l.tooLarge(name, size, most)
		return nil, false
	}
	var text bytes.Buffer
	if info, err := f.Stat(); err == nil {
		if info.Size() > most {
			return tooLarge(megabytes(info.Size()))
		}
		text.Grow(int(max(info.Size(), 0)) + bytes.MinRead) // so that nothing is copied
	}
	_, err = text.ReadFrom(io.LimitReader(f, most+1))
	data := text.Bytes()
	switch l.total += int64(len(data)); {
	case err != nil:
		l.refuse(name, "this file cannot be read: "+reason(err), "what stands in it is missing from the plan", cure(err))
		return nil, false
	case int64(len(data)) > most:
		return tooLarge("larger than it says")
	case l.total > MaxTotalSize:
		l.tooMuch(name)
		return nil, false
	}
	return data, true
}

func (l *loader) tooLarge(name, size string, most int64) {
	l.refuse(name, fmt.Sprintf("this file is %s; the most that passband reads is %d MB", size, most>>20), "what stands in it is missing from the plan", "split it, or take out what is no plan")
}

func megabytes(size int64) string { return fmt.Sprintf("%d MB large", size>>20) }

// tooMuch refuses a file with which the plan is larger than passband reads.
func (l *loader) tooMuch(name string) {
	l.refuse(name, fmt.Sprintf("the files of the plan are larger than %d MB together", MaxTotalSize>>20), "the rest is not read", "keep the plan in a folder of its own")
	l.stop = true
}

// reason gives the cause of a file error without the path, which the place tells.
func reason(err error) string {
	var pe *fs.PathError
	if errors.As(err, &pe) {
		return pe.Err.Error()
	}
	return err.Error()
}

// cure says what to do about a file error, or nothing where its reason does.
func cure(err error) string {
	switch {
	case errors.Is(err, fs.ErrPermission):
		return "look at its permissions"
	case strings.Contains(reason(err), "; "):
		return ""
	}
	return "look whether it opens elsewhere"
}

// parse reads the text of a file.
func (l *loader) parse(data []byte) {
	switch s := TableOf(l.file); {
	case s == nil:
		l.readYAML(data, 1)
	case s.whole:
		l.readRows(s, data)
	default:
		l.readTable(s, data)
	}
}

// mostOf gives how many bytes of a file are read at most.
func mostOf(name string) int64 {
	if s := TableOf(name); s != nil && !s.whole {
		return MaxTableSize
	}
	return MaxFileSize
}
