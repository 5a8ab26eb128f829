//go:build unix

package main

import (
	"fmt"
	"os"
	"path/filepath"
)

// viewRounds is how often each view is drawn.
const viewRounds = 11

// benchViews times whole commands that draw the vehicle from other sides, and a class set of perspectives.
func benchViews(dir string) error {
	in := func(name string) string { return filepath.Join(dir, name) }
	class := in("perspective.yaml")
	text := "kind: class\nstudents: 100\nvary: 0.6\npages: [{segment: suv, view: perspective, sheets: [trace]}]\n"
	if err := os.WriteFile(class, []byte(text), 0o666); err != nil {
		return err
	}
	draw := func(file string, more ...string) []string {
		return append(append([]string{in("hubrule"), "draw", "suv", "-o", in(file)}, "--view"), more...)
	}
	results, err := race(viewRounds,
		contestant{"`--view perspective`, full", draw("p.pdf", "perspective"), in("p.pdf")},
		contestant{"`--view front,rear`", draw("f.pdf", "front,rear"), in("f.pdf")},
		contestant{"`--view arrangement`", draw("a.pdf", "arrangement"), in("a.pdf")},
		contestant{"`--view ellipses`", draw("e.pdf", "ellipses"), in("e.pdf")},
		contestant{"`hubrule handout`, 100 perspectives to trace, each student's own", []string{in("hubrule"), "handout", class, "-o", in("c.pdf")}, in("c.pdf")},
	)
	if err != nil {
		return err
	}
	fmt.Printf("Other views as whole commands into PDF, A3, median of %d runs each, taken in turns:\n\n", viewRounds)
	fmt.Println("| command | wall ms | CPU ms | bytes written |\n|---|---|---|---|")
	for _, r := range results {
		fmt.Printf("| %s | %.0f | %.0f | %d |\n", r.name, r.wall, r.cpu, r.bytes)
	}
	return nil
}
