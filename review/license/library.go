package license

import (
	"embed"
	"errors"
	"fmt"
	"io/fs"
	"path"
	"strings"
	"sync"
)

//go:embed data
var data embed.FS

// A library is all tables, read.
type library struct {
	regions   []Region
	countries []Region
	classes   []classRow
	bands     map[string][]*Row // by jurisdiction, in capitals
	plans     map[string][]*Segment
	splits    map[string][]*SplitRow
	services  map[string][]*ServiceRow
	places    map[string]*Place
	content   []*ContentRow
}

// embedded is the tables of this program, read at first use.
var embedded = sync.OnceValues(func() (*library, error) {
	sub, err := fs.Sub(data, "data")
	if err != nil {
		return nil, err
	}
	return readLibrary(sub)
})

// readLibrary reads and checks every table below the root of files. It returns every
// problem of every file, joined.
func readLibrary(files fs.FS) (*library, error) {
	r := &librarian{files: files}
	l := &library{
		regions: read(r, "jurisdictions.csv", readRegions), countries: read(r, "countries.csv", readCountries),
		classes: read(r, "classes.csv", readClasses), content: read(r, "content.csv", readContent),
		places: map[string]*Place{},
	}
	lines := read(r, "lines.csv", readLines)
	for _, p := range read(r, "places.csv", func(file string, data []byte) ([]*Place, error) { return readPlaces(file, data, lines) }) {
		l.places[p.Key] = p
	}
	l.bands = readFolder(r, "bands", readShared)
	l.plans = readFolder(r, "bandplans", readSegments)
	l.splits = readFolder(r, "splits", readSplits)
	l.services = readFolder(r, "services", readServices)
	return l, errors.Join(append(r.problems, l.amiss()...)...)
}

// A librarian reads files and gathers what is wrong with them.
type librarian struct {
	files    fs.FS
	problems []error
}

func (r *librarian) open(file string) []byte {
	data, err := fs.ReadFile(r.files, file)
	if err != nil {
		r.problems = append(r.problems, err)
	}
	return data
}

func read[T any](r *librarian, file string, parse func(file string, data []byte) (T, error)) T {
	all, err := parse(file, r.open(file))
	if err != nil {
		r.problems = append(r.problems, err)
	}
	return all
}

// readFolder reads the files of a folder, by their names in capitals without .csv; any.csv
// keeps its own.
func readFolder[T any](r *librarian, folder string, parse func(file, name string, data []byte) ([]T, error)) map[string][]T {
	all := map[string][]T{}
	entries, err := fs.ReadDir(r.files, folder)
	if err != nil {
		r.problems = append(r.problems, err)
	}
	for _, entry := range entries {
		name := strings.TrimSuffix(entry.Name(), ".csv")
		if name != everywhere {
			name = strings.ToUpper(name)
		}
		all[name] = read(r, path.Join(folder, entry.Name()), func(file string, data []byte) ([]T, error) {
			return parse(file, name, data)
		})
	}
	return all
}

func readShared(file, jurisdiction string, data []byte) ([]*Row, error) {
	rows, err := ReadRows(file, jurisdiction, data)
	shared := make([]*Row, len(rows))
	for i := range rows {
		shared[i] = &rows[i]
	}
	return shared, err
}

// amiss returns what is wrong between the tables: a class, a place or a file that one of them
// names and no other has.
func (l *library) amiss() (problems []error) {
	for jurisdiction, rows := range l.bands {
		for _, row := range rows {
			if problem := l.rowAmiss(row); problem != "" {
				problems = append(problems, fmt.Errorf("%s:%d: %s", row.File, row.Line, problem))
			}
		}
		if _, ok := l.region(jurisdiction); !ok && jurisdiction != everywhere {
			problems = append(problems, fmt.Errorf("bands: %s is not in jurisdictions.csv", jurisdiction))
		}
	}
	for _, region := range l.regions {
		problems = append(problems, unknown(region, "plans", region.plans, l.plans)...)
		problems = append(problems, unknown(region, "splits", region.splits, l.splits)...)
		problems = append(problems, unknown(region, "services", region.services, l.services)...)
		if region.Holds != ITUTable && len(l.bands[region.Code]) == 0 {
			problems = append(problems, fmt.Errorf("jurisdictions.csv: %s has no file in bands", region.Code))
		}
	}
	return problems
}

func (l *library) rowAmiss(row *Row) string {
	for _, class := range row.Classes {
		if !l.hasClass(row.Jurisdiction, class) {
			return fmt.Sprintf("class %q is not in classes.csv", class)
		}
	}
	if row.Place != "" && l.places[row.Place] == nil {
		return fmt.Sprintf("place %q is not in places.csv", row.Place)
	}
	return ""
}

func (l *library) hasClass(jurisdiction string, class Class) bool {
	for _, c := range l.classes {
		if c.jurisdiction == jurisdiction && c.class == class {
			return true
		}
	}
	return false
}

func unknown[T any](region Region, column string, names []string, all map[string][]T) (problems []error) {
	for _, name := range names {
		if len(all[fileName(name)]) == 0 {
			problems = append(problems, fmt.Errorf("jurisdictions.csv: %s names %s %q, which has no rows", region.Code, column, name))
		}
	}
	return problems
}

func fileName(name string) string {
	if name == everywhere {
		return name
	}
	return strings.ToUpper(name)
}
