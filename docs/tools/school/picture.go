package main

import (
	"bytes"
	"image"
	"image/jpeg"
	"image/png"
	"strings"

	"hubrule/internal/geom"
	"hubrule/layout/view"
	"hubrule/render"
	pngfile "hubrule/render/png"
)

// photograph paints a vehicle and returns the picture as a JPEG.
func photograph(c car, r *relief, cam camera) ([]byte, error) {
	scene := view.NewScene(r.solid, cam.Camera)
	p := painter{r, cam, scene, rgb{float64(c.colour.R), float64(c.colour.G), float64(c.colour.B)}}
	page := pageOf(p.pixels())
	tag := render.Tagged{Guide: "lines"}
	fill := func(run []view.ImagePoint, ink render.Colour) {
		page.Marks = append(page.Marks, &render.Fill{Tagged: tag, Path: pathOf(cam.loop(run)).Close(), Ink: ink})
	}
	stroke := func(run []view.ImagePoint, width geom.MM, ink render.Colour) {
		page.Marks = append(page.Marks, &render.Stroke{Tagged: tag, Path: pathOf(cam.loop(run)), Pen: render.Pen{Width: width * dot, Ink: ink}})
	}
	for _, pane := range scene.Panes() {
		fill(pane, render.Colour{R: uint8(glass[0]), G: uint8(glass[1]), B: uint8(glass[2])})
	}
	edge := shade(c, .55)
	for _, l := range r.solid.Lines() {
		seen := scene.Visible(l)
		switch l.Kind {
		case view.LampLine:
			if len(seen) > 0 {
				ink := render.Colour{R: 226, G: 230, B: 228}
				if strings.HasPrefix(l.Name, "lamp-rear") {
					ink = render.Colour{R: 150, G: 30, B: 28}
				}
				var loop []view.ImagePoint
				for _, s := range seen {
					loop = append(loop, s.Points...)
				}
				fill(loop, ink)
			}
		case view.DetailLine:
			for _, s := range seen {
				stroke(s.Points, 1.6, edge)
			}
		case view.PillarLine, view.GlassLine, view.EdgeLine:
			for _, s := range seen {
				stroke(s.Points, 2.2, shade(c, .4))
			}
		}
	}
	pixels, err := rastered(page)
	if err != nil {
		return nil, err
	}
	if cam.mirrored {
		mirror(pixels)
	}
	return jpegOf(pixels, 80)
}

// shade returns the paint of a vehicle, darker.
func shade(c car, share float64) render.Colour {
	of := func(v uint8) uint8 { return uint8(float64(v) * share) }
	return render.Colour{R: of(c.colour.R), G: of(c.colour.G), B: of(c.colour.B)}
}

// dot is how large a pixel is on the pages on which pictures are put together, so that the writer of pictures draws it as one.
const (
	dot geom.MM = .2
	dpi         = 25.4 / .2
)

// pageOf returns a page as large as a picture, which lies below a layer for lines.
func pageOf(pixels *image.RGBA) render.Page {
	size := pixels.Rect.Size()
	page := render.Page{
		Width: geom.MM(size.X) * dot, Height: geom.MM(size.Y) * dot, Guides: []render.Guide{{Name: "ground"}, {Name: "lines"}},
	}
	page.Marks = []render.Mark{&render.Picture{
		Tagged: render.Tagged{Guide: "ground"}, Box: render.Box{Max: render.Point{X: page.Width, Y: page.Height}}, Pixels: pixels,
	}}
	return page
}

// pathOf joins points by straight lines.
func pathOf(points []geom.Point[float64]) render.Path {
	var path render.Path
	for i, q := range points {
		at := render.Point{X: geom.MM(q.X) * dot, Y: geom.MM(q.Y) * dot}
		if i == 0 {
			path = path.Move(at)
		} else {
			path = path.Line(at)
		}
	}
	return path
}

// rastered draws a page of pageOf.
func rastered(page render.Page) (*image.RGBA, error) {
	var b bytes.Buffer
	if err := pngfile.Write(&b, page, pngfile.Options{DPI: dpi}); err != nil {
		return nil, err
	}
	return rgbaOf(b.Bytes())
}

// rgbaOf decodes a PNG.
func rgbaOf(data []byte) (*image.RGBA, error) {
	img, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		return nil, err
	}
	if out, ok := img.(*image.RGBA); ok {
		return out, nil
	}
	out := image.NewRGBA(img.Bounds())
	for y := range out.Rect.Dy() {
		for x := range out.Rect.Dx() {
			out.Set(x, y, img.At(x, y))
		}
	}
	return out, nil
}

// mirror turns a picture's left and right round.
func mirror(pixels *image.RGBA) {
	size := pixels.Rect.Size()
	for y := range size.Y {
		for x := range size.X / 2 {
			a, b := pixels.RGBAAt(x, y), pixels.RGBAAt(size.X-1-x, y)
			pixels.SetRGBA(x, y, b)
			pixels.SetRGBA(size.X-1-x, y, a)
		}
	}
}

// jpegOf packs a picture.
func jpegOf(pixels image.Image, quality int) ([]byte, error) {
	var b bytes.Buffer
	err := jpeg.Encode(&b, pixels, &jpeg.Options{Quality: quality})
	return b.Bytes(), err
}
