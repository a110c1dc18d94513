package history

import (
	"context"
	"fmt"
	"slices"
	"strings"
)

// A treeDiff compares trees by the hashes of their entries and reads only what
// differs.
type treeDiff struct {
	ctx   context.Context
	from  *Repository
	young map[string][]entry // trees read of late
	old   map[string][]entry // those before them
}

// keepTrees bounds each half of the cache. A tree is used for its commit and
// for the children of that, which come close together.
const keepTrees = 2000

func newTreeDiff(ctx context.Context, from *Repository) *treeDiff {
	return &treeDiff{ctx: ctx, from: from, young: make(map[string][]entry)}
}

func (d *treeDiff) tree(id string) ([]entry, error) {
	if entries, ok := d.young[id]; ok {
		return entries, nil
	}
	entries, ok := d.old[id]
	if !ok {
		var err error
		if entries, err = d.from.folder(d.ctx, id); err != nil {
			return nil, err
		}
	}
	if len(d.young) >= keepTrees {
		d.young, d.old = make(map[string][]entry), d.young
	}
	d.young[id] = entries
	return entries, nil
}

// at finds dir in the tree with the given hash; the zero entry if it is not there.
func (d *treeDiff) at(root, dir string) (entry, error) {
	here := entry{mode: modeDir, id: root}
	if dir == "" || root == "" {
		return here, nil
	}
	for name := range strings.SplitSeq(dir, "/") {
		if here.mode != modeDir {
			return entry{}, nil
		}
		entries, err := d.tree(here.id)
		if err != nil {
			return entry{}, err
		}
		here = find(entries, name)
	}
	return here, nil
}

// mostChanges bounds what one commit may change. A few objects can be arranged
// to unfold into a tree without end, and no plan has a million files.
const mostChanges = 1_000_000

func tooManyChanges() error {
	return fmt.Errorf("more than %d files differ, which is no plan's history; name the plan's folder", mostChanges)
}

// changes lists what differs between two entries, sorted by path.
func (d *treeDiff) changes(a, b entry) ([]BlobChange, error) {
	var list []BlobChange
	if err := d.collect("", a, b, &list); err != nil {
		return nil, err
	}
	slices.SortFunc(list, func(x, y BlobChange) int { return strings.Compare(x.Path, y.Path) })
	return list, nil
}

func (d *treeDiff) collect(path string, a, b entry, list *[]BlobChange) error {
	if a.mode == b.mode && a.id == b.id {
		return nil
	}
	fileA, dirA := split(a)
	fileB, dirB := split(b)
	if fileA != fileB {
		at := path
		if at == "" {
			at = "."
		}
		*list = append(*list, BlobChange{Path: at, Old: fileA, New: fileB})
	}
	if dirA == dirB {
		return nil
	}
	return d.collectBelow(path, dirA, dirB, list)
}

// split tells a file from a folder: one path can be the one before and the other after.
func split(e entry) (file Version, dir string) {
	if e.mode == modeDir {
		return Version{}, e.id
	}
	if e.mode == 0 {
		return Version{}, ""
	}
	return e.version(), ""
}

// collectBelow walks the entries of two folders side by side.
func (d *treeDiff) collectBelow(path, a, b string, list *[]BlobChange) error {
	if err := d.ctx.Err(); err != nil {
		return err
	}
	if len(*list) > mostChanges {
		return tooManyChanges()
	}
	left, err := d.tree(a)
	if err != nil {
		return err
	}
	right, err := d.tree(b)
	if err != nil {
		return err
	}
	if path != "" {
		path += "/"
	}
	for len(left) > 0 || len(right) > 0 {
		var l, r entry
		switch {
		case len(right) == 0 || len(left) > 0 && left[0].name < right[0].name:
			l, left = left[0], left[1:]
		case len(left) == 0 || right[0].name < left[0].name:
			r, right = right[0], right[1:]
		default:
			l, left = left[0], left[1:]
			r, right = right[0], right[1:]
		}
		if err := d.collect(path+max(l.name, r.name), l, r, list); err != nil {
			return err
		}
	}
	return nil
}
