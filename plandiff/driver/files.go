package driver

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path"
	"path/filepath"

	"passband.example/plandiff/history"
	"passband.example/plandiff/merge"
	"passband.example/plandiff/plan"
	"passband.example/plandiff/rewrite"
	"passband.example/plandiff/whole"
)

// Merged is what came of merging three folders, or three files.
type Merged struct {
	*merge.Result
	Folder bool // it is a plan, and not one file of one
	ours   merge.Files
	dir    string // of ours
}

// Between merges what stands on disk: three folders of plans, or three files. name
// says which file of a plan the three are, by its path below the folder of the plan;
// where it is empty, the name of ours does, or else plan.yaml.
func Between(base, ours, theirs, name string, labels merge.Labels) (*Merged, error) {
	folders := 0
	for _, v := range []string{base, ours, theirs} {
		info, err := os.Stat(v)
		if err != nil {
			return nil, err
		}
		if info.IsDir() {
			folders++
		}
	}
	switch folders {
	case 0:
		return betweenFiles(base, ours, theirs, name, labels)
	case 3:
		return betweenFolders(base, ours, theirs, labels)
	}
	return nil, fmt.Errorf("%s, %s and %s are neither three folders nor three files; name three of one kind", base, ours, theirs)
}

func betweenFiles(base, ours, theirs, name string, labels merge.Labels) (*Merged, error) {
	var texts [3][]byte
	for i, v := range []string{base, ours, theirs} {
		if info, err := os.Stat(v); err == nil && info.Size() > plan.MaxTableSize {
			return nil, fmt.Errorf("%s is %d MB large; the most that passband reads of a file is %d MB; split it, or take out what is no plan", v, info.Size()>>20, plan.MaxTableSize>>20)
		}
		text, err := os.ReadFile(v)
		if err != nil {
			return nil, err
		}
		texts[i] = text
	}
	if name == "" {
		if name = filepath.Base(ours); !isPlanFile(name) {
			name = plan.RootFile
		}
	}
	if name = path.Clean(filepath.ToSlash(name)); !isPlanFile(name) {
		return nil, fmt.Errorf("%s is no name of a file of a plan; such a name ends in .yaml or .yml, or is that of a table, such as %s", name, plan.OperatorsFile)
	}
	r, err := merge.File(name, texts[0], texts[1], texts[2], labels)
	if err != nil {
		return nil, err
	}
	return &Merged{Result: r}, nil
}

func betweenFolders(base, ours, theirs string, labels merge.Labels) (*Merged, error) {
	var plans [3]merge.Files
	for i, dir := range []string{base, ours, theirs} {
		files, err := readFolder(dir)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", dir, err)
		}
		plans[i] = files
	}
	r, err := merge.Plans(plans[0], plans[1], plans[2], labels)
	if err != nil {
		return nil, err
	}
	return &Merged{Result: r, Folder: true, ours: plans[1], dir: ours}, nil
}

func readFolder(dir string) (merge.Files, error) {
	tree, err := history.WorkTree(dir)
	if err != nil {
		return nil, err
	}
	return ReadPlan(tree)
}

// Different gives the names of the files that are not as ours has them, sorted.
func (m *Merged) Different() []string {
	var names []string
	for _, name := range merge.Names(m.Files) {
		if old, there := m.ours[name]; !there || string(old) != string(m.Files[name]) {
			names = append(names, name)
		}
	}
	return names
}

// Gone gives the names of the files of ours that the merged plan does not have.
func (m *Merged) Gone() []string {
	var names []string
	for _, name := range merge.Names(m.ours) {
		if _, there := m.Files[name]; !there {
			names = append(names, name)
		}
	}
	return names
}

// Write puts the merged text into a file, or the merged plan into the folder of ours,
// where files that the plan no longer has are taken away, or into a new folder. Each
// file is written whole or not at all, and only where it is different.
func (m *Merged) Write(to string) error {
	if !m.Folder {
		for _, text := range m.Files {
			return whole.File(to, text)
		}
	}
	if _, err := os.Stat(to); errors.Is(err, fs.ErrNotExist) {
		return whole.Folder(to, func(dir string) error { return m.put(dir, merge.Names(m.Files)) })
	}
	if !sameFile(to, m.dir) {
		return fmt.Errorf("%s is neither a new folder nor %s, and what stands there could be lost; name one of these", to, m.dir)
	}
	if err := m.put(to, m.Different()); err != nil {
		return err
	}
	for _, name := range m.Gone() {
		if err := os.Remove(filepath.Join(to, filepath.FromSlash(name))); err != nil {
			return err
		}
	}
	return nil
}

func (m *Merged) put(dir string, names []string) error {
	for _, name := range names {
		at := filepath.Join(dir, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(at), 0o755); err != nil {
			return err
		}
		if err := whole.File(at, m.Files[name]); err != nil {
			return err
		}
	}
	return nil
}

// Tidy lays out the files of the plan in dir and gives the names of those that were
// not tidy. check writes nothing.
func Tidy(dir string, check bool) ([]string, error) {
	files, err := readFolder(dir)
	if err != nil {
		return nil, err
	}
	p, err := rewrite.Load(files)
	if err != nil {
		return nil, err
	}
	texts, err := rewrite.Tidy(files, p)
	if err != nil {
		return nil, err
	}
	names := merge.Names(texts)
	if check || len(names) == 0 {
		return names, nil
	}
	return names, whole.Files(dir, files, texts)
}
