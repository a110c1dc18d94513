package history

import (
	"bytes"
	"context"
	"encoding/hex"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"sync"

	"github.com/go-git/go-billy/v5"
	"github.com/go-git/go-billy/v5/osfs"
	"github.com/go-git/go-git/v5/plumbing"
	"github.com/go-git/go-git/v5/plumbing/cache"
	"github.com/go-git/go-git/v5/storage/filesystem"
	"github.com/go-git/go-git/v5/storage/filesystem/dotgit"
)

// A libraryStore reads the files of a repository with go-git. Only its storage
// layer is used: objects and names. It starts no process, reads no
// configuration but the list of extensions, and ignores who owns the files.
type libraryStore struct {
	mu      sync.Mutex // go-git's storage is not safe for concurrent use
	storage *filesystem.Storage
}

// deltaCache must hold the bases of the deltas in flight; below about 96 MiB
// long histories of large files read markedly slower (measured, 8 MiB: 1.8 times).
const deltaCache = 96 * cache.MiByte

// newLibraryStore fails where go-git would not give the right answers; the
// error says why in words that fit into a sentence.
func newLibraryStore(at place) (s *libraryStore, err error) {
	defer recoverAs(&err)
	if at.borrows() {
		return nil, errors.New("it borrows objects from another repository, as after \"git clone --shared\"")
	}
	var files billy.Filesystem = osfs.New(at.gitDir)
	if at.common != at.gitDir {
		files = dotgit.NewRepositoryFilesystem(files, osfs.New(at.common))
	}
	s = &libraryStore{storage: filesystem.NewStorageWithOptions(files,
		cache.NewObjectLRU(deltaCache), filesystem.Options{KeepDescriptors: true})}
	return s, s.checkFormat()
}

// checkFormat refuses formats of repository that go-git cannot read. Extensions
// that only concern the work tree or what may be deleted do not matter here
// (gitrepository-layout; git-config, extensions.*).
func (s *libraryStore) checkFormat() error {
	config, err := s.storage.Config()
	if err != nil {
		return fmt.Errorf("its configuration cannot be read: %w", err)
	}
	if v := config.Core.RepositoryFormatVersion; v != "" && v != "0" && v != "1" {
		return fmt.Errorf("it has format version %s", v)
	}
	if config.Raw == nil || !config.Raw.HasSection("extensions") {
		return nil
	}
	for _, option := range config.Raw.Section("extensions").Options {
		switch strings.ToLower(option.Key) {
		case "noop", "noop-v1", "preciousobjects", "partialclone", "worktreeconfig", "relativeworktrees":
		case "objectformat":
			if !strings.EqualFold(option.Value, "sha1") {
				return fmt.Errorf("its object format is %s", option.Value)
			}
		case "refstorage":
			if !strings.EqualFold(option.Value, "files") {
				return fmt.Errorf("its references are kept as %s", option.Value)
			}
		default:
			return fmt.Errorf("it uses the extension %s", option.Key)
		}
	}
	return nil
}

func (s *libraryStore) name() string { return "go-git" }

func (s *libraryStore) references(context.Context) (refs references, err error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	defer recoverAs(&err)

	refs.byName = make(map[string]string)
	symbolic := make(map[string]string)
	note := func(ref *plumbing.Reference) error {
		switch name := ref.Name().String(); {
		case ref.Type() == plumbing.SymbolicReference:
			symbolic[name] = ref.Target().String()
		case !ref.Hash().IsZero():
			refs.byName[name] = ref.Hash().String()
		}
		return nil
	}
	unread := func(err error) (references, error) {
		return references{}, damagedNames(fmt.Sprintf("its branches and tags cannot be read (%v)", err))
	}
	all, err := s.storage.IterReferences()
	if err != nil {
		return unread(err)
	}
	if err := all.ForEach(note); err != nil {
		return unread(err)
	}
	head, err := s.storage.Reference(plumbing.HEAD)
	if err != nil {
		return unread(err)
	}
	_ = note(head)
	refs.branch = symbolic["HEAD"]
	follow(refs.byName, symbolic)
	return refs, nil
}

// follow gives each symbolic name the object of the name that it stands for, if that has one.
func follow(byName, symbolic map[string]string) {
	const deepest = 5 // git's own limit (SYMREF_MAXDEPTH)
	for name, target := range symbolic {
		for range deepest {
			if id, ok := byName[target]; ok {
				byName[name] = id
				break
			}
			target = symbolic[target]
		}
	}
}

func (s *libraryStore) withPrefix(_ context.Context, prefix string) (ids []string, err error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	defer recoverAs(&err)

	whole, err := hex.DecodeString(prefix[:len(prefix)&^1]) // whole bytes; the last digit is compared below
	if err != nil {
		return nil, err
	}
	found, err := s.storage.HashesWithPrefix(whole)
	if err != nil {
		return nil, err
	}
	for _, h := range found {
		if id := h.String(); strings.HasPrefix(id, prefix) {
			ids = append(ids, id)
		}
	}
	slices.Sort(ids)
	return slices.Compact(ids), nil
}

func (s *libraryStore) object(ctx context.Context, id string) (object, error) {
	o, _, err := s.objectAtMost(ctx, id, math.MaxInt64)
	return o, err
}

// objectAtMost asks for the size of what was found and not of its name: for that a delta
// would be read once more.
func (s *libraryStore) objectAtMost(ctx context.Context, id string, most int64) (o object, size int64, err error) {
	if err := s.ready(ctx, id); err != nil {
		return object{}, 0, err
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	defer recoverAs(&err)

	encoded, err := s.storage.EncodedObject(plumbing.AnyObject, plumbing.NewHash(id))
	if err != nil {
		return object{}, 0, libraryError(id, err)
	}
	o.kind = encoded.Type().String()
	if size = encoded.Size(); size > most {
		return o, size, nil
	}
	content, err := encoded.Reader()
	if err != nil {
		return object{}, 0, libraryError(id, err)
	}
	defer content.Close()
	var data bytes.Buffer
	data.Grow(int(min(max(size, 0), trustedSize)) + bytes.MinRead)
	if _, err := data.ReadFrom(content); err != nil {
		return object{}, 0, libraryError(id, err)
	}
	if int64(data.Len()) != size {
		return object{}, 0, damaged(id, fmt.Errorf("%d of %d bytes are there", data.Len(), size))
	}
	o.data = data.Bytes()
	return o, size, nil
}

// ready refuses a hash of the wrong length, which go-git would silently cut.
func (s *libraryStore) ready(ctx context.Context, id string) error {
	if len(id) != 2*len(plumbing.ZeroHash) {
		return missing(id)
	}
	return ctx.Err()
}

func (s *libraryStore) size(ctx context.Context, id string) (n int64, err error) {
	if err := s.ready(ctx, id); err != nil {
		return 0, err
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	defer recoverAs(&err)
	n, err = s.storage.EncodedObjectSize(plumbing.NewHash(id))
	return n, libraryError(id, err)
}

func (s *libraryStore) close() error {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.storage.Close()
}

func libraryError(id string, err error) error {
	switch {
	case err == nil:
		return nil
	case errors.Is(err, plumbing.ErrObjectNotFound):
		return missing(id)
	}
	return damaged(id, err)
}

// recoverAs turns a panic of the library, which a crafted repository may
// provoke, into an error.
func recoverAs(err *error) {
	if p := recover(); p != nil {
		*err = fail(ErrDamaged, "the repository is damaged: go-git gave up with %q; \"git fsck\" says how much is lost", fmt.Sprint(p))
	}
}
