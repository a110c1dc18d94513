package history

import (
	"context"
	"fmt"
	"io"
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
		if c, ok := s.(*commandStore); ok { // one question instead of two
			o.object, o.size, err = c.objectAtMost(ctx, hash, most)
			return o, err
		}
		if o.size, err = s.size(ctx, hash); err != nil || o.size > most {
			return sized{object{kind: blobKind}, o.size}, err
		}
		o.object, err = s.object(ctx, hash)
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
