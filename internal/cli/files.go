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

// writeAll writes every file whole or none at all: each goes to a temporary file beside its target; when all of
// them stand on the disk and stream has been sent, they are renamed. What is no regular file (a device, a pipe) is
// written just before, since it cannot be taken back. A failure leaves the old files as they were.
func writeAll(files []output, stream func() error) (err error) {
	var staged []stagedFile
	defer func() {
		for _, s := range staged {
			s.clear()
		}
	}()
	written := map[string]string{}
	for _, f := range files {
		s, err := stage(f)
		if err != nil {
			return fmt.Errorf("cannot write %s: %w", f.path, plainError(err))
		}
		staged = append(staged, s)
		if other, twice := written[s.target]; twice {
			return fmt.Errorf("cannot write %s: it is the same file as %s", f.path, other)
		}
		written[s.target] = f.path
	}
	for i, s := range staged {
		if s.temporary == "" {
			if err := fillPipe(s.target, files[i].data); err != nil {
				return fmt.Errorf("cannot write %s: %w", files[i].path, plainError(err))
			}
		}
	}
	if err := stream(); err != nil {
		return err
	}
	return putInPlace(staged)
}

// putInPlace renames every temporary file; when one cannot be, those before it get their old files back.
func putInPlace(staged []stagedFile) error {
	for i := range staged {
		err := staged[i].put()
		if err == nil {
			continue
		}
		for k := range i {
			staged[k].takeBack()
		}
		return fmt.Errorf("cannot write %s: %w", staged[i].target, plainError(err))
	}
	return nil
}

// stagedFile is a file that waits beside its target. Without a temporary name its target is no regular file.
type stagedFile struct {
	temporary, target string
	old               string // second name of the file that was there
	fresh             bool   // nothing was there
}

// put moves the file to its target; the old file keeps a second name until all of the command's files are in place.
func (s *stagedFile) put() error {
	if s.temporary == "" {
		return nil
	}
	old := s.temporary + ".old"
	switch err := os.Link(s.target, old); {
	case err == nil:
		s.old = old
	case errors.Is(err, fs.ErrNotExist):
		s.fresh = true
	}
	return os.Rename(s.temporary, s.target)
}

// takeBack undoes put; on a disk that knows no second names the new file stays, whole.
func (s *stagedFile) takeBack() {
	switch {
	case s.old != "":
		os.Rename(s.old, s.target)
	case s.fresh:
		os.Remove(s.target)
	}
}

// clear removes what is left of a file beside its target.
func (s *stagedFile) clear() {
	for _, name := range []string{s.temporary, s.old} {
		if name != "" {
			os.Remove(name)
		}
	}
}

// stage writes f beside its target, unless that is no regular file.
func stage(f output) (stagedFile, error) {
	s, file, err := openBeside(f.path)
	if err != nil || file == nil {
		return s, err
	}
	if err := fill(file, f.data); err != nil {
		os.Remove(s.temporary)
		return stagedFile{}, err
	}
	return s, nil
}

// openBeside opens a new file beside the target that path stands for, with the old file's permissions. Where the target is no regular
// file there is none to open.
func openBeside(path string) (stagedFile, *os.File, error) {
	target, err := followLinks(path)
	if err != nil {
		return stagedFile{}, nil, err
	}
	info, err := os.Stat(target)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return createBeside(target)
	case err != nil:
		return stagedFile{}, nil, err
	case info.IsDir():
		return stagedFile{}, nil, errors.New("it is a folder")
	case !info.Mode().IsRegular():
		return stagedFile{target: target}, nil, nil
	case info.Mode().Perm()&0o222 == 0:
		// A rename would not mind, but whoever took the right to write away meant it.
		return stagedFile{}, nil, errors.New("it is read-only")
	}
	s, file, err := createBeside(target)
	if err != nil {
		return s, nil, err
	}
	if err := os.Chmod(s.temporary, info.Mode().Perm()); err != nil {
		file.Close()
		os.Remove(s.temporary)
		return stagedFile{}, nil, err
	}
	return s, file, nil
}

// fillPipe writes to what is no regular file.
func fillPipe(path string, data []byte) error {
	pipe, err := os.OpenFile(path, os.O_WRONLY, 0)
	if err != nil {
		return err
	}
	return fill(pipe, data)
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

// createBeside creates a file in the folder of target, under a name that is not taken.
func createBeside(target string) (stagedFile, *os.File, error) {
	for n := 0; ; n++ {
		temporary := filepath.Join(filepath.Dir(target), fmt.Sprintf(".hubrule-%d-%d.part", os.Getpid(), n))
		f, err := os.OpenFile(temporary, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
		if errors.Is(err, fs.ErrExist) {
			continue
		}
		if err != nil {
			return stagedFile{}, nil, err
		}
		return stagedFile{temporary: temporary, target: target}, f, nil
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
