package rooms

import (
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// below lists, for every room, the rooms it may import. A room that is not listed may import none.
func below(room string) []string {
	switch room {
	case "fonts":
		return []string{"geom"}
	case "segments":
		return []string{"geom", "segments/strict"}
	case "layout/view":
		return []string{"geom", "segments", "segments/strict", "layout"}
	case "layout":
		return []string{"geom", "segments"}
	case "render":
		return []string{"geom", "fonts"}
	case "sheet":
		return []string{"geom", "fonts", "segments", "layout", "layout/view", "render"}
	case "cli":
		return []string{"geom", "fonts", "segments", "segments/strict", "layout", "layout/view", "render", "sheet"}
	case ".":
		return []string{"cli"}
	}
	return nil
}

// TestImportsRunOneWay: a file of the program imports only rooms below its own, and nothing of internal or docs.
// Tests, and the tools under docs, may import what they like.
func TestImportsRunOneWay(t *testing.T) {
	const root = "../.."
	seen := map[string]bool{}
	err := filepath.WalkDir(root, func(path string, _ fs.DirEntry, err error) error {
		if err != nil || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		room, err := filepath.Rel(root, filepath.Dir(path))
		if err != nil {
			return err
		}
		if room = filepath.ToSlash(room); strings.HasPrefix(room, "docs/") {
			return nil
		}
		seen[room] = true
		file, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.ImportsOnly)
		if err != nil {
			return err
		}
		for _, i := range file.Imports {
			name, _ := strconv.Unquote(i.Path.Value) // the parser has accepted it
			if other, ours := strings.CutPrefix(name, "hubrule/"); ours && !slices.Contains(below(room), other) {
				t.Errorf("%s imports %s; room %s may import %v", path, name, room, below(room))
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	for _, room := range []string{".", "cli", "sheet", "render", "layout/view", "layout", "segments", "segments/strict", "fonts", "geom"} {
		if !seen[room] {
			t.Errorf("room %s was not looked into", room)
		}
	}
}
