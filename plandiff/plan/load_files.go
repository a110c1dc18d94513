package plan

import (
	"fmt"
	"io/fs"
	"path"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// findFiles lists the files of the plan, sorted, and refuses links.
func (l *loader) findFiles() error {
	seen := 0
	err := fs.WalkDir(l.fsys, ".", func(name string, d fs.DirEntry, err error) error {
		switch seen++; {
		case err != nil && name == ".":
			return err
		case err != nil:
			l.refuse(name, "this folder cannot be read: "+reason(err), "what stands in it is missing from the plan", cure(err))
			return fs.SkipDir
		case name == ".":
			return nil
		case seen > MaxEntries:
			l.refuse(name, fmt.Sprintf("there are more than %d files and folders here", MaxEntries), "passband stops looking, so that no folder can hang it", "keep the plan in a folder of its own")
			return fs.SkipAll
		case strings.HasPrefix(d.Name(), "."):
			return skip(d)
		case !d.IsDir() && !isPlanFile(name):
			return nil
		case strings.ContainsFunc(d.Name(), unprintable):
			l.refuse(strconv.QuoteToASCII(name), "its name has characters that cannot be shown", "a message about it could look like another", "give it a name of letters, digits and hyphens")
			return skip(d)
		case d.IsDir():
			return l.enter(name)
		}
		return l.consider(name, d)
	})
	slices.Sort(l.plan.Files)
	return err
}

func skip(d fs.DirEntry) error {
	if d.IsDir() {
		return fs.SkipDir
	}
	return nil
}

// enter decides whether a folder belongs to this plan.
func (l *loader) enter(name string) error {
	if strings.Count(name, "/")+1 > MaxFolders {
		l.refuse(name, fmt.Sprintf("folders stand more than %d deep", MaxFolders), "what stands in it is missing from the plan", "move the files up")
		return fs.SkipDir
	}
	if info, err := fs.Stat(l.fsys, path.Join(name, RootFile)); err == nil && !info.IsDir() {
		return fs.SkipDir // another plan
	}
	return nil
}

// consider takes a file of the plan into the list.
func (l *loader) consider(name string, d fs.DirEntry) error {
	if d.Type()&fs.ModeSymlink != 0 {
		l.refuse(name, "this is a link to another file", "links are not followed: they could lead out of the plan", "put the file itself here")
		return nil
	}
	if s := TableOf(name); s != nil && s.whole && name != s.file {
		l.refuse(name, "this file belongs beside "+RootFile, "what it asks would not be judged", "move its rows into "+s.file+" there, or take it out")
		return nil
	}
	if !d.Type().IsRegular() {
		l.refuse(name, "this is not an ordinary file", "what stands in it is missing from the plan", "take it out, or put a file here")
		return nil
	}
	if len(l.plan.Files) == MaxFiles {
		l.refuse(name, fmt.Sprintf("the plan has more than %d files", MaxFiles), "the rest is not read", "put more records into each file")
		return fs.SkipAll
	}
	l.plan.Files = append(l.plan.Files, name)
	return nil
}

// unprintable reports whether r, in a name, would show as nothing or as something else.
func unprintable(r rune) bool { return r == utf8.RuneError || !unicode.IsGraphic(r) }

func isPlanFile(name string) bool {
	ext := path.Ext(name)
	return ext == ".yaml" || ext == ".yml" || TableOf(name) != nil
}

// ReadFiles reads files of the plan whose root is the root of fsys, and no more than Load would.
// The error is a Problem.
func ReadFiles(fsys fs.FS, names []string) (map[string][]byte, error) {
	l := &loader{plan: new(Plan), fsys: fsys}
	files := make(map[string][]byte, len(names))
	for _, name := range names {
		data, ok := l.read(name, mostOf(name))
		if !ok {
			return nil, l.plan.Problems[0]
		}
		files[name] = data
	}
	return files, nil
}

// MayMatter reports whether a file with this path below the root of a plan could
// make a difference to the plan: one that is read, or one that is refused by its name
// or depth. Whether it does is for FindFiles to say.
func MayMatter(name string) bool {
	parts := strings.Split(name, "/")
	if slices.ContainsFunc(parts, func(part string) bool { return strings.HasPrefix(part, ".") }) {
		return false
	}
	return isPlanFile(name) || len(parts) > MaxFolders || strings.ContainsFunc(name, unprintable)
}
