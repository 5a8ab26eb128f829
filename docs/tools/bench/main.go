//go:build unix

// Bench measures the program beside others on the same machine in the same run, turn by turn, and prints the
// medians as tables: one draw as a whole process beside a Go program that does nothing, one picture beside poppler and
// librsvg drawing it, and a thousand pages of PDF beside cairo drawing the same marks. It runs at the project's root, by make bench.
package main

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
)

// How often each contestant runs.
const (
	drawRounds  = 200
	pagesRounds = 7
	pageCount   = 1000
)

func main() {
	err := errors.New("usage: bench, or bench pages FILE (what it runs itself as)")
	switch {
	case len(os.Args) == 1:
		err = bench()
	case len(os.Args) == 3 && os.Args[1] == "pages":
		err = thousandPages(os.Args[2])
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, "bench:", err)
		os.Exit(1)
	}
}

func bench() error {
	dir, err := os.MkdirTemp("", "bench")
	if err != nil {
		return err
	}
	defer os.RemoveAll(dir)
	fmt.Printf("%s, %d cores, %s/%s\n\n", runtime.Version(), runtime.NumCPU(), runtime.GOOS, runtime.GOARCH)
	if err := benchDraw(dir); err != nil {
		return err
	}
	fmt.Println()
	if err := benchPictures(dir); err != nil {
		return err
	}
	fmt.Println()
	return benchPages(dir)
}

// benchDraw compares whole processes: start, draw one sheet into a file, end.
func benchDraw(dir string) error {
	tool, nothing := filepath.Join(dir, "hubrule"), filepath.Join(dir, "nothing")
	source := nothing + ".go"
	if err := os.WriteFile(source, []byte("package main\n\nfunc main() {}\n"), 0o666); err != nil {
		return err
	}
	if err := errors.Join(build(tool, "."), build(nothing, source)); err != nil {
		return err
	}
	results, err := race(drawRounds,
		contestant{"a Go program that does nothing", []string{nothing}, ""},
		contestant{"`hubrule draw suv -o suv.svg`", []string{tool, "draw", "suv", "-o", filepath.Join(dir, "suv.svg")}, filepath.Join(dir, "suv.svg")},
		contestant{"`hubrule draw suv -o suv.pdf`", []string{tool, "draw", "suv", "-o", filepath.Join(dir, "suv.pdf")}, filepath.Join(dir, "suv.pdf")},
	)
	if err != nil {
		return err
	}
	fmt.Printf("One command as a whole process, median of %d runs each, taken in turns:\n\n", drawRounds)
	fmt.Println("| process | wall ms | × nothing | CPU ms | bytes written |\n|---|---|---|---|---|")
	for _, r := range results {
		fmt.Printf("| %s | %.2f | %.2f | %.2f | %d |\n", r.name, r.wall, r.wall/results[0].wall, r.cpu, r.bytes)
	}
	return nil
}

// build compiles a Go program as it is released: without cgo.
func build(output, from string) error {
	c := exec.Command("go", "build", "-trimpath", "-o", output, from)
	c.Env = append(os.Environ(), "CGO_ENABLED=0")
	if said, err := c.CombinedOutput(); err != nil {
		return fmt.Errorf("go build %s: %w\n%s", from, err, said)
	}
	return nil
}

// benchPages compares a thousand pages of PDF with cairo's, where cairo and a C compiler are installed.
func benchPages(dir string) error {
	self, err := os.Executable()
	if err != nil {
		return err
	}
	ours := filepath.Join(dir, "ours.pdf")
	contestants := []contestant{{"hubrule's PDF writer", []string{self, "pages", ours}, ours}}
	cairo, missing := buildCairo("docs/tools/bench/cairo/marks.c", dir)
	if missing != nil {
		fmt.Printf("(Without cairo beside it, which is optional: %v.)\n\n", missing)
	} else {
		theirs, marks := filepath.Join(dir, "cairo.pdf"), filepath.Join(dir, "marks.txt")
		if err := exportMarks(marks); err != nil {
			return err
		}
		contestants = append(contestants, contestant{"cairo, the same marks", []string{cairo, marks, theirs, fmt.Sprint(pageCount)}, theirs})
	}
	results, err := race(pagesRounds, contestants...)
	if err != nil {
		return err
	}
	fmt.Printf("%d pages of PDF, the full sheet of suv on A3, median of %d runs each, taken in turns:\n\n", pageCount, pagesRounds)
	fmt.Println("| writer | wall ms | CPU ms | peak memory MB | bytes written |\n|---|---|---|---|---|")
	for _, r := range results {
		fmt.Printf("| %s | %.0f | %.0f | %.1f | %d |\n", r.name, r.wall, r.cpu, r.peak/1000, r.bytes)
	}
	return nil
}

// buildCairo compiles cairo/marks.c into dir; the error says what is not installed.
func buildCairo(source, dir string) (program string, missing error) {
	flags, err := exec.Command("pkg-config", "--cflags", "--libs", "cairo-pdf", "cairo-ft", "freetype2").Output()
	if err != nil {
		return "", fmt.Errorf("pkg-config knows no cairo-pdf and cairo-ft; on Debian: apt-get install gcc pkg-config libcairo2-dev")
	}
	program = filepath.Join(dir, "cairo")
	args := append([]string{"-O2", "-o", program, source}, fields(flags)...)
	if said, err := exec.Command("gcc", args...).CombinedOutput(); err != nil {
		return "", fmt.Errorf("gcc: %w: %s", err, said)
	}
	return program, nil
}
