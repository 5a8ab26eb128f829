package cli

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"hubrule/internal/draw"
)

// A file is known for this program's by its metadata, wherever that stands in it, across the end of a block too.
func TestIsOurs(t *testing.T) {
	t.Parallel()
	mark := "<xmp:CreatorTool>" + draw.Program + "<"
	for text, want := range map[string]bool{mark: true, "Software\x00" + draw.Program: true, "<xmp:CreatorTool>other": false, "": false} {
		for _, before := range []int{0, 1, 1<<20 - 60, 1<<20 - 20, 1<<20 - 1, 1 << 20, 2<<20 - 40, 2<<20 + 5} {
			path := filepath.Join(t.TempDir(), "file")
			if err := os.WriteFile(path, append(bytes.Repeat([]byte{'x'}, before), text...), 0o666); err != nil {
				t.Fatal(err)
			}
			if isOurs(path) != want {
				t.Errorf("%q after %d bytes: ours %v", text, before, !want)
			}
		}
	}
}
