// School draws the pictures of an invented school's nine vehicles with the project's own solids and cameras, and marks them as a person
// would: true points, each off by what a hand is off. It runs at the project's root, by make docs.
package main

import (
	"fmt"
	"os"
	"path/filepath"
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
	if err := os.MkdirAll(folder, 0o777); err != nil {
		return err
	}
	for i, c := range cars() {
		p, err := c.plan()
		if err != nil {
			return fmt.Errorf("%s: %w", c.name, err)
		}
		r, cam := newRelief(p), c.shot.camera(p)
		picture, err := photograph(c, r, cam)
		if err != nil {
			return fmt.Errorf("%s: %w", c.name, err)
		}
		k := marked(c, r, cam).shaken(uint64(i), cam.width, cam.mirrored)
		if err := write(c.name+".jpg", picture); err != nil {
			return err
		}
		if err := write(c.name+".yaml", []byte(c.file(k, cam))); err != nil {
			return err
		}
	}
	return nil
}

func write(name string, data []byte) error {
	return os.WriteFile(filepath.Join(folder, name), data, 0o666)
}
