// Gallery draws the pictures of the docs, and writes the tables in them, with the project's own rooms:
// what the docs show is what the program does. It runs at the project's root, by make docs.
package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"hubrule/layout"
	"hubrule/layout/view"
	"hubrule/render"
	"hubrule/segments"
	"hubrule/sheet"
)

// folder is where the pictures go.
const folder = "docs/gallery"

func main() {
	if err := run(); err != nil {
		fmt.Fprintln(os.Stderr, "gallery:", err)
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
	for _, p := range pictures() {
		if err := p.draw(); err != nil {
			return err
		}
	}
	for name, draw := range map[string]func() (render.Page, error){
		"segments.svg": contactSheet, "tweaks.svg": tweakSheet, "solve.svg": solveSheet,
	} {
		page, err := draw()
		if err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
		if err := writePage(name, page); err != nil {
			return err
		}
	}
	if err := os.WriteFile(filepath.Join(folder, "README.md"), []byte(index()), 0o666); err != nil {
		return err
	}
	for _, t := range tables() {
		if err := t.refresh("."); err != nil {
			return err
		}
	}
	return nil
}

// picture is one sheet, and the command that a reader would draw it with.
type picture struct {
	file    string // without .svg
	segment string // or several, with spaces between
	kind    sheet.Kind
	flags   string // what the command says besides the segment and the kind
	setting sheet.Setting
}

// drawnOfAll lists the kinds that are drawn of every segment; the others have an example.
func drawnOfAll() []sheet.Kind { return []sheet.Kind{sheet.Full, sheet.Trace} }

// usual is the setting of draw without flags.
func usual() sheet.Setting {
	return sheet.Setting{Paper: paper("A3"), Facing: sheet.Left, Labels: sheet.FullLabels, Units: sheet.Wheels}
}

// paper returns a named paper that is known to exist.
func paper(name string) sheet.Paper {
	p, ok := sheet.FindPaper(name)
	if !ok {
		panic("gallery: no paper " + name)
	}
	return p
}

// pictures lists every sheet of the gallery: full and trace of every segment, then what the flags do.
func pictures() []picture {
	var out []picture
	for _, name := range segments.Names() {
		for _, kind := range drawnOfAll() {
			out = append(out, picture{name + "-" + string(kind), name, kind, "", usual()})
		}
	}
	return append(out, examples()...)
}

func examples() []picture {
	a4, right, mm, letter := usual(), usual(), usual(), usual()
	levels, tiles := usual(), usual()
	levels.Given = sheet.GivenLevels
	tiles.Scale, tiles.Tile = sheet.Scale{Reduction: 4}, true
	a4.Paper = paper("A4")
	right.Facing = sheet.Right
	mm.Units, mm.Labels, mm.Ink, mm.Frame = sheet.Millimetres, sheet.ShortLabels, sheet.Grey, true
	letter.Paper, letter.Units, letter.Outline = paper("letter"), sheet.Inches, sheet.On
	return append(views(), []picture{
		{"suv-steps", "suv", sheet.Steps, "", usual()},
		{"suv-practice", "suv", sheet.Practice, "", usual()},
		{"suv-practice-levels", "suv", sheet.Practice, "--given 2", levels},
		{"suv-answer", "suv", sheet.Answer, "", usual()},
		{"suv-overlay", "suv crossover", sheet.Overlay, "", usual()},
		{"suv-spread", "suv suv-large off-roader", sheet.Spread, "", usual()},
		{"suv-thumbnails", "suv", sheet.Thumbnails, "", usual()},
		{"suv-tile", "suv", sheet.Full, "--scale 1:4 --tile", tiles},
		{"suv-A4", "suv", sheet.Full, "--paper A4", a4},
		{"sports-right", "sports", sheet.Full, "--facing right", right},
		{"van-mm-grey", "van", sheet.Full, "--units mm --labels short --ink grey --frame", mm},
		{"off-roader-letter-trace", "off-roader", sheet.Trace, "--paper letter --outline", letter},
	}...)
}

// views lists what is drawn of other sides than the side.
func views() []picture {
	from := func(camera string, all ...sheet.View) sheet.Setting {
		s := usual()
		s.Views, s.Angle = all, sheet.ThirdAngle
		s.Camera.Spec, _ = view.FindPreset(camera)
		return s
	}
	const perspective = "--view perspective"
	first := from("", sheet.ArrangementView)
	first.Angle = sheet.FirstAngle
	return []picture{
		{"suv-ends", "suv", sheet.Full, "--view front,rear", from("", sheet.FrontView, sheet.RearView)},
		{"mid-engine-ends", "mid-engine", sheet.Full, "--view front,rear", from("", sheet.FrontView, sheet.RearView)},
		{"pickup-top", "pickup", sheet.Full, "--view top", from("", sheet.TopView)},
		{"sedan-arrangement", "sedan", sheet.Full, "--view arrangement", from("", sheet.ArrangementView)},
		{"van-arrangement", "van", sheet.Full, "--view arrangement --angle first", first},
		{"suv-perspective", "suv", sheet.Full, perspective, from("front-quarter", sheet.PerspectiveView)},
		{"suv-perspective-trace", "suv", sheet.Trace, perspective, from("front-quarter", sheet.PerspectiveView)},
		{"coupe-perspective-low", "coupe", sheet.Full, perspective + " --camera front-low", from("front-low", sheet.PerspectiveView)},
		{"mid-engine-perspective-high", "mid-engine", sheet.Full, perspective + " --camera front-high", from("front-high", sheet.PerspectiveView)},
		{"suv-perspective-steps", "suv", sheet.Steps, perspective, from("front-quarter", sheet.PerspectiveView)},
		{"suv-perspective-practice", "suv", sheet.Practice, perspective, from("front-quarter", sheet.PerspectiveView)},
		{"suv-perspective-answer", "suv", sheet.Answer, perspective, from("front-quarter", sheet.PerspectiveView)},
		{"suv-ellipses", "suv", sheet.Full, "--view ellipses", from("front-quarter", sheet.EllipsesView)},
		{"pickup-perspective-rear", "pickup", sheet.Full, perspective + " --camera rear-quarter", from("rear-quarter", sheet.PerspectiveView)},
	}
}

// draw writes the picture's sheet.
func (p picture) draw() error {
	job := sheet.Request{Kinds: []sheet.Kind{p.kind}, Setting: p.setting}
	for _, name := range strings.Fields(p.segment) {
		profile, err := segments.Find(name)
		if err != nil {
			return err
		}
		job.Plans = append(job.Plans, layout.Typical(profile))
	}
	doc, told, err := sheet.Compose(job)
	if err != nil {
		return err
	}
	for _, t := range told.Warnings {
		fmt.Fprintln(os.Stderr, "gallery: warning:", t)
	}
	return writePage(p.shown(), doc.Pages[0])
}

// shown is the file that the gallery shows: of tiles the first.
func (p picture) shown() string {
	if p.setting.Tile {
		return p.file + "-1.svg"
	}
	return p.file + ".svg"
}

// command returns what to type for the picture.
func (p picture) command() string {
	c := "hubrule draw " + p.segment
	if p.kind != sheet.Full {
		c += " --sheet " + string(p.kind)
	}
	if p.flags != "" {
		c += " " + p.flags
	}
	return c + " -o " + p.file + ".svg"
}

func writePage(name string, p render.Page) error {
	var b bytes.Buffer
	if err := render.WriteSVG(&b, p); err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	return os.WriteFile(filepath.Join(folder, name), b.Bytes(), 0o666)
}
