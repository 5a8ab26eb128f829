package files

import (
	"bytes"
	"context"
	"errors"
	"io"
	"io/fs"
	"os"
	"sync/atomic"
)

// Set is everything that one command writes. Its methods are for the goroutine in which [Run] runs the command.
type Set struct {
	outputs []*File // what the command has opened, in order
	stdout  standardOutput
	calls   chan func()   // for the owner to carry out
	ended   chan struct{} // closed when the owner has left
	stage   stage         // the owner's
}

// do has the owner carry out call. When the owner has left, nothing more is written.
func (s *Set) do(call func() error) error {
	result := make(chan error, 1)
	select {
	case s.calls <- func() { result <- call() }:
		return <-result
	case <-s.ended:
		return context.Canceled
	}
}

// Stdout is standard output, for what need not wait.
func (s *Set) Stdout() io.Writer { return &s.stdout }

// Create opens a file that grows bit by bit; "-" is standard output. Its target keeps its permissions, and a link stays a link.
// An error names path: a folder, a read-only file, a file that the set has already, or nowhere to write.
func (s *Set) Create(path string) (*File, error) { return s.open(&File{path: path}) }

// Add is Create for data that is whole already.
func (s *Set) Add(path string, data []byte) error {
	f, err := s.open(&File{path: path, data: data})
	if err != nil || f.isStream {
		return err
	}
	if _, err := f.Write(data); err != nil {
		return err
	}
	return f.Close()
}

// open gives f a place to wait in. Data for a stream waits in memory if it is there, and else in a file without a name.
func (s *Set) open(f *File) (*File, error) {
	if f.path == "-" && isClosed(s.stdout.to) {
		return nil, failed(f.path, errors.New("it is closed"))
	}
	err := s.do(func() (err error) {
		err = s.stage.open(f)
		if f.isStream = err == nil && f.file == nil; f.isStream && f.data == nil {
			err = f.wait()
		}
		return err
	})
	if err != nil {
		return nil, failed(f.path, err)
	}
	s.outputs = append(s.outputs, f)
	return f, nil
}

// Mkdir makes a folder for files of the set if it is not there; without Commit it goes again.
func (s *Set) Mkdir(path string) error { return s.do(func() error { return s.stage.mkdir(path) }) }

// Discard drops everything that was not committed, so that a command may begin anew.
func (s *Set) Discard() {
	for _, f := range s.outputs {
		if f.file != nil {
			f.drop()
		}
	}
	s.outputs = nil
	s.do(func() error { s.stage.clear(); return nil })
}

// Commit sends what goes to streams, standard output last, and puts all files in place. After an error no file is: those that were
// replaced already have their old contents again.
func (s *Set) Commit() error {
	for _, f := range s.outputs {
		if err := f.Close(); err != nil {
			return err
		}
	}
	for _, last := range []bool{false, true} {
		for _, f := range s.outputs {
			if !f.isStream || last != (f.path == "-") {
				continue
			}
			if err := f.send(&s.stdout); err != nil {
				return err
			}
		}
	}
	s.outputs = nil
	return s.do(s.stage.place)
}

// File is one file of a [Set] while it is written.
type File struct {
	path, target string
	isStream     bool     // standard output, a device or a named pipe
	file         *os.File // where its bytes wait; nil: in data
	named        bool     // that file is to be taken away once it is closed
	data         []byte
	old          string // the owner's: hard link to the file that was there
	fresh        bool   // the owner's: it was put where nothing was

	there fs.FileInfo // the owner's: what stood there when the file was opened, or nil
}

// Write adds to the file.
func (f *File) Write(data []byte) (int, error) {
	n, err := f.file.Write(data)
	if err != nil {
		err = failed(f.path, err)
	}
	return n, err
}

// Close ends writing; Commit does so too, but of many files not all can be open. It may be called again.
func (f *File) Close() error {
	if f.isStream {
		return nil // its bytes are still to be sent
	}
	if err := f.file.Close(); err != nil && !errors.Is(err, os.ErrClosed) {
		return failed(f.path, err)
	}
	return nil
}

// send copies the whole file to the stream that it is for.
func (f *File) send(stdout *standardOutput) error {
	from := io.Reader(bytes.NewReader(f.data))
	if f.file != nil {
		defer f.drop()
		if _, err := f.file.Seek(0, io.SeekStart); err != nil {
			return failed(f.path, err)
		}
		from = f.file
	}
	if f.path == "-" {
		_, err := io.Copy(stdout, from)
		return err
	}
	to, err := os.OpenFile(f.target, os.O_WRONLY, 0)
	if err != nil {
		return failed(f.path, err)
	}
	stdout.begun.Store(true)
	_, err = io.Copy(to, from)
	if err = errors.Join(err, to.Close()); err != nil {
		return failed(f.path, err)
	}
	return nil
}

// standardOutput remembers what happened to standard output. What goes to other streams counts as begun too.
type standardOutput struct {
	to    io.Writer
	begun atomic.Bool
	err   error // the first
}

// Write sends data on.
func (o *standardOutput) Write(data []byte) (int, error) {
	if len(data) > 0 {
		o.begun.Store(true)
	}
	n, err := o.to.Write(data)
	if err != nil {
		err = failed("-", err)
		if o.err == nil {
			o.err = err
		}
	}
	return n, err
}
