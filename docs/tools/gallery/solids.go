package main

import (
	"bytes"
	"os"
	"path/filepath"
	"slices"

	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/layout/view"
	"hubrule/render"
	"hubrule/render/png"
	"hubrule/segments"
)

// solidSheets are the contact sheets of the solids: every segment twice, three segments a row. They are pictures of dots, since their many
// hidden lines would make large files of lines.
var solidSheets = map[string][2]string{
	"quarters.png": {"front-quarter", "rear-quarter"},
	"faces.png":    {"front", "rear"},
}

// solidSheet draws all segments from two sides.
func solidSheet(cameras [2]string) (render.Page, error) {
	const cell = cellWidth / 2
	page := contactPage("The segments as solids")
	for i, name := range segments.Names() {
		profile, err := segments.Find(name)
		if err != nil {
			return page, err
		}
		corner := cornerOf(i)
		p := layout.Typical(profile)
		solid := view.NewSolid(p)
		for k, camera := range cameras {
			marks, err := solidCell(solid, p, camera, render.Point{X: corner.X + cell*geom.MM(k), Y: corner.Y})
			if err != nil {
				return page, err
			}
			page.Marks = append(page.Marks, marks...)
		}
		page.Marks = append(page.Marks, caption(corner, name, ""))
	}
	return page, nil
}

// solidCell draws a solid before a camera, as large as half a cell lets it be: its silhouette, its windows and what is seen of its lines.
func solidCell(solid *view.Solid, p layout.Plan, camera string, corner render.Point) ([]render.Mark, error) {
	c, ok := map[string]view.Camera{"front": view.Front(), "rear": view.Rear()}[camera]
	if !ok {
		spec, _ := view.FindPreset(camera)
		var err error
		if c, err = spec.Camera(p); err != nil {
			return nil, err
		}
	}
	scene := view.NewScene(solid, c)
	silhouette := scene.Silhouette()
	box := geom.BoxOf(silhouette[0][0], slices.Concat(silhouette...)...)
	scale := min(geom.MM(cellWidth/2-6)/geom.MM(box.Width()), geom.MM(roadBelow-6)/geom.MM(box.Height()))
	run := func(points []view.ImagePoint) render.Path {
		var path render.Path
		for i, q := range points {
			at := render.Point{
				X: corner.X + cellWidth/4 + geom.MM(q.X-(box.Min.X+box.Max.X)/2)*scale,
				Y: corner.Y + roadBelow - geom.MM(box.Max.Y-q.Y)*scale,
			}
			if i == 0 {
				path = path.Move(at)
			} else {
				path = path.Line(at)
			}
		}
		return path
	}
	tag := render.Tagged{Guide: "outline"}
	var marks []render.Mark
	for _, loop := range silhouette {
		marks = append(marks, &render.Fill{Tagged: tag, Path: run(loop).Close(), Ink: body})
	}
	for _, pane := range scene.Panes() {
		marks = append(marks, &render.Fill{Tagged: tag, Path: run(pane).Close(), Ink: glass})
	}
	for _, l := range linesOf(solid, scene) {
		width := geom.MM(.18)
		if l.Kind == view.ContourLine || l.Kind >= view.TyreOuterLine {
			width = .3
		}
		for _, s := range scene.Visible(l) {
			marks = append(marks, &render.Stroke{Tagged: tag, Path: run(s.Points), Pen: render.Pen{Width: width, Ink: ink}})
		}
	}
	return marks, nil
}

// linesOf returns the lines that show a solid: all but those that explain it, its contour and its wheels.
func linesOf(solid *view.Solid, scene *view.Scene) []view.Line {
	lines := slices.DeleteFunc(solid.Lines(), func(l view.Line) bool { return l.Kind == view.SectionLine || l.Kind == view.CentreLine })
	lines = append(lines, scene.Contour()...)
	for _, w := range solid.Wheels() {
		lines = append(lines, scene.WheelLines(w)...)
	}
	return lines
}

// writePicture writes a page as dots, fine enough for a screen.
func writePicture(name string, p render.Page) error {
	var b bytes.Buffer
	if err := png.Write(&b, p, png.Options{DPI: 110}); err != nil {
		return err
	}
	return os.WriteFile(filepath.Join(folder, name), b.Bytes(), 0o666)
}
