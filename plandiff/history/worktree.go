package history

import (
	"errors"
	"io/fs"
	"os"
	"path"
	"strings"
)

// WorkTree shows a folder on disk as a read-only file system that cannot be led
// out of it: the operating system resolves every name below the folder
// (os.Root), and no symbolic link within is followed. Links are listed with
// fs.ModeSymlink and cannot be opened, nor can pipes, sockets and devices, on
// which reading could wait for ever. It implements the same interfaces as Tree.
func WorkTree(dir string) (fs.FS, error) {
	root, err := os.OpenRoot(dir)
	if err != nil {
		return nil, err
	}
	return workTree{root}, nil
}

type workTree struct{ root *os.Root }

var errSpecial = errors.New("it is not a file but a pipe, a socket or a device")

// lstat tells of name itself, and fails if a folder on the way is a link.
func (w workTree) lstat(op, name string) (fs.FileInfo, error) {
	if !fs.ValidPath(name) {
		return nil, &fs.PathError{Op: op, Path: name, Err: fs.ErrInvalid}
	}
	for i, c := range name {
		if c != '/' {
			continue
		}
		info, err := w.root.Lstat(name[:i])
		if err != nil {
			return nil, err
		}
		if info.Mode()&fs.ModeSymlink != 0 {
			return nil, &fs.PathError{Op: op, Path: name[:i], Err: errLink}
		}
	}
	return w.root.Lstat(name)
}

func (w workTree) Open(name string) (fs.File, error) {
	info, err := w.lstat("open", name)
	if err != nil {
		return nil, err
	}
	switch {
	case info.Mode()&fs.ModeSymlink != 0:
		return nil, &fs.PathError{Op: "open", Path: name, Err: errLink}
	case !info.Mode().IsRegular() && !info.IsDir():
		return nil, &fs.PathError{Op: "open", Path: name, Err: errSpecial}
	}
	f, err := w.root.Open(name)
	if err != nil {
		return nil, err
	}
	// Somebody may have put a link there in the meantime.
	if now, err := f.Stat(); err != nil || !os.SameFile(info, now) {
		return nil, errors.Join(&fs.PathError{Op: "open", Path: name, Err: errors.New("it was changed while it was being opened; try again")}, f.Close())
	}
	return f, nil
}

func (w workTree) ReadFile(name string) ([]byte, error) {
	return fs.ReadFile(plain{w}, name)
}

func (w workTree) ReadDir(name string) ([]fs.DirEntry, error) {
	return fs.ReadDir(plain{w}, name)
}

// Stat tells of a symbolic link itself, for none is followed.
func (w workTree) Stat(name string) (fs.FileInfo, error) { return w.lstat("stat", name) }

// Lstat is Stat.
func (w workTree) Lstat(name string) (fs.FileInfo, error) { return w.lstat("lstat", name) }

// ReadLink is where a symbolic link points, as text: it may lead anywhere.
func (w workTree) ReadLink(name string) (string, error) {
	if _, err := w.lstat("readlink", path.Dir(name)); err != nil {
		return "", err
	}
	target, err := w.root.Readlink(name)
	return strings.ReplaceAll(target, string(os.PathSeparator), "/"), err
}

// plain hides all methods but Open, so that package fs does the rest by way of it.
type plain struct{ w workTree }

func (p plain) Open(name string) (fs.File, error) { return p.w.Open(name) }
