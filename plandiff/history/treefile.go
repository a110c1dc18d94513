package history

import (
	"bytes"
	"io"
	"io/fs"
	"time"
)

type treeInfo struct {
	name string
	mode fs.FileMode
	size int64
	when time.Time
}

func (i treeInfo) Name() string       { return i.name }
func (i treeInfo) Size() int64        { return i.size }
func (i treeInfo) Mode() fs.FileMode  { return i.mode }
func (i treeInfo) ModTime() time.Time { return i.when }
func (i treeInfo) IsDir() bool        { return i.mode.IsDir() }
func (i treeInfo) Sys() any           { return nil }

// A treeEntry asks for the size of its file only when Info is called.
type treeEntry struct {
	e    entry
	fs   *treeFS
	path string
}

func (d treeEntry) Name() string               { return d.e.name }
func (d treeEntry) IsDir() bool                { return d.e.mode == modeDir }
func (d treeEntry) Type() fs.FileMode          { return d.e.mode.fileMode().Type() }
func (d treeEntry) Info() (fs.FileInfo, error) { return d.fs.stat("stat", d.path, d.e) }
func (d treeEntry) String() string             { return fs.FormatDirEntry(d) }

// An openFile reads the blob at the first Read.
type openFile struct {
	fs      *treeFS
	info    fs.FileInfo
	name    string
	content *bytes.Reader
	closed  bool
}

func (f *openFile) Stat() (fs.FileInfo, error) { return f.info, nil }
func (f *openFile) Close() error               { f.closed = true; return nil }

func (f *openFile) Read(p []byte) (int, error) {
	if f.closed {
		return 0, &fs.PathError{Op: "read", Path: f.name, Err: fs.ErrClosed}
	}
	if f.content == nil {
		data, err := f.fs.ReadFile(f.name)
		if err != nil {
			return 0, err
		}
		f.content = bytes.NewReader(data)
	}
	return f.content.Read(p)
}

type openFolder struct {
	info fs.FileInfo
	name string
	rest []fs.DirEntry
}

func (f *openFolder) Stat() (fs.FileInfo, error) { return f.info, nil }
func (f *openFolder) Close() error               { return nil }
func (f *openFolder) Read([]byte) (int, error) {
	return 0, &fs.PathError{Op: "read", Path: f.name, Err: errFolder}
}

func (f *openFolder) ReadDir(n int) ([]fs.DirEntry, error) {
	if n <= 0 {
		n = len(f.rest)
	} else if len(f.rest) == 0 {
		return nil, io.EOF
	}
	n = min(n, len(f.rest))
	list := f.rest[:n:n]
	f.rest = f.rest[n:]
	return list, nil
}
