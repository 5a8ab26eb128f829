package main

import (
	"archive/tar"
	"archive/zip"
	"bytes"
	"compress/gzip"
	"io"
	"maps"
	"os"
	"slices"
	"time"
)

// ending is that of a target's archive.
func (t target) ending() string {
	if t.os == "windows" {
		return ".zip"
	}
	return ".tar.gz"
}

// member is a file of an archive.
type member struct {
	name string
	data []byte
	mode int64
}

// archive packs a target's files into one folder. All of them carry the commit's time and nobody's name, so that the same files give the
// same archive.
func archive(folder string, t target, made time.Time, program string, sets ...map[string][]byte) ([]byte, error) {
	data, err := os.ReadFile(program)
	if err != nil {
		return nil, err
	}
	members := []member{{folder + "/" + t.program(), data, 0o755}}
	for _, set := range sets {
		for _, name := range slices.Sorted(maps.Keys(set)) {
			members = append(members, member{folder + "/" + name, set[name], 0o644})
		}
	}
	var out bytes.Buffer
	if t.os == "windows" {
		err = packZip(&out, members, made)
	} else {
		err = packTar(&out, members, made)
	}
	return out.Bytes(), err
}

func packTar(out io.Writer, members []member, made time.Time) error {
	z, err := gzip.NewWriterLevel(out, gzip.BestCompression)
	if err != nil {
		return err
	}
	w := tar.NewWriter(z)
	for _, m := range members {
		if err := w.WriteHeader(&tar.Header{Name: m.name, Mode: m.mode, Size: int64(len(m.data)), ModTime: made, Format: tar.FormatUSTAR}); err != nil {
			return err
		}
		if _, err := w.Write(m.data); err != nil {
			return err
		}
	}
	if err := w.Close(); err != nil {
		return err
	}
	return z.Close()
}

func packZip(out io.Writer, members []member, made time.Time) error {
	w := zip.NewWriter(out)
	for _, m := range members {
		h := &zip.FileHeader{Name: m.name, Method: zip.Deflate, Modified: made}
		h.SetMode(os.FileMode(m.mode))
		f, err := w.CreateHeader(h)
		if err != nil {
			return err
		}
		if _, err := f.Write(m.data); err != nil {
			return err
		}
	}
	return w.Close()
}
