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

// rooms lists every room, from the bottom to the top: each may import those listed before it.
var rooms = []string{
	"internal/fault", "internal/parallel", "internal/slice", "internal/geom", "internal/picture", "segments/strict", "segments", "layout", "layout/outline", "layout/view",
	"fonts", "render", "render/svg", "render/pdf", "render/png", "render/format",
	"render/request", "segments/reading", "internal/report", "internal/job", "render/draft", "render/counting",
	"render/side", "render/tidy", "render/flat", "render/perspective", "render/photo", "render/compare", "render/tile", "render/sheet", "render/screen", "render/class",
	"internal/draw", "internal/handout", "internal/desk", "internal/files", "internal/cli", ".",
}

// knowNoVehicle lists the rooms for which a page is marks on paper and nothing else.
var knowNoVehicle = []string{"fonts", "render", "render/svg", "render/pdf", "render/png", "render/format", "render/draft", "render/tile", "internal/files"}

// mayImport reports whether a file of one room may import another room.
func mayImport(room, other string) bool {
	if slices.Contains(knowNoVehicle, room) && (strings.HasPrefix(other, "segments") || strings.HasPrefix(other, "layout")) {
		return false
	}
	at := slices.Index(rooms, other)
	return at >= 0 && at < slices.Index(rooms, room)
}

// testOnly lists the rooms that only tests import.
var testOnly = []string{"internal/outside", "internal/rooms", "internal/testfont", "internal/testpage", "internal/testsheet"}

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
		if !slices.Contains(rooms, room) && !seen[room] {
			t.Errorf("room %s is not listed", room)
		}
		seen[room] = true
		file, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.ImportsOnly)
		if err != nil {
			return err
		}
		for _, i := range file.Imports {
			name, _ := strconv.Unquote(i.Path.Value) // the parser has accepted it
			if other, ours := strings.CutPrefix(name, "hubrule/"); ours && !mayImport(room, other) {
				t.Errorf("%s imports %s, which does not lie below room %s", path, name, room)
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	for _, room := range rooms {
		if !seen[room] {
			t.Errorf("room %s is listed but has no files", room)
		}
	}
}
