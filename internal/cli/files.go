package cli

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
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

// refuseInput fails when path is one of the files that the command reads.
func refuseInput(path string, inputs []string) error {
	if i := slices.IndexFunc(inputs, func(input string) bool { return files.Same(path, input) }); i >= 0 {
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
