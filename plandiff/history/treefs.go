package history

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"path"
	"strings"
	"sync"
	"time"
)

// Tree shows the folder dir ("" or "." for all) of a commit as a read-only file
// system, which reads from the repository as it is asked. It implements
// fs.ReadDirFS, fs.ReadFileFS, fs.StatFS and fs.ReadLinkFS.
//
// Names are exactly those of the commit; one that is not valid UTF-8 is listed
// but cannot be opened, as io/fs has it. Symbolic links and submodules are
// listed with fs.ModeSymlink and fs.ModeIrregular, are never followed and cannot
// be opened. Stat tells the size of a file without reading it. The time of every
// file is that of the commit.
//
// ctx is for all reading from the file system, so it must live as long as that.
// If the commit has no such folder, the error is fs.ErrNotExist.
func (r *Repository) Tree(ctx context.Context, commit Commit, dir string) (fs.FS, error) {
	dir, err := cleanDir(dir)
	if err != nil {
		return nil, err
	}
	at, err := newTreeDiff(ctx, r).at(commit.tree, dir)
	if err != nil {
		return nil, err
	}
	if at.mode != modeDir {
		return nil, fmt.Errorf("commit %s has no folder %q: %w", commit.Short(), dir, fs.ErrNotExist)
	}
	return &treeFS{ctx: ctx, r: r, root: at.id, when: commit.Committed, read: make(map[string][]entry)}, nil
}

// cleanDir is dir without "." for the top; it must stay inside.
func cleanDir(dir string) (string, error) {
	if dir == "" || dir == "." {
		return "", nil
	}
	if !fs.ValidPath(dir) {
		return "", fmt.Errorf("%q is not a path below the top of the repository (slashes, no \"..\")", dir)
	}
	return dir, nil
}

type treeFS struct {
	ctx  context.Context
	r    *Repository
	root string
	when time.Time

	mu   sync.Mutex
	read map[string][]entry // by hash
}

var (
	errLink      = errors.New("it is a symbolic link, and links in a repository are not followed; write the file itself in its place")
	errSubmodule = errors.New("it is a submodule, and those are not read; write the file itself in its place")
	errFolder    = errors.New("it is a folder")
)

func (t *treeFS) folder(id string) ([]entry, error) {
	t.mu.Lock()
	entries, ok := t.read[id]
	t.mu.Unlock()
	if ok {
		return entries, nil
	}
	entries, err := t.r.folder(t.ctx, id)
	if err != nil {
		return nil, err
	}
	t.mu.Lock()
	t.read[id] = entries
	t.mu.Unlock()
	return entries, nil
}

// lookup finds the entry of a path. Folders on the way must be folders.
func (t *treeFS) lookup(op, name string) (entry, error) {
	if !fs.ValidPath(name) {
		return entry{}, &fs.PathError{Op: op, Path: name, Err: fs.ErrInvalid}
	}
	here := entry{name: ".", mode: modeDir, id: t.root}
	if name == "." {
		return here, nil
	}
	for part := range strings.SplitSeq(name, "/") {
		if here.mode != modeDir {
			return entry{}, &fs.PathError{Op: op, Path: name, Err: fs.ErrNotExist}
		}
		entries, err := t.folder(here.id)
		if err != nil {
			return entry{}, &fs.PathError{Op: op, Path: name, Err: err}
		}
		if here = find(entries, part); here.mode == 0 {
			return entry{}, &fs.PathError{Op: op, Path: name, Err: fs.ErrNotExist}
		}
	}
	return here, nil
}

func (t *treeFS) Open(name string) (fs.File, error) {
	e, err := t.lookup("open", name)
	if err != nil {
		return nil, err
	}
	if e.mode == modeDir {
		list, err := t.list("open", name, e)
		return &openFolder{info: t.info(e, 0), name: name, rest: list}, err
	}
	info, err := t.stat("open", name, e)
	if err != nil {
		return nil, err
	}
	if err := readable(e); err != nil {
		return nil, &fs.PathError{Op: "open", Path: name, Err: err}
	}
	return &openFile{fs: t, info: info, name: name}, nil
}

func readable(e entry) error {
	switch e.mode {
	case modeFile, modeExec:
		return nil
	case modeDir:
		return errFolder
	case modeLink:
		return errLink
	}
	return errSubmodule
}

func (t *treeFS) ReadFile(name string) ([]byte, error) {
	e, err := t.lookup("read", name)
	if err != nil {
		return nil, err
	}
	if err := readable(e); err != nil {
		return nil, &fs.PathError{Op: "read", Path: name, Err: err}
	}
	data, err := t.r.Blob(t.ctx, e.id)
	if err != nil {
		return nil, &fs.PathError{Op: "read", Path: name, Err: err}
	}
	return data, nil
}

func (t *treeFS) ReadDir(name string) ([]fs.DirEntry, error) {
	e, err := t.lookup("readdir", name)
	if err != nil {
		return nil, err
	}
	return t.list("readdir", name, e)
}

func (t *treeFS) list(op, name string, e entry) ([]fs.DirEntry, error) {
	if e.mode != modeDir {
		return nil, &fs.PathError{Op: op, Path: name, Err: errors.New("it is not a folder")}
	}
	entries, err := t.folder(e.id)
	if err != nil {
		return nil, &fs.PathError{Op: op, Path: name, Err: err}
	}
	list := make([]fs.DirEntry, len(entries))
	for i, e := range entries {
		list[i] = treeEntry{e, t, path.Join(name, e.name)}
	}
	return list, nil
}

// Stat tells of a symbolic link itself, for none is followed.
func (t *treeFS) Stat(name string) (fs.FileInfo, error) {
	e, err := t.lookup("stat", name)
	if err != nil {
		return nil, err
	}
	return t.stat("stat", name, e)
}

// Lstat is Stat.
func (t *treeFS) Lstat(name string) (fs.FileInfo, error) { return t.Stat(name) }

// ReadLink is where a symbolic link points, as text: it may lead anywhere.
func (t *treeFS) ReadLink(name string) (string, error) {
	e, err := t.lookup("readlink", name)
	if err != nil {
		return "", err
	}
	if e.mode != modeLink {
		return "", &fs.PathError{Op: "readlink", Path: name, Err: fs.ErrInvalid}
	}
	target, err := t.r.Blob(t.ctx, e.id)
	if err != nil {
		return "", &fs.PathError{Op: "readlink", Path: name, Err: err}
	}
	return string(target), nil
}

func (t *treeFS) stat(op, name string, e entry) (fs.FileInfo, error) {
	if e.mode == modeDir || e.mode == modeGitlink {
		return t.info(e, 0), nil
	}
	size, err := t.r.BlobSize(t.ctx, e.id)
	if err != nil {
		return nil, &fs.PathError{Op: op, Path: name, Err: err}
	}
	return t.info(e, size), nil
}

func (t *treeFS) info(e entry, size int64) fs.FileInfo {
	return treeInfo{name: e.name, mode: e.mode.fileMode(), size: size, when: t.when}
}
