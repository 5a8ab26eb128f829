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
	"hubrule/render/request"
	"hubrule/render/sheet"
	"hubrule/render/svg"
	"hubrule/segments"
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
	if err := drawSheets(); err != nil {
		return err
	}
	for _, name := range kindsOf {
		if err := kindSheet(name); err != nil {
			return fmt.Errorf("sheets of %s: %w", name, err)
		}
	}
	for _, r := range readings {
		if err := drawReading(r.file, r.command); err != nil {
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

// drawSheets draws the pages that no command draws.
func drawSheets() error {
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
	for name, cameras := range solidSheets {
		page, err := solidSheet(cameras)
		if err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
		if err := writePicture(name, page); err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
	}
	return nil
}

// picture is one sheet, and the command that a reader would draw it with.
type picture struct {
	file    string // without .svg
	segment string // or several, with spaces between
	kind    request.Kind
	flags   string // what the command says besides the segment and the kind
	setting request.Setting
}

// drawnOfAll lists the kinds that are drawn of every segment; the others have an example.
func drawnOfAll() []request.Kind { return []request.Kind{request.Full, request.Trace} }

// usual is the setting of draw without flags.
func usual() request.Setting {
	return request.Setting{Paper: paper("A3"), Facing: request.Left, Labels: request.FullLabels, Units: request.Wheels}
}

// paper returns a named paper that is known to exist.
func paper(name string) request.Paper {
	p, ok := request.FindPaper(name)
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
	levels.Given = request.GivenLevels
	tiles.Scale, tiles.Tile = request.Scale{Reduction: 4}, true
	a4.Paper = paper("A4")
	screen, legend := usual(), usual()
	screen.Paper, legend.Legend = request.PixelsIn("1920x1080px", 1920, 1080, 300), true
	right.Facing = request.Right
	mm.Units, mm.Labels, mm.Ink, mm.Frame = request.Millimetres, request.ShortLabels, request.Grey, true
	letter.Paper, letter.Units, letter.Outline = paper("letter"), request.Inches, request.OutlineOn
	return append(views(), []picture{
		{"suv-steps", "suv", request.Steps, "", usual()},
		{"suv-demonstration", "suv", request.Demonstration, "--paper 1920x1080px", screen},
		{"suv-legend", "suv", request.Full, "--legend", legend},
		{"suv-practice", "suv", request.Practice, "", usual()},
		{"suv-practice-levels", "suv", request.Practice, "--given 2", levels},
		{"suv-answer", "suv", request.Answer, "", usual()},
		{"suv-overlay", "suv crossover", request.Overlay, "", usual()},
		{"suv-spread", "suv suv-large off-roader", request.Spread, "", usual()},
		{"suv-thumbnails", "suv", request.Thumbnails, "", usual()},
		{"suv-tile", "suv", request.Full, "--scale 1:4 --tile", tiles},
		{"suv-A4", "suv", request.Full, "--paper A4", a4},
		{"sports-right", "sports", request.Full, "--facing right", right},
		{"van-mm-grey", "van", request.Full, "--units mm --labels short --ink grey --frame", mm},
		{"off-roader-letter-trace", "off-roader", request.Trace, "--paper letter --outline", letter},
	}...)
}

// views lists what is drawn of other sides than the side.
func views() []picture {
	from := func(camera string, all ...request.View) request.Setting {
		s := usual()
		s.Views, s.Angle = all, request.ThirdAngle
		s.Camera.Spec, _ = view.FindPreset(camera)
		return s
	}
	const perspective = "--view perspective"
	first := from("", request.ArrangementView)
	first.Angle = request.FirstAngle
	return []picture{
		{"suv-ends", "suv", request.Full, "--view front,rear", from("", request.FrontView, request.RearView)},
		{"mid-engine-ends", "mid-engine", request.Full, "--view front,rear", from("", request.FrontView, request.RearView)},
		{"pickup-top", "pickup", request.Full, "--view top", from("", request.TopView)},
		{"sedan-arrangement", "sedan", request.Full, "--view arrangement", from("", request.ArrangementView)},
		{"van-arrangement", "van", request.Full, "--view arrangement --angle first", first},
		{"suv-perspective", "suv", request.Full, perspective, from("front-quarter", request.PerspectiveView)},
		{"suv-perspective-trace", "suv", request.Trace, perspective, from("front-quarter", request.PerspectiveView)},
		{"coupe-perspective-low", "coupe", request.Full, perspective + " --camera front-low", from("front-low", request.PerspectiveView)},
		{"mid-engine-perspective-high", "mid-engine", request.Full, perspective + " --camera front-high", from("front-high", request.PerspectiveView)},
		{"suv-perspective-steps", "suv", request.Steps, perspective, from("front-quarter", request.PerspectiveView)},
		{"suv-perspective-practice", "suv", request.Practice, perspective, from("front-quarter", request.PerspectiveView)},
		{"suv-perspective-answer", "suv", request.Answer, perspective, from("front-quarter", request.PerspectiveView)},
		{"suv-ellipses", "suv", request.Full, "--view ellipses", from("front-quarter", request.EllipsesView)},
		{"pickup-perspective-rear", "pickup", request.Full, perspective + " --camera rear-quarter", from("rear-quarter", request.PerspectiveView)},
	}
}

// draw writes the picture's class.
func (p picture) draw() error {
	job := request.Request{Kinds: []request.Kind{p.kind}, Setting: p.setting}
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
	page := doc.Pages[0]
	if p.kind == request.Demonstration {
		page = doc.Pages[2]
	}
	return writePage(p.shown(), page)
}

// shown is the file that the gallery shows: of tiles the first, of a demonstration the third.
func (p picture) shown() string {
	if p.setting.Tile {
		return p.file + "-1.svg"
	}
	if p.kind == request.Demonstration {
		return p.file + "-3.svg"
	}
	return p.file + ".svg"
}

// command returns what to type for the picture.
func (p picture) command() string {
	c := "hubrule draw " + p.segment
	if p.kind != request.Full {
		c += " --sheet " + string(p.kind)
	}
	if p.flags != "" {
		c += " " + p.flags
	}
	return c + " -o " + p.file + ".svg"
}

func writePage(name string, p render.Page) error {
	var b bytes.Buffer
	if err := svg.Write(&b, p); err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	return os.WriteFile(filepath.Join(folder, name), b.Bytes(), 0o666)
}
