package cli

import (
	"bufio"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"regexp"
	"slices"

	"hubrule/internal/files"
	"hubrule/render/request"
	"hubrule/segments"
)

// output is one finished file in memory.
type output struct {
	path string
	data []byte
}

// refuseExisting fails when one of the files is there already; instead says how to name another.
func refuseExisting(instead string, outputs ...output) error {
	for _, f := range outputs {
		if _, err := os.Lstat(f.path); err == nil {
			return fmt.Errorf("%s is there already; %s, or replace it with --force", f.path, instead)
		} else if !errors.Is(err, fs.ErrNotExist) {
			return fmt.Errorf("cannot write %s: %w", f.path, files.Plain(err))
		}
	}
	return nil
}

// refuseForeign fails when one of the files is there already and this program did not write it. Pipes and devices are never asked about.
func refuseForeign(outputs ...output) error {
	for _, f := range outputs {
		info, err := os.Stat(f.path)
		if err != nil || !info.Mode().IsRegular() || info.Size() == 0 {
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
	return ourMetadata.MatchReader(bufio.NewReader(f))
}

// ourMetadata is how this program's name stands in the metadata of an SVG or a PDF, and of a PNG.
var ourMetadata = regexp.MustCompile(`<xmp:CreatorTool>hubrule |Software\x00hubrule `)

// refuseInput fails when path is one of the files that the command reads.
func refuseInput(path string, inputs []string) error {
	i := slices.IndexFunc(inputs, func(input string) bool { return !segments.IsStream(input) && files.Same(path, input) })
	if i >= 0 {
		return fmt.Errorf("cannot write %s: it is the input file %s; want another name", path, inputs[i])
	}
	return nil
}

// filesOf lists the files that a job is made of: profiles, tweaks, and those of more that are paths and not names.
func filesOf(r request.Request, more ...string) []string {
	more = slices.Clone(more)
	for _, p := range slices.Concat(r.Plans, r.Against) {
		more = append(more, p.Brief.Source)
		for _, d := range p.Brief.Tweaks {
			more = append(more, d.Source)
		}
	}
	return slices.DeleteFunc(more, segments.IsName)
}
