package history

import (
	"io/fs"
	"path"
	"slices"
	"strings"

	"passband.example/plandiff/plan"
)

// Elsewhere lists the folders below the side, and not the side itself, that hold
// a plan: what somebody may have meant who named the wrong folder. It looks a few
// folders deep and gives up quietly in a large tree.
func (s Side) Elsewhere() []string {
	const deepest, most = 4, 20_000
	var found []string
	seen := 0
	_ = fs.WalkDir(s.Files, ".", func(name string, d fs.DirEntry, err error) error {
		switch seen++; {
		case seen > most:
			return fs.SkipAll
		case err != nil || name == ".":
			return nil
		case d.IsDir() && (strings.HasPrefix(d.Name(), ".") || strings.Count(name, "/") >= deepest):
			return fs.SkipDir
		case d.Type().IsRegular() && path.Base(name) == plan.RootFile && path.Dir(name) != ".":
			found = append(found, path.Dir(name))
		}
		return nil
	})
	slices.Sort(found)
	return found
}
