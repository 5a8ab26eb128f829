//go:build unix

// Bench measures the program beside others on the same machine in the same run, turn by turn, and prints the
// medians as tables: one draw as a whole process beside a Go program that does nothing, one picture beside poppler and
// librsvg drawing it, the calls of a desk, and class sets of up to ten thousand pages beside cairo and a bare writer writing the same marks. It runs in its own folder, by make bench.
package main

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strconv"
)

// root is the project's folder.
const root = "../../.."

// drawRounds is how often each contestant draws a sheet.
const drawRounds = 200

func main() {
	err := errors.New("usage: bench, or bench desk for its table alone, or bench pages FILE N, or bench bare MARKS FILE N (what it runs itself as)")
	switch {
	case len(os.Args) == 1:
		err = bench(benchDraw, benchPictures, benchViews, benchDesk, benchPages)
	case len(os.Args) == 2 && os.Args[1] == "desk":
		err = bench(benchDesk)
	case len(os.Args) == 4 && os.Args[1] == "pages":
		err = samePages(os.Args[2], number(os.Args[3]))
	case len(os.Args) == 5 && os.Args[1] == "bare":
		err = barePages(os.Args[2], os.Args[3], number(os.Args[4]))
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, "bench:", err)
		os.Exit(1)
	}
}

// number reads a count of pages; what is none is none.
func number(text string) int {
	n, _ := strconv.Atoi(text)
	return n
}

// bench prints tables one after the other; they share a folder.
func bench(tables ...func(dir string) error) error {
	dir, err := os.MkdirTemp("", "bench")
	if err != nil {
		return err
	}
	defer os.RemoveAll(dir)
	fmt.Printf("%s, %d cores, %s/%s\n", runtime.Version(), runtime.NumCPU(), runtime.GOOS, runtime.GOARCH)
	for _, table := range tables {
		fmt.Println()
		if err := table(dir); err != nil {
			return err
		}
	}
	return nil
}

// benchDraw compares whole processes: start, draw one sheet into a file, end.
func benchDraw(dir string) error {
	tool, nothing := filepath.Join(dir, "hubrule"), filepath.Join(dir, "nothing")
	source := nothing + ".go"
	if err := os.WriteFile(source, []byte("package main\n\nfunc main() {}\n"), 0o666); err != nil {
		return err
	}
	if err := errors.Join(build(root, tool, "."), build(dir, nothing, source)); err != nil {
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

// build compiles a Go program in a folder as it is released: without cgo.
func build(in, output, from string) error {
	c := exec.Command("go", "build", "-trimpath", "-o", output, from)
	c.Dir = in
	c.Env = append(os.Environ(), "CGO_ENABLED=0")
	if said, err := c.CombinedOutput(); err != nil {
		return fmt.Errorf("go build %s: %w\n%s", from, err, said)
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
