// School draws the pictures of an invented school's nine vehicles with the project's own solids and cameras, and marks them as a person
// would: true points, each off by what a hand is off. It runs at the project's root, by make docs.
package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"hubrule/internal/cli"
)

// folder is where pictures and marks go.
const folder = "docs/examples/school"

func main() {
	if err := run(); err != nil {
		fmt.Fprintln(os.Stderr, "school:", err)
		os.Exit(1)
	}
}

func run() error {
	if _, err := os.Stat("go.mod"); err != nil {
		return fmt.Errorf("run this at the project's root: %w", err)
	}
	for _, f := range []string{"photos", "sketches"} {
		if err := os.MkdirAll(filepath.Join(folder, f), 0o777); err != nil {
			return err
		}
	}
	for i, c := range cars() {
		if err := c.write(uint64(i)); err != nil {
			return fmt.Errorf("%s: %w", c.name, err)
		}
	}
	if err := norms(); err != nil {
		return err
	}
	return sketches()
}

// norms gathers what the photographs say: the segment that the school's vehicles make.
func norms() error {
	var out bytes.Buffer
	args := []string{"norms", filepath.Join(folder, "photos"), "--like", "crossover", "-o", filepath.Join(folder, "tarnholt.yaml"), "--force"}
	if code := cli.Main(args, strings.NewReader(""), &out, &out); code != 0 {
		return fmt.Errorf("norms: exit %d: %s", code, &out)
	}
	return nil
}

// write writes the vehicle's photograph and its marks.
func (c car) write(seed uint64) error {
	p, err := c.plan()
	if err != nil {
		return err
	}
	r, cam := newRelief(p), c.shot.camera(p)
	picture, err := photograph(c, r, cam)
	if err != nil {
		return err
	}
	if err := write(filepath.Join("photos", c.name+".jpg"), picture); err != nil {
		return err
	}
	return write(filepath.Join("photos", c.name+".yaml"), []byte(c.marksFile(seed, r, cam)))
}

// marksFile is what a person marks on the photograph.
func (c car) marksFile(seed uint64, r *relief, cam camera) string {
	return c.file(marked(c, r, cam).shaken(seed, hand, cam.width, cam.mirrored), cam)
}

func write(name string, data []byte) error {
	return os.WriteFile(filepath.Join(folder, name), data, 0o666)
}
