package history

import (
	"context"
	"errors"
	"fmt"
	"sync"
	"time"
)

// A Repository is an opened git repository. It is safe for use by several
// goroutines. Close it when done: a git process may be waiting for questions.
type Repository struct {
	at place

	mu    sync.Mutex
	store store // in use
	spare store // the git command, while store is go-git; nil if there is none
}

// A Commit is one recorded state of the repository.
type Commit struct {
	Hash        string   // in full, hexadecimal
	Parents     []string // hashes; more than one for a merge
	Truncated   bool     // a shallow clone was cut here: there are parents, but they were not fetched
	Author      string   // as written by whoever made the commit: untrusted text, valid UTF-8
	AuthorEmail string
	When        time.Time // when the author made the change, in the author's zone; zero if unreadable
	Committed   time.Time // when it was put into this history; git orders by this
	Subject     string    // first paragraph of the message, on one line
	Body        string    // the rest of the message

	tree string
}

// Short is the hash as people write it.
func (c Commit) Short() string { return short(c.Hash) }

// Open finds the repository that holds the folder dir: a clone or any folder
// below its top, a linked work tree, a submodule or a bare repository. GIT_DIR
// and the like in the environment are not asked.
//
// The context is for the opening only. The error is ErrNoRepository or
// ErrNeedsGit, or says what git says.
func Open(ctx context.Context, dir string) (*Repository, error) {
	at, err := locate(dir)
	if err != nil {
		return nil, err
	}
	r := &Repository{at: at}
	command, noCommand := newCommandStore(at)
	library, why := newLibraryStore(at)
	switch {
	case why == nil:
		r.store = library
		if noCommand == nil {
			r.spare = command
		}
	case noCommand != nil:
		return nil, needsGit(why)
	default:
		if _, err := command.references(ctx); err != nil {
			return nil, errors.Join(r.explain(err), command.close())
		}
		r.store = command
	}
	return r, nil
}

// Close ends what was started for reading. Reading afterwards starts it again.
func (r *Repository) Close() error {
	r.mu.Lock()
	defer r.mu.Unlock()
	err := r.store.close()
	if r.spare != nil {
		err = errors.Join(err, r.spare.close())
	}
	return err
}

// Root is the top folder of the work tree, without symbolic links in it, or ""
// when the repository is bare.
func (r *Repository) Root() string { return r.at.top }

// Prefix is the path of the opened folder below Root, with slashes; "" at the top.
func (r *Repository) Prefix() string { return r.at.prefix }

// Bare says whether there is no work tree.
func (r *Repository) Bare() bool { return r.at.top == "" }

// Shallow says whether older history was left out when the repository was cloned.
func (r *Repository) Shallow() bool { return len(r.at.shallow) > 0 }

// Backing names what the repository is being read with: "go-git" or "git".
// It can change from the first to the second, never back.
func (r *Repository) Backing() string { return r.current().name() }

func (r *Repository) current() store {
	r.mu.Lock()
	defer r.mu.Unlock()
	return r.store
}

// switchOver takes the git command into use if there is one, and says whether
// there is now something else to ask than tried.
func (r *Repository) switchOver(ctx context.Context, tried store) bool {
	r.mu.Lock()
	defer r.mu.Unlock()
	if r.store != tried {
		return true // another goroutine did it
	}
	if r.spare == nil {
		return false
	}
	if _, err := r.spare.references(ctx); err != nil {
		return false
	}
	_ = r.store.close() // read-only: nothing can be lost
	r.store, r.spare = r.spare, nil
	return true
}

// ask puts a question to the store in use. What go-git cannot answer, such as
// an object that it does not find, is asked again of the git command.
func ask[T any](ctx context.Context, r *Repository, question func(store) (T, error)) (T, error) {
	used := r.current()
	answer, err := question(used)
	if err != nil && ctx.Err() == nil && r.switchOver(ctx, used) {
		answer, err = question(r.current())
	}
	if err != nil && ctx.Err() != nil {
		err = ctx.Err()
	}
	return answer, r.explain(err)
}

func (r *Repository) references(ctx context.Context) (references, error) {
	return ask(ctx, r, func(s store) (references, error) { return s.references(ctx) })
}

func (r *Repository) object(ctx context.Context, id string) (object, error) {
	return ask(ctx, r, func(s store) (object, error) { return s.object(ctx, id) })
}

// Blob reads the file contents with the given hash, which comes from a
// BlobChange. The bytes are the caller's.
func (r *Repository) Blob(ctx context.Context, hash string) ([]byte, error) {
	if !isHash(hash) {
		return nil, fmt.Errorf("%q is not the full hash of a git object", hash)
	}
	o, err := r.object(ctx, hash)
	if err != nil {
		return nil, err
	}
	if o.kind != blobKind {
		return nil, fmt.Errorf("object %s is a %s, not the contents of a file", short(hash), o.kind)
	}
	return o.data, nil
}

// BlobSize is the length in bytes of what Blob would read, found without reading it.
func (r *Repository) BlobSize(ctx context.Context, hash string) (int64, error) {
	if !isHash(hash) {
		return 0, fmt.Errorf("%q is not the full hash of a git object", hash)
	}
	return ask(ctx, r, func(s store) (int64, error) { return s.size(ctx, hash) })
}

// commit reads a commit and cuts its parents off where a shallow clone ends.
func (r *Repository) commit(ctx context.Context, id string) (Commit, error) {
	o, err := r.object(ctx, id)
	if err != nil {
		return Commit{}, err
	}
	if o.kind != commitKind {
		return Commit{}, damaged(id, fmt.Errorf("it is a %s where a commit should be", o.kind))
	}
	c, err := parseCommit(id, o.data)
	return r.at.cut(c), err
}

func (p place) cut(c Commit) Commit {
	if p.shallow[c.Hash] {
		c.Parents, c.Truncated = nil, true
	}
	return c
}

// folder reads a tree; that of no object at all is empty.
func (r *Repository) folder(ctx context.Context, id string) ([]entry, error) {
	if id == "" {
		return nil, nil
	}
	o, err := r.object(ctx, id)
	if err != nil {
		return nil, err
	}
	if o.kind != treeKind {
		return nil, damaged(id, fmt.Errorf("it is a %s where a folder should be", o.kind))
	}
	return parseTree(id, o.data)
}
