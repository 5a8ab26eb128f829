package reading

import (
	"bytes"
	"fmt"
	"image"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"hubrule/internal/picture"
)

// folderWith writes files into a new folder.
func folderWith(t *testing.T, files map[string]string) string {
	t.Helper()
	folder := t.TempDir()
	for name, text := range files {
		path := filepath.Join(folder, name)
		if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	return folder
}

// What is wrong with a picture when it is decoded is reported where the marks file names it.
func TestPictureProblem(t *testing.T) {
	var whole bytes.Buffer
	if err := png.Encode(&whole, image.NewGray(image.Rect(0, 0, 300, 200))); err != nil {
		t.Fatal(err)
	}
	folder := folderWith(t, map[string]string{
		"side.yaml": "kind: marks\nfacing: left\npicture: side.png\nmarks: {nose: [1, 2]}\n", "side.png": whole.String()[:60],
	})
	file, err := LoadMarks(filepath.Join(folder, "side.yaml"), nil)
	if err != nil {
		t.Fatal(err)
	}
	_, err = picture.Decode(file.Marks.PicturePath())
	got := strings.ReplaceAll(fmt.Sprint(file.PictureProblem(err)), folder+"/", "")
	if want := "side.yaml:3:10: picture: a PNG that is damaged or cut short"; got != want {
		t.Errorf("%s; want %s", got, want)
	}
}

// Folders are read in the order of names, files in the order in which they are given; what is no input of a folder is passed over, and
// what is wrong in any file is reported.
func TestInputFiles(t *testing.T) {
	const row = "name,sill w\na,.4\n"
	folder := folderWith(t, map[string]string{
		"b.csv": row, "a.YAML": "kind: marks\n", "c.yml": "extends: suv\n", "d.yaml": "[", ".e.csv": row, "f.jpg": "",
		"g/h.csv": row, "e/x.txt": "",
	})
	in := func(name string) string { return filepath.Join(folder, name) }
	for _, tt := range []struct {
		paths []string
		want  string // names, or the errors
	}{
		{[]string{folder}, "a.YAML b.csv d.yaml"},
		{[]string{in("g"), in("b.csv"), "-"}, "g/h.csv b.csv -"},
		{[]string{in("c.yml")}, "c.yml"}, // what kind it is says the reader of marks
		{[]string{in("f.jpg"), in("e"), in("x.csv")}, "f.jpg; want a marks file (.yaml), a data sheet (.csv) or a folder of them\n" +
			"e: no marks file (.yaml) and no data sheet (.csv) in it\nx.csv: no such file or directory"},
		{[]string{folder, in("b.csv")}, "b.csv stands twice; want it once"},
	} {
		files, err := inputFiles(tt.paths)
		got := strings.Join(files, " ")
		if err != nil {
			got = err.Error()
		}
		if got = strings.ReplaceAll(got, folder+"/", ""); got != tt.want {
			t.Errorf("%q: %s; want %s", tt.paths, got, tt.want)
		}
	}
	inputs, err := Load([]string{in("b.csv"), in("g")}, nil)
	if err != nil || len(inputs) != 2 || inputs[1].Readings[0].Source != "h.csv:2" || inputs[1].Marks != nil {
		t.Errorf("%+v, %v", inputs, err)
	}
	if _, err := Load([]string{folder}, nil); err == nil || strings.Count(err.Error(), "\n") < 2 {
		t.Errorf("two wrong files: %v", err)
	}
}
