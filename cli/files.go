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
	written := map[string]string{}
	for _, f := range files {
		s, err := stage(f)
		if err != nil {
			return fmt.Errorf("cannot write %s: %w", f.path, plainError(err))
		}
		if s.temporary == "" {
			continue
		}
		staged = append(staged, s)
		if other, twice := written[s.target]; twice {
			return fmt.Errorf("cannot write %s: it is the same file as %s", f.path, other)
		}
		written[s.target] = f.path
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
	target, err := followLinks(f.path)
	if err != nil {
		return stagedFile{}, err
	}
	info, err := os.Stat(target)
	if errors.Is(err, fs.ErrNotExist) {
		return stageBeside(target, f.data)
	}
	switch {
	case err != nil:
		return stagedFile{}, err
	case info.IsDir():
		return stagedFile{}, errors.New("it is a folder")
	case !info.Mode().IsRegular():
		pipe, err := os.OpenFile(target, os.O_WRONLY, 0)
		if err != nil {
			return stagedFile{}, err
		}
		return stagedFile{}, fill(pipe, f.data)
	case info.Mode().Perm()&0o222 == 0:
		// A rename would not mind, but whoever took the right to write away meant it.
		return stagedFile{}, errors.New("it is read-only")
	}
	s, err := stageBeside(target, f.data)
	if err != nil {
		return stagedFile{}, err
	}
	if err := os.Chmod(s.temporary, info.Mode().Perm()); err != nil {
		os.Remove(s.temporary)
		return stagedFile{}, err
	}
	return s, nil
}

// followLinks returns the file that path stands for, so that a link stays a link and what it points at is replaced.
func followLinks(path string) (string, error) {
	real, err := filepath.EvalSymlinks(path)
	if err == nil {
		return real, nil
	}
	if _, err := os.Readlink(path); err != nil {
		return path, nil
	}
	// A link to an open pipe, such as /dev/stdout, has no path that could be followed but is there.
	if _, err := os.Stat(path); err != nil {
		return "", errors.New("it is a link that leads nowhere")
	}
	return path, nil
}

// stageBeside writes data to a new file in the folder of target, under a name that is not taken.
func stageBeside(target string, data []byte) (stagedFile, error) {
	for n := 0; ; n++ {
		temporary := filepath.Join(filepath.Dir(target), fmt.Sprintf(".hubrule-%d-%d.part", os.Getpid(), n))
		f, err := os.OpenFile(temporary, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
		if errors.Is(err, fs.ErrExist) {
			continue
		}
		if err != nil {
			return stagedFile{}, err
		}
		if err := fill(f, data); err != nil {
			os.Remove(temporary)
			return stagedFile{}, err
		}
		return stagedFile{temporary, target}, nil
	}
}

// fill writes data to f and closes it.
func fill(f *os.File, data []byte) error {
	_, err := f.Write(data)
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
