package strict

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
)

// Load parses the file at path. A file that cannot be read (missing, a directory, a device)
// is an error of its own; everything else wrong with it waits in the document.
func Load(path string) (*Document, error) {
	data, err := readFile(path)
	if err != nil {
		var p *fs.PathError
		if errors.As(err, &p) {
			err = p.Err // the message names the path already
		}
		return nil, fmt.Errorf("%s: %w", path, err)
	}
	return Parse(path, data), nil
}

// readFile reads at most one byte more than Parse accepts, so that a huge file costs nothing.
func readFile(path string) ([]byte, error) {
	// Stat first: opening a pipe waits for its other end.
	info, err := os.Stat(path)
	switch {
	case err != nil:
		return nil, err
	case info.IsDir():
		return nil, errors.New("a directory; want a YAML file")
	case !info.Mode().IsRegular():
		return nil, errors.New("not a regular file; want a YAML file")
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return io.ReadAll(io.LimitReader(f, maxSize+1))
}
