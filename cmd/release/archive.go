package main

import (
	"archive/tar"
	"archive/zip"
	"compress/gzip"
	"crypto/sha256"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
)

// archive puts files into a folder of the archive that bears its name.
func (r *release) archive(name string, zipped bool, files []string) error {
	suffix := ".tar.gz"
	if zipped {
		suffix = ".zip"
	}
	out, err := os.Create(filepath.Join(r.dir, name+suffix))
	if err != nil {
		return err
	}
	pack := r.tarball
	if zipped {
		pack = r.zipped
	}
	return errors.Join(pack(out, name, files), out.Close())
}

func (r *release) tarball(out io.Writer, name string, files []string) error {
	z, err := gzip.NewWriterLevel(out, gzip.BestCompression)
	if err != nil {
		return err
	}
	w := tar.NewWriter(z)
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			return err
		}
		base := filepath.Base(file)
		h := &tar.Header{Name: name + "/" + base, Mode: int64(mode(base)), Size: int64(len(data)), ModTime: r.at, Format: tar.FormatUSTAR}
		if err := w.WriteHeader(h); err != nil {
			return err
		}
		if _, err := w.Write(data); err != nil {
			return err
		}
	}
	return errors.Join(w.Close(), z.Close())
}

func (r *release) zipped(out io.Writer, name string, files []string) error {
	w := zip.NewWriter(out)
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			return err
		}
		h := &zip.FileHeader{Name: name + "/" + filepath.Base(file), Method: zip.Deflate, Modified: r.at}
		h.SetMode(mode(filepath.Base(file)))
		f, err := w.CreateHeader(h)
		if err != nil {
			return err
		}
		if _, err := f.Write(data); err != nil {
			return err
		}
	}
	return w.Close()
}

func mode(name string) os.FileMode {
	if strings.HasPrefix(name, "passband") {
		return 0o755
	}
	return 0o644
}

// checksums writes SHA256SUMS over all files of a folder, in the form of sha256sum.
func checksums(dir string) error {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return err
	}
	var sums strings.Builder
	for _, e := range entries {
		data, err := os.ReadFile(filepath.Join(dir, e.Name()))
		if err != nil {
			return err
		}
		fmt.Fprintf(&sums, "%x  %s\n", sha256.Sum256(data), e.Name())
	}
	return os.WriteFile(filepath.Join(dir, "SHA256SUMS"), []byte(sums.String()), 0o666)
}
