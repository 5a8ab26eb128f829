package cli

import (
	"errors"
	"fmt"
	"io"
	"os"
)

// growing is a file that is written bit by bit: beside its target, or, where the target is standard output or no regular file, in a
// nameless file that is sent there when it is whole.
type growing struct {
	path   string // as the user says it; "-" is standard output
	staged stagedFile
	file   *os.File
}

func grow(path string) (*growing, error) {
	g := &growing{path: path}
	var err error
	if path != "-" {
		g.staged, g.file, err = openBeside(path)
	}
	if err == nil && g.file == nil {
		if g.file, err = os.CreateTemp("", "hubrule-*.part"); err == nil {
			os.Remove(g.file.Name()) // it lives as long as it is open
		}
	}
	if err != nil {
		return nil, fmt.Errorf("cannot write %s: %w", path, plainError(err))
	}
	return g, nil
}

// Write adds to the file.
func (g *growing) Write(data []byte) (int, error) {
	n, err := g.file.Write(data)
	if err != nil {
		err = fmt.Errorf("cannot write %s: %w", g.path, plainError(err))
	}
	return n, err
}

// shut ends writing to a file beside its target; many of them are not kept open.
func (g *growing) shut() error {
	if g.staged.temporary == "" || g.file == nil {
		return nil
	}
	err := g.file.Close()
	g.file = nil
	if err != nil {
		return fmt.Errorf("cannot write %s: %w", g.path, plainError(err))
	}
	return nil
}

// drop removes what is left beside the target.
func (g *growing) drop() {
	if g.file != nil {
		g.file.Close()
	}
	g.staged.clear()
}

// finishAll puts all files in place, or none. What goes to standard output or to no regular file is sent just before.
func finishAll(files []*growing, stdout io.Writer) error {
	var staged []stagedFile
	for _, g := range files {
		if g.staged.temporary == "" {
			if err := g.send(stdout); err != nil {
				return err
			}
			continue
		}
		if err := g.shut(); err != nil {
			return err
		}
		staged = append(staged, g.staged)
	}
	err := putInPlace(staged)
	for _, s := range staged {
		s.clear()
	}
	return err
}

// send copies a whole file to standard output or to what is no regular file.
func (g *growing) send(stdout io.Writer) error {
	defer g.file.Close()
	_, err := g.file.Seek(0, io.SeekStart)
	if err == nil && g.path != "-" {
		var pipe *os.File
		if pipe, err = os.OpenFile(g.staged.target, os.O_WRONLY, 0); err == nil {
			_, err = io.Copy(pipe, g.file)
			err = errors.Join(err, pipe.Close())
		}
	} else if err == nil {
		_, err = io.Copy(stdout, g.file)
	}
	if err == nil {
		return nil
	}
	if g.path == "-" {
		return fmt.Errorf("cannot write to standard output: %w", plainError(err))
	}
	return fmt.Errorf("cannot write %s: %w", g.path, plainError(err))
}
