package chronicle

import (
	"container/list"
	"context"

	"passband.example/plandiff/plan"
)

// mostCached is how many bytes of text the files may have together that are kept
// parsed. A parsed file takes several times as much memory as its text.
const mostCached = 16 << 20

// A fileCache keeps the files that were used last.
type fileCache struct {
	files map[fileKey]*list.Element
	order *list.List // of *plan.File with their keys, the one used last in front
	size  int64
	most  int64
}

// A fileKey is the contents of a file at a path: places tell the path.
type fileKey struct{ name, hash string }

type cached struct {
	key  fileKey
	file *plan.File
}

func newFileCache() *fileCache {
	return &fileCache{files: make(map[fileKey]*list.Element), order: list.New(), most: mostCached}
}

func (c *fileCache) find(key fileKey) (*plan.File, bool) {
	e, ok := c.files[key]
	if !ok {
		return nil, false
	}
	c.order.MoveToFront(e)
	return e.Value.(cached).file, true
}

func (c *fileCache) put(key fileKey, f *plan.File) {
	c.files[key] = c.order.PushFront(cached{key, f})
	c.size += f.Size()
	for c.size > c.most && c.order.Len() > 1 {
		last := c.order.Remove(c.order.Back()).(cached)
		delete(c.files, last.key)
		c.size -= last.file.Size()
	}
}

// file gives a file of a snapshot, parsed; near is another version of it, which it
// may be like, or nil.
func (r *Reader) file(ctx context.Context, s *snapshot, name string, near *plan.File) (*plan.File, error) {
	key := fileKey{name, s.version(name).Hash}
	if f, ok := r.files.find(key); ok {
		return f, nil
	}
	data, ok := r.ahead.take(key.hash)
	if !ok {
		var size int64
		var err error
		if data, size, err = r.repo.BlobAtMost(ctx, key.hash, plan.MaxTableSize); err != nil {
			return nil, err
		}
		if size > plan.MaxTableSize {
			return plan.TooLarge(name, size), nil
		}
	}
	var f *plan.File
	if near != nil {
		f = near.Amend(data)
	} else {
		f = plan.ParseFile(name, data)
	}
	r.parsed++
	r.files.put(key, f)
	return f, nil
}
