package main

import (
	"math/rand/v2"
	"os"
	"path/filepath"
)

// reading is the seeds of attacks on what reads marks.
type reading struct {
	marks   [][]byte // with a picture beside them or without
	picture []byte   // of the first marks
	rows    []byte
}

// pictureName is how the first marks call their picture.
const pictureName = "averle.jpg"

func readReading() (r reading, err error) {
	paths := []string{"docs/examples/school/photos/averle.yaml", "docs/examples/school/sketch.yaml"}
	more, err := filepath.Glob("testdata/reading/*.yaml")
	if err != nil {
		return r, err
	}
	for _, path := range append(paths, more...) {
		data, err := os.ReadFile(path)
		if err != nil {
			return r, err
		}
		r.marks = append(r.marks, data)
	}
	r.rows = []byte("name,tyre,wheelbase mm,length mm,height mm,width mm,pillar-rake deg\r\n" +
		"\"Tern, one\",225/45R17,2700,4400,1480,1800,30\r\nTern two,225/45R17,2710,,1490,1810,31.5\r\n")
	r.picture, err = os.ReadFile("docs/examples/school/photos/" + pictureName)
	return r, err
}

// oneReading changes marks, a data sheet or a picture, and reads it in some way.
func oneReading(t *target, at *rand.Rand, _ int, folder string) string {
	marks, rows, picture := t.reading.marks[at.IntN(len(t.reading.marks))], t.reading.rows, t.reading.picture
	if at.IntN(3) == 0 {
		marks = t.reading.marks[0]
	}
	file := "side.yaml"
	switch at.IntN(5) {
	case 0:
		rows, file = mutated(at, rows), "rows.csv"
	case 1:
		marks, picture = t.reading.marks[0], mutated(at, picture)
	default:
		marks = mutated(at, marks)
	}
	for name, data := range map[string][]byte{"side.yaml": marks, "rows.csv": rows, pictureName: picture, "sketch.jpg": picture} {
		if err := os.WriteFile(filepath.Join(folder, name), data, 0o666); err != nil {
			return err.Error()
		}
	}
	args := pick(at,
		[]string{"read", file}, []string{"read", file, "--format", "json", "--against", "suv"}, []string{"read", file, "-o", "a.pdf"},
		[]string{"read", file, "--against", "suv", "-o", "a.svg"}, []string{"read", file, "--like", "suv", "-o", "a.yaml"},
		[]string{"read", "--show", file, "-o", "a.svg"}, []string{"read", "--new", pictureName}, []string{"norms", file, "-o", "a.yaml", "-o", "a.pdf"},
		[]string{"norms", ".", "--like", "suv", "--plain"}, []string{"draw", "./side.yaml", "--sheet", "trace", "-o", "a.svg"},
		[]string{"figures", "./side.yaml"},
	)
	return fault(t.run(folder, "", args...), args)
}
