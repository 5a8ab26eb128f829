package cli

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// output is one finished file in memory.
type output struct {
	path string
	data []byte
}

// writeAll writes every file whole or none at all: each goes to a temporary file beside its target, and only
// when all of them stand on the disk are they renamed. A failure leaves the old files as they were.
func writeAll(files []output) (err error) {
	var staged []stagedFile
	defer func() {
		if err != nil {
			for _, s := range staged {
				os.Remove(s.temporary)
			}
		}
	}()
	for _, f := range files {
		s, err := stage(f)
		if err != nil {
			return fmt.Errorf("cannot write %s: %w", f.path, plainError(err))
		}
		if s.temporary != "" {
			staged = append(staged, s)
		}
	}
	for _, s := range staged {
		if err := os.Rename(s.temporary, s.target); err != nil {
			return fmt.Errorf("cannot write %s: %w", s.target, plainError(err))
		}
	}
	return nil
}

type stagedFile struct{ temporary, target string }

// stage writes f beside its target. What is no regular file (a device, a pipe) cannot be replaced and is
// written straight away.
func stage(f output) (stagedFile, error) {
	target := f.path
	if real, err := filepath.EvalSymlinks(target); err == nil {
		target = real // a link stays a link: what it points at is replaced
	}
	mode := fs.FileMode(0o666)
	if info, err := os.Stat(target); err == nil {
		switch {
		case info.IsDir():
			return stagedFile{}, errors.New("it is a folder")
		case !info.Mode().IsRegular():
			return stagedFile{}, writeInto(target, f.data, os.O_WRONLY, 0)
		}
		mode = info.Mode().Perm()
	}
	temporary := filepath.Join(filepath.Dir(target), fmt.Sprintf(".%s.%d.part", filepath.Base(target), os.Getpid()))
	if err := writeInto(temporary, f.data, os.O_WRONLY|os.O_CREATE|os.O_EXCL, mode); err != nil {
		os.Remove(temporary)
		return stagedFile{}, err
	}
	return stagedFile{temporary, target}, nil
}

func writeInto(path string, data []byte, flag int, mode fs.FileMode) error {
	f, err := os.OpenFile(path, flag, mode)
	if err != nil {
		return err
	}
	_, err = f.Write(data)
	if shut := f.Close(); err == nil {
		err = shut
	}
	return err
}

// plainError drops the operation and the path of a file error: the message around it names the file the user knows.
func plainError(err error) error {
	var path *fs.PathError
	if errors.As(err, &path) {
		return path.Err
	}
	var link *os.LinkError
	if errors.As(err, &link) {
		return link.Err
	}
	return err
}
