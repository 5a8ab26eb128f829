package files

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"hubrule/internal/fault"
)

// stage is what waits on the disk. Only the goroutine that called Run touches it.
type stage struct {
	files   []*File
	folders []string          // made for the files
	named   map[string]string // each target and the path that the user wrote for it
	count   int               // of temporary names
	placed  bool
}

// open creates a file beside the target of f, with the permissions of the file there. Where the target is a stream, it creates none.
func (g *stage) open(f *File) error {
	if f.path == "-" {
		return nil
	}
	target, there, err := resolve(f.path)
	if err != nil {
		return err
	}
	switch other, twice := g.named[key(target)]; {
	case twice && other == f.path:
		return errors.New("two of the files would have this name")
	case twice:
		return fmt.Errorf("it is the same file as %s", other)
	}
	if g.named == nil {
		g.named = map[string]string{}
	}
	f.target, f.there, g.named[key(target)] = target, there, f.path
	if there != nil && !there.Mode().IsRegular() {
		return nil
	}
	if f.file, err = g.beside(target); err != nil {
		return err
	}
	g.files = append(g.files, f)
	if there != nil {
		err = os.Chmod(f.file.Name(), there.Mode().Perm())
	}
	return err
}

// beside creates a file in the folder of target, under a name that is not taken.
func (g *stage) beside(target string) (*os.File, error) {
	for {
		part := filepath.Join(filepath.Dir(target), fmt.Sprintf(".hubrule-%d-%d.part", os.Getpid(), g.count))
		g.count++
		f, err := os.OpenFile(part, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
		if !errors.Is(err, fs.ErrExist) {
			return f, err
		}
	}
}

// wait gives f a file that lives as long as it is open.
func (f *File) wait() (err error) {
	f.file, err = os.CreateTemp("", "hubrule-*.part")
	if err == nil && os.Remove(f.file.Name()) != nil {
		f.named = true // Windows takes no open file away
	}
	return err
}

// drop ends what waits for a stream.
func (f *File) drop() {
	f.file.Close()
	if f.named {
		os.Remove(f.file.Name())
	}
}

// mkdir makes a folder unless it is there.
func (g *stage) mkdir(path string) error {
	switch info, err := os.Stat(path); {
	case err == nil && !info.IsDir():
		return fmt.Errorf("cannot write into %s: it is not a folder", path)
	case err == nil:
		return nil
	}
	if err := os.Mkdir(path, 0o777); err != nil {
		if errors.Is(err, fs.ErrNotExist) {
			return fmt.Errorf("cannot make the folder %s: there is no folder %s", path, filepath.Dir(path))
		}
		return fmt.Errorf("cannot make the folder %s: %w", path, fault.Plain(err))
	}
	g.folders = append(g.folders, path)
	return nil
}

// place renames every file; when one cannot be, those before it get their old files back.
func (g *stage) place() error {
	for i, f := range g.files {
		if err := f.put(); err != nil {
			for _, before := range g.files[:i] {
				before.takeBack()
			}
			return failed(f.path, err)
		}
	}
	g.placed, g.folders = true, nil
	g.clear()
	return nil
}

// clear removes what is left beside the targets.
func (g *stage) clear() {
	for _, f := range g.files {
		f.file.Close()
		os.Remove(f.file.Name())
		if f.old != "" {
			os.Remove(f.old)
		}
	}
	for _, folder := range g.folders {
		os.Remove(folder)
	}
	g.files, g.folders, g.named = nil, nil, nil
}

// put moves the file to its target; the old file keeps a hard link until all files are in place. Where another program has put a file
// there since open looked, that file stays.
func (f *File) put() error {
	part := f.file.Name()
	if f.there == nil {
		err := os.Link(part, f.target) // unlike a rename it replaces nothing
		if err != nil && !errors.Is(err, fs.ErrExist) {
			if _, taken := os.Lstat(f.target); errors.Is(taken, fs.ErrNotExist) {
				err = os.Rename(part, f.target) // on a disk without hard links
			}
		}
		f.fresh = err == nil
		return meanwhile(err)
	}
	switch now, err := os.Stat(f.target); {
	case err == nil && !os.SameFile(now, f.there):
		return meanwhile(fs.ErrExist)
	case errors.Is(err, fs.ErrNotExist):
		f.fresh = true
	}
	if err := os.Link(f.target, part+".old"); err == nil {
		f.old = part + ".old"
	}
	return os.Rename(part, f.target)
}

// meanwhile words an error about a file that was not there before.
func meanwhile(err error) error {
	if errors.Is(err, fs.ErrExist) {
		return errors.New("another program has written it meanwhile; try again")
	}
	return err
}

// takeBack undoes put; on a disk that has no hard links the new file stays, whole.
func (f *File) takeBack() {
	switch {
	case f.old != "":
		os.Rename(f.old, f.target)
	case f.fresh:
		os.Remove(f.target)
	}
}

// resolve returns the file that path stands for, so that a link stays a link, and what is there now, if anything.
func resolve(path string) (target string, there fs.FileInfo, err error) {
	if target, err = followLinks(path); err != nil {
		return "", nil, err
	}
	there, err = os.Stat(target)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return target, nil, nil
	case err != nil:
	case there.IsDir():
		err = errors.New("it is a folder")
	case there.Mode().IsRegular() && there.Mode().Perm()&0o222 == 0:
		// A rename would not mind, but whoever took the right to write away meant it.
		err = errors.New("it is read-only")
	}
	return target, there, err
}

// followLinks returns where path leads, by links of its folders too.
func followLinks(path string) (string, error) {
	if target, err := filepath.EvalSymlinks(path); err == nil {
		return target, nil
	}
	if _, err := os.Readlink(path); err == nil {
		// A link to an open pipe, such as /dev/stdout, has no path that could be followed but is there.
		if _, err := os.Stat(path); err != nil {
			return "", errors.New("it is a link that leads nowhere")
		}
		return path, nil
	}
	folder, err := filepath.EvalSymlinks(filepath.Dir(path))
	if err != nil {
		return path, nil // creating it will say what is wrong
	}
	return filepath.Join(folder, filepath.Base(path)), nil
}

// key is the same for all ways to write a target.
func key(target string) string {
	if whole, err := filepath.Abs(target); err == nil {
		return whole
	}
	return target
}
