// Package memory holds the files of a plan in memory as a file system.
//
// It lists each folder once, when it is made. The file system in memory of testing/fstest
// looks through all its files for each folder, so that a hostile tree of 100,000 folders held
// a log for a minute and a half.
//
// Links are told as what they are and not followed.
package memory

import (
	"bytes"
	"io"
	"io/fs"
	"path"
	"slices"
	"strings"
	"time"
)

// A File is one file by its text and mode.
type File struct {
	Data []byte
	Mode fs.FileMode
}

// FS is a file system of files by their paths. It is an fs.ReadDirFS and an fs.StatFS.
type FS struct {
	files   map[string]File
	folders map[string][]fs.DirEntry // sorted by name
}

// New makes a file system of files by their paths, and of the folders that these name.
// A path that is not valid (fs.ValidPath) is left out, and so is a file below a file.
func New(files map[string]File) *FS {
	m := &FS{files: files, folders: map[string][]fs.DirEntry{".": nil}}
	for name, file := range files {
		if fs.ValidPath(name) && name != "." && m.within(path.Dir(name)) {
			m.list(name, file.Mode, int64(len(file.Data)))
		}
	}
	for _, entries := range m.folders {
		slices.SortFunc(entries, func(a, b fs.DirEntry) int { return strings.Compare(a.Name(), b.Name()) })
	}
	return m
}

// Texts makes a file system of ordinary files by their texts.
func Texts(texts map[string][]byte) *FS {
	files := make(map[string]File, len(texts))
	for name, text := range texts {
		files[name] = File{Data: text}
	}
	return New(files)
}

// within makes a folder and those that it is in; false where one of them is a file.
func (m *FS) within(dir string) bool {
	if _, ok := m.folders[dir]; ok {
		return true
	}
	if _, ok := m.files[dir]; ok || !m.within(path.Dir(dir)) {
		return false
	}
	m.folders[dir] = nil
	m.list(dir, fs.ModeDir, 0)
	return true
}

func (m *FS) list(name string, mode fs.FileMode, size int64) {
	dir := path.Dir(name)
	m.folders[dir] = append(m.folders[dir], fs.FileInfoToDirEntry(info{path.Base(name), mode, size}))
}

// Stat tells of a file or folder; of a link, of itself.
func (m *FS) Stat(name string) (fs.FileInfo, error) {
	if _, ok := m.folders[name]; ok {
		return info{path.Base(name), fs.ModeDir, 0}, nil
	}
	file, ok := m.files[name]
	if _, listed := m.folders[path.Dir(name)]; !ok || !listed || !fs.ValidPath(name) {
		return nil, &fs.PathError{Op: "stat", Path: name, Err: fs.ErrNotExist}
	}
	return info{path.Base(name), file.Mode, int64(len(file.Data))}, nil
}

// ReadDir lists a folder, sorted by name.
func (m *FS) ReadDir(name string) ([]fs.DirEntry, error) {
	entries, ok := m.folders[name]
	if !ok {
		return nil, &fs.PathError{Op: "readdir", Path: name, Err: fs.ErrNotExist}
	}
	return slices.Clone(entries), nil
}

// Open opens a file or folder for reading.
func (m *FS) Open(name string) (fs.File, error) {
	about, err := m.Stat(name)
	if err != nil {
		return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrNotExist}
	}
	if about.IsDir() {
		return &openFolder{about, m.folders[name]}, nil
	}
	return &openFile{about, bytes.NewReader(m.files[name].Data)}, nil
}

// An info tells of a file.
type info struct {
	name string
	mode fs.FileMode
	size int64
}

func (i info) Name() string       { return i.name }
func (i info) Size() int64        { return i.size }
func (i info) Mode() fs.FileMode  { return i.mode }
func (i info) ModTime() time.Time { return time.Time{} }
func (i info) IsDir() bool        { return i.mode.IsDir() }
func (i info) Sys() any           { return nil }

type openFile struct {
	about fs.FileInfo
	*bytes.Reader
}

func (f *openFile) Stat() (fs.FileInfo, error) { return f.about, nil }
func (f *openFile) Close() error               { return nil }

type openFolder struct {
	about fs.FileInfo
	rest  []fs.DirEntry
}

func (f *openFolder) Stat() (fs.FileInfo, error) { return f.about, nil }
func (f *openFolder) Close() error               { return nil }

func (f *openFolder) Read([]byte) (int, error) {
	return 0, &fs.PathError{Op: "read", Path: f.about.Name(), Err: fs.ErrInvalid}
}

// ReadDir gives the next n entries, or all where n is not above zero.
func (f *openFolder) ReadDir(n int) ([]fs.DirEntry, error) {
	if n <= 0 {
		n = len(f.rest)
	} else if len(f.rest) == 0 {
		return nil, io.EOF
	}
	some := slices.Clone(f.rest[:min(n, len(f.rest))])
	f.rest = f.rest[len(some):]
	return some, nil
}
