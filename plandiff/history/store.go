package history

import "context"

// A store is one way to reach what a repository holds. It hands out names and
// the bytes of objects as git keeps them; what they mean is worked out once,
// above, so that every store gives the same answers.
type store interface {
	name() string

	// references lists every branch, tag and remote branch, and HEAD.
	references(ctx context.Context) (references, error)

	// withPrefix lists the objects whose hash begins with prefix (hexadecimal, at least 4 digits).
	withPrefix(ctx context.Context, prefix string) ([]string, error)

	// object reads one object whole; the bytes are the caller's. If there is none, errMissing.
	object(ctx context.Context, id string) (object, error)

	// objectAtMost is object, but of one with more bytes it gives only kind and size.
	objectAtMost(ctx context.Context, id string, most int64) (object, int64, error)

	// size is the length of an object in bytes, found without reading it whole.
	size(ctx context.Context, id string) (int64, error)

	close() error
}

// The kinds of object that git keeps.
const (
	commitKind = "commit"
	treeKind   = "tree"
	blobKind   = "blob"
	tagKind    = "tag"
)

type object struct {
	kind string
	data []byte
}

// references are the names of a repository.
type references struct {
	branch string            // what HEAD stands for, such as refs/heads/main; "" when detached
	byName map[string]string // full name to object hash; HEAD too, unless unborn
}

// hashLength is 40 for SHA-1 and 64 for SHA-256, which a repository never mixes.
func (r references) hashLength() int {
	for _, id := range r.byName {
		return len(id)
	}
	return 40
}

// isHash says whether text is a whole object hash: SHA-1 or SHA-256 in
// lower-case hexadecimal.
func isHash(text string) bool {
	return (len(text) == 40 || len(text) == 64) && isHex(text)
}

func isHex(text string) bool {
	for _, c := range []byte(text) {
		if (c < '0' || c > '9') && (c < 'a' || c > 'f') {
			return false
		}
	}
	return true
}

// short is a hash as people write it.
func short(id string) string {
	return id[:min(len(id), 10)]
}
