package cli

import (
	"errors"
	"fmt"
	"io/fs"
	"os"

	"hubrule/internal/files"
)

// output is one finished file in memory.
type output struct {
	path string
	data []byte
}

// refuseExisting fails when one of the files is there already.
func refuseExisting(outputs ...output) error {
	for _, f := range outputs {
		if _, err := os.Lstat(f.path); err == nil {
			return fmt.Errorf("%s is there already; name a file with -o, or replace it with --force", f.path)
		} else if !errors.Is(err, fs.ErrNotExist) {
			return fmt.Errorf("cannot write %s: %w", f.path, files.Plain(err))
		}
	}
	return nil
}
