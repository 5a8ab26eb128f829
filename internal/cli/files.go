package cli

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"slices"

	"hubrule/internal/fault"
	"hubrule/internal/files"
	"hubrule/segments"
)

// output is one finished file in memory.
type output struct {
	path  string
	data  []byte
	facts fileFacts
}

// refuseExisting fails when one of the files is there already: it may have been written by hand. Instead says how to name another.
func refuseExisting(instead string, outputs ...output) error {
	for _, f := range outputs {
		if _, err := os.Lstat(f.path); err == nil {
			return fmt.Errorf("%s is there already; %s, or replace it with --force", f.path, instead)
		} else if !errors.Is(err, fs.ErrNotExist) {
			return fmt.Errorf("cannot write %s: %w", f.path, fault.Plain(err))
		}
	}
	return nil
}

// refuseForeign fails when one of the files is there already and this program did not write it. Pipes, devices and standard output, "-",
// are never asked about.
func refuseForeign(outputs ...output) error {
	for _, f := range outputs {
		info, err := os.Stat(f.path)
		if f.path == "-" || err != nil || !info.Mode().IsRegular() || info.Size() == 0 {
			continue // what cannot be written is reported where it is tried
		}
		if !isOurs(f.path) {
			return fmt.Errorf("%s is there already and was not written by hubrule; want another name, or --force to replace it", f.path)
		}
	}
	return nil
}

// isOurs reports whether this program wrote a file, which may be of any size; one that cannot be read counts as another's.
func isOurs(path string) bool {
	f, err := os.Open(path)
	if err != nil {
		return false
	}
	defer f.Close()
	block, kept := make([]byte, 64<<10), 0
	for {
		n, err := io.ReadFull(f, block[kept:])
		read := block[:kept+n]
		if slices.ContainsFunc(ourMetadata, func(mark string) bool { return bytes.Contains(read, []byte(mark)) }) {
			return true
		}
		if err != nil {
			return false
		}
		kept = copy(block, read[len(read)-longestMark:]) // a mark may be cut in two
	}
}

// ourMetadata is how this program's name stands in the metadata of an SVG or a PDF, and of a PNG; longestMark is at least as long.
var ourMetadata = []string{"<xmp:CreatorTool>hubrule ", "Software\x00hubrule "}

const longestMark = 32

// refuseInput fails when path is one of the files that the command reads.
func refuseInput(path string, inputs []string) error {
	i := slices.IndexFunc(inputs, func(input string) bool { return !segments.IsStream(input) && files.Same(path, input) })
	if i >= 0 {
		return fmt.Errorf("cannot write %s: it is the input file %s; want another name", path, inputs[i])
	}
	return nil
}
