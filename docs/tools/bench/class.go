//go:build unix

package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

// classSizes are the numbers of pages that are compared, and how often each contestant writes them.
func classSizes() [][2]int { return [][2]int{{1, 21}, {100, 11}, {1000, 5}, {10_000, 1}} }

// benchPages compares class sets, from the class file to the last byte, with writers that get finished marks: ours with one worker, a bare
// one, and cairo, where it and a C compiler are installed.
func benchPages(dir string) error {
	self, err := os.Executable()
	if err != nil {
		return err
	}
	in := func(name string) string { return filepath.Join(dir, name) }
	if err := exportMarks(in("marks.txt")); err != nil {
		return err
	}
	meter := in("meter")
	if err := os.WriteFile(meter+".go", []byte(meterSource), 0o666); err != nil {
		return err
	}
	if err := build(dir, meter, meter+".go"); err != nil {
		return err
	}
	cairo, missing := buildCairo("cairo/marks.c", dir)
	if missing != nil {
		fmt.Printf("(Without cairo beside it, which is optional: %v.)\n\n", missing)
	}
	fmt.Println("Class sets: the full sheet of suv on A3 for every student; median of wall and CPU, taken in turns:\n\n" +
		"| pages | writer | wall ms | CPU ms | peak memory MB | bytes written |\n|---|---|---|---|---|---|")
	for _, size := range classSizes() {
		pages := fmt.Sprint(size[0])
		contestants := []contestant{
			{"`hubrule handout`, every student's figures their own", []string{in("hubrule"), "handout", classFile(dir, size[0], ".6"), "-o", in("own.pdf")}, in("own.pdf")},
			{"`hubrule handout`, all alike", []string{in("hubrule"), "handout", classFile(dir, size[0], "0"), "-o", in("alike.pdf")}, in("alike.pdf")},
			{"hubrule's PDF writer, the same marks, one worker", []string{self, "pages", in("same.pdf"), pages}, in("same.pdf")},
			{"a bare writer, the same marks, one worker", []string{self, "bare", in("marks.txt"), in("bare.pdf"), pages}, in("bare.pdf")},
		}
		if cairo != "" {
			contestants = append(contestants, contestant{"cairo, the same marks", []string{cairo, in("marks.txt"), in("cairo.pdf"), pages}, in("cairo.pdf")})
		}
		results, err := race(size[1], contestants...)
		if err != nil {
			return err
		}
		for i, r := range results {
			if r.peak, err = peakOf(meter, contestants[i].command); err != nil {
				return err
			}
			fmt.Printf("| %s | %s | %.0f | %.0f | %.1f | %d |\n", pages, r.name, r.wall, r.cpu, r.peak/1000, r.bytes)
		}
	}
	return nil
}

// classFile writes the file of a class of so many students, who get one full sheet each.
func classFile(dir string, students int, vary string) string {
	path := filepath.Join(dir, fmt.Sprintf("class-%d-%s.yaml", students, vary))
	text := fmt.Sprintf("kind: class\ntitle: Bench\nstudents: %d\npages: [{segment: suv, sheets: [full]}]\nvary: %s\nseed: 1\n", students, strings.Replace(vary, ".", "0.", 1))
	if err := os.WriteFile(path, []byte(text), 0o666); err != nil {
		panic(err) // in a folder of our own
	}
	return path
}

// meterSource is a small program that runs another and prints the most memory that it held. Linux counts a parent's memory at the
// fork to its child's peak, so the parent has to be small.
const meterSource = `package main

import (
	"fmt"
	"os"
	"os/exec"
	"syscall"
)

func main() {
	c := exec.Command(os.Args[1], os.Args[2:]...)
	if err := c.Run(); err != nil {
		os.Exit(1)
	}
	fmt.Println(c.ProcessState.SysUsage().(*syscall.Rusage).Maxrss)
}
`

// peakOf runs a command once more and returns its peak memory in kilobytes.
func peakOf(meter string, command []string) (float64, error) {
	said, err := exec.Command(meter, command...).Output()
	if err != nil {
		return 0, fmt.Errorf("%v: %w", command, err)
	}
	var peak float64
	_, err = fmt.Sscan(string(said), &peak)
	return peak, err
}
