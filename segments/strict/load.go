package strict

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"sync"

	"hubrule/internal/fault"
)

// Load parses the file at path. A file that cannot be read (missing, a directory)
// is an error of its own; everything else wrong with it waits in the document.
func Load(path string) (*Document, error) {
	data, err := ReadFile(path, "a YAML file")
	if err != nil {
		return nil, err
	}
	return Parse(path, data), nil
}

// Stdin is the path that stands for standard input.
const Stdin = "-"

// LoadFrom is Load where [Stdin] may stand for a file: in is then read instead, to at most one byte more than Parse accepts. Where in is
// nil, Stdin is refused.
func LoadFrom(path string, in io.Reader) (*Document, error) {
	if path != Stdin || in == nil {
		return Load(path)
	}
	data, err := io.ReadAll(io.LimitReader(in, MaxSize+1))
	if err != nil {
		return nil, fmt.Errorf("standard input: %w", fault.Plain(err))
	}
	return Parse("standard input", data), nil
}

// ReadFile reads a text file or a pipe, but at most one byte more than Parse accepts, so that a huge file costs nothing. The error names
// the path and, where something else stands there, what is wanted.
func ReadFile(path, want string) ([]byte, error) {
	data, err := readText(path, want)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", path, fault.Plain(err))
	}
	return data, nil
}

// ReadRegular reads a file that is neither a pipe nor a device and has at most so many megabytes. The error does not name the path.
func ReadRegular(path, want string, megabytes int64) ([]byte, error) {
	info, err := stat(path, want)
	switch {
	case err != nil:
		return nil, fault.Plain(err)
	case !info.Mode().IsRegular():
		return nil, fmt.Errorf("not a regular file; want %s", want)
	}
	data, err := readUpTo(path, megabytes<<20)
	if err == nil && int64(len(data)) > megabytes<<20 {
		return nil, fmt.Errorf("larger than %d MB; want %s", megabytes, want)
	}
	return data, fault.Plain(err)
}

// drained keeps what came out of pipes: a pipe can be read only once, and a tweak or a camera is asked for by every vehicle.
var drained sync.Map

func readText(path, want string) ([]byte, error) {
	if path == Stdin {
		return nil, errors.New("standard input cannot stand here; want the path of " + want)
	}
	info, err := stat(path, want)
	if err != nil {
		return nil, err
	}
	if data, ok := drained.Load(path); ok {
		return data.([]byte), nil
	}
	data, err := readUpTo(path, MaxSize)
	if err == nil && !info.Mode().IsRegular() {
		drained.Store(path, data)
	}
	return data, err
}

// stat looks what stands at a path, and refuses a directory.
func stat(path, want string) (fs.FileInfo, error) {
	info, err := os.Stat(path)
	if err == nil && info.IsDir() {
		err = fmt.Errorf("a directory; want %s", want)
	}
	return info, err
}

// readUpTo reads a file, but at most one byte more than most.
func readUpTo(path string, most int64) ([]byte, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return io.ReadAll(io.LimitReader(f, most+1))
}
