package history

import (
	"context"
	"fmt"
	"io"
	"slices"
)

// BlobAtMost is Blob for contents of at most so many bytes. Of larger ones it
// gives the length alone, and never holds them.
func (r *Repository) BlobAtMost(ctx context.Context, hash string, most int64) (data []byte, size int64, err error) {
	if !isHash(hash) {
		return nil, 0, fmt.Errorf("%q is not the full hash of a git object", hash)
	}
	type sized struct {
		object
		size int64
	}
	o, err := ask(ctx, r, func(s store) (o sized, err error) {
		o.object, o.size, err = s.objectAtMost(ctx, hash, most)
		return o, err
	})
	if err == nil && o.kind != blobKind {
		err = fmt.Errorf("object %s is a %s, not the contents of a file", short(hash), o.kind)
	}
	if err != nil {
		return nil, 0, err
	}
	return o.data, o.size, nil
}

// objectAtMost is object, but skips the bytes of one that is larger.
func (s *commandStore) objectAtMost(ctx context.Context, id string, most int64) (o object, size int64, err error) {
	err = s.contents.ask(ctx, id, func(kind string, n int64, from *reply) (err error) {
		o.kind, size = kind, n
		if n > most {
			_, err = io.CopyN(io.Discard, from.r, n+1) // and the line end behind them
			return err
		}
		o.data, err = from.body(n)
		return err
	})
	return o, size, s.conversationError(id, err)
}

// mostAsked is how many objects git is asked for at once. Their hashes must fit into a pipe
// while git waits for its answers to be read.
const mostAsked = 64

// EachBlob reads the contents with these hashes, of those that are at most so many bytes, and
// hands them to use one after the other. With git at hand it works on one while another is
// read. What cannot be read is left out: asked for by itself, Blob says why.
func (r *Repository) EachBlob(ctx context.Context, hashes []string, most int64, use func(hash string, data []byte)) {
	hashes = slices.DeleteFunc(slices.Clone(hashes), func(hash string) bool { return !isHash(hash) })
	if git, ok := r.current().(*commandStore); ok {
		for some := range slices.Chunk(hashes, mostAsked) {
			git.each(ctx, some, most, use)
		}
		return
	}
	for _, hash := range hashes {
		if data, size, err := r.BlobAtMost(ctx, hash, most); err == nil && size <= most {
			use(hash, data)
		}
	}
}

// each reads several objects at once.
func (s *commandStore) each(ctx context.Context, ids []string, most int64, use func(id string, data []byte)) {
	_ = s.contents.askAll(ctx, ids, func(i int, kind string, size int64, from *reply) error {
		if size > most || kind != blobKind {
			_, err := io.CopyN(io.Discard, from.r, size+1) // and the line end behind them
			return err
		}
		data, err := from.body(size)
		if err == nil {
			use(ids[i], data)
		}
		return err
	})
}
