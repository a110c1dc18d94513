package history

import (
	"bytes"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"slices"
	"strconv"
	"strings"
)

// An entry is one line of a tree object, or, with mode 0, the lack of one.
type entry struct {
	name string
	mode gitMode
	id   string
}

// A gitMode is what git knows of a file: one of five values.
type gitMode uint32

const (
	modeDir     gitMode = 0o040000
	modeFile    gitMode = 0o100644
	modeExec    gitMode = 0o100755
	modeLink    gitMode = 0o120000
	modeGitlink gitMode = 0o160000 // a submodule: a commit of another repository
)

// canonical maps the modes that older programs wrote to the five of today, as git does on reading.
func canonical(m uint64) gitMode {
	switch gitMode(m) & 0o170000 {
	case 0o100000:
		if m&0o100 != 0 {
			return modeExec
		}
		return modeFile
	case modeDir, modeLink:
		return gitMode(m) & 0o170000
	}
	return modeGitlink
}

// fileMode is the mode as io/fs shows it. Nothing can be written, so no write bits.
func (m gitMode) fileMode() fs.FileMode {
	switch m {
	case 0:
		return 0
	case modeDir:
		return fs.ModeDir | 0o555
	case modeFile:
		return 0o444
	case modeExec:
		return 0o555
	case modeLink:
		return fs.ModeSymlink | 0o777
	}
	return fs.ModeIrregular
}

// parseTree reads a tree object: for each entry the mode in octal, a space, the
// name, a zero byte and the hash in binary. The entries come out sorted by name,
// which git's own order is not quite. A name that git itself would never write
// is refused: it could lead outside the tree.
func parseTree(id string, data []byte) ([]entry, error) {
	width := len(id) / 2
	var entries []entry
	for len(data) > 0 {
		head, rest, ok := bytes.Cut(data, []byte{0})
		octal, name, ok2 := strings.Cut(string(head), " ")
		mode, err := strconv.ParseUint(octal, 8, 32)
		if !ok || !ok2 || err != nil || len(rest) < width {
			return nil, damaged(id, errors.New("the tree cannot be read"))
		}
		if name == "" || name == "." || name == ".." || strings.Contains(name, "/") {
			return nil, damaged(id, fmt.Errorf("the tree holds an entry named %q", name))
		}
		entries = append(entries, entry{name, canonical(mode), hex.EncodeToString(rest[:width])})
		data = rest[width:]
	}
	slices.SortFunc(entries, func(a, b entry) int { return strings.Compare(a.name, b.name) })
	for i := 1; i < len(entries); i++ {
		if entries[i].name == entries[i-1].name {
			return nil, damaged(id, fmt.Errorf("the tree holds two entries named %q", entries[i].name))
		}
	}
	return entries, nil
}

// find looks a name up among sorted entries; if it is not there, the zero entry.
func find(entries []entry, name string) entry {
	i, ok := slices.BinarySearchFunc(entries, name, func(e entry, name string) int { return strings.Compare(e.name, name) })
	if !ok {
		return entry{}
	}
	return entries[i]
}
