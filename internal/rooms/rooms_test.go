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

// below lists, for every room, the rooms it may import.
var below = map[string][]string{
	"internal/files":  {},
	"internal/geom":   {},
	"segments/strict": {},
	"fonts":           {"internal/geom"},
	"segments":        {"internal/geom", "segments/strict"},
	"layout":          {"internal/geom", "segments"},
	"layout/outline":  {"internal/geom", "segments", "layout"},
	"layout/view":     {"internal/geom", "segments", "layout", "layout/outline"},
	"render":          {"internal/geom", "fonts"},
	"render/svg":      {"internal/geom", "fonts", "render"},
	"render/pdf":      {"internal/geom", "fonts", "render"},
	"render/png":      {"internal/geom", "fonts", "render"},
	"render/format":   {"render", "render/svg", "render/pdf", "render/png"},
	"render/request":  {"internal/geom", "segments", "layout", "layout/view"},
	"render/draft":    {"internal/geom", "fonts", "render", "render/request"},
	"sheet":           {"internal/geom", "fonts", "segments", "layout", "layout/view", "layout/outline", "render", "render/request", "render/draft"},
	"internal/cli":    {"internal/geom", "fonts", "segments", "segments/strict", "layout", "layout/view", "render", "render/request", "sheet"},
	".":               {"internal/cli"},
}

// testOnly lists the rooms that only tests import.
var testOnly = []string{"internal/outside", "internal/rooms", "internal/testfont"}

// TestImportsRunOneWay: a file of the program imports only rooms below its own; every room is listed, and every listed room exists.
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
		if room = filepath.ToSlash(room); room == "docs" || strings.HasPrefix(room, "docs/") || slices.Contains(testOnly, room) {
			return nil
		}
		allowed, listed := below[room]
		if !listed && !seen[room] {
			t.Errorf("room %s is not listed", room)
		}
		seen[room] = true
		file, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.ImportsOnly)
		if err != nil {
			return err
		}
		for _, i := range file.Imports {
			name, _ := strconv.Unquote(i.Path.Value) // the parser has accepted it
			if other, ours := strings.CutPrefix(name, "hubrule/"); ours && !slices.Contains(allowed, other) {
				t.Errorf("%s imports %s; room %s may import %v", path, name, room, allowed)
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	for room := range below {
		if !seen[room] {
			t.Errorf("room %s is listed but has no files", room)
		}
	}
}
