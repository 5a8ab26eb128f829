//go:build unix

package main

import (
	"fmt"
	"os/exec"
	"path/filepath"
)

// pictureRounds is how often each contestant draws a picture.
const pictureRounds = 7

// benchPictures compares whole processes that draw one sheet at 300 dots an inch: ours from nothing, others from our
// files of the same sheet, and ours at a finer resolution. Others that are not installed are left out.
func benchPictures(dir string) error {
	tool := filepath.Join(dir, "hubrule")
	in := func(name string) string { return filepath.Join(dir, name) }
	if err := exec.Command(tool, "draw", "suv", "-o", in("sheet.pdf"), "-o", in("sheet.svg")).Run(); err != nil {
		return err
	}
	contestants := []contestant{
		{"`hubrule draw suv -o suv.png`, A3", []string{tool, "draw", "suv", "-o", in("suv.png")}, in("suv.png")},
		{"the same on A1", []string{tool, "draw", "suv", "--paper", "A1", "-o", in("large.png")}, in("large.png")},
		{"A1 at 600 dots an inch", []string{tool, "draw", "suv", "--paper", "A1", "--dpi", "600", "-o", in("fine.png")}, in("fine.png")},
	}
	for _, c := range []contestant{
		{"poppler from our PDF, A3", []string{"pdftoppm", "-r", "300", "-png", "-singlefile", in("sheet.pdf"), in("poppler")}, in("poppler.png")},
		{"librsvg from our SVG, A3", []string{"rsvg-convert", "-b", "white", "-d", "300", "-p", "300", in("sheet.svg"), "-o", in("librsvg.png")}, in("librsvg.png")},
	} {
		if _, err := exec.LookPath(c.command[0]); err != nil {
			fmt.Printf("(Without %s beside it, which is optional: it is not installed.)\n\n", c.command[0])
			continue
		}
		contestants = append(contestants, c)
	}
	results, err := race(pictureRounds, contestants...)
	if err != nil {
		return err
	}
	fmt.Printf("One picture as a whole process, at 300 dots an inch where nothing else is said, median of %d runs each, taken in turns:\n\n", pictureRounds)
	fmt.Println("| process | wall ms | CPU ms | bytes written |\n|---|---|---|---|")
	for _, r := range results {
		fmt.Printf("| %s | %.0f | %.0f | %d |\n", r.name, r.wall, r.cpu, r.bytes)
	}
	return nil
}
