package screen

import (
	"bytes"
	"fmt"

	"hubrule/internal/geom"
	"hubrule/internal/picture"
	"hubrule/internal/slice"
	"hubrule/render"
	"hubrule/render/draft"
	"hubrule/render/photo"
	"hubrule/render/svg"
	"hubrule/segments/reading"
)

// Shown is the part of a picture that a page shows: x, y, width and height in pixels from the top left corner of the upright picture.
type Shown [4]float64

// Photo is what stands on and about a picture on a screen, in CSS pixels. The picture itself is the page's own, in Box.
type Photo struct {
	Width, Height float64
	Box           [4]float64 // x, y, width, height
	SVG           []byte     // without words
	Words         []Word
}

// leastShown is how many pixels of a picture are a part of it.
const leastShown = 8

// frame returns where a part of a picture stands, and what the sheet over it is drawn in.
func (s Screen) frame(shown Shown) (Photo, photo.Frame, error) {
	if err := s.Check(); err != nil {
		return Photo{}, photo.Frame{}, fmt.Errorf("screen: %w", err)
	}
	x, y, width, height := shown[0], shown[1], shown[2], shown[3]
	least, most := min(width, height), max(width, height)
	if !(least >= leastShown && 100*least >= most && min(x, y) >= -1 && max(x+width, y+height) <= picture.MaxSide+1) {
		return Photo{}, photo.Frame{}, fmt.Errorf("shown %v; want [x, y, width, height] in pixels of the picture, %d wide and high or more, "+
			"neither side a hundred times the other", shown, leastShown)
	}
	corner := reading.Point{X: reading.Pixel(x), Y: reading.Pixel(y)}
	part := geom.Box[reading.Pixel]{Min: corner, Max: corner.Add(reading.Point{X: reading.Pixel(width), Y: reading.Pixel(height)})}
	f := photo.Frame{Width: s.mm(s.Width), Height: s.mm(s.Height), Narrow: s.isNarrow(), Shown: part}
	box, tall := f.Place()
	k := s.perMM()
	pixels := func(l geom.MM) float64 { return float64(l) * k }
	return Photo{Width: s.Width, Height: pixels(tall),
		Box: [4]float64{pixels(box.Min.X), pixels(box.Min.Y), pixels(box.Width()), pixels(box.Height())}}, f, nil
}

// FramePhoto returns where a part of a picture stands of which nothing was read.
func FramePhoto(s Screen, shown Shown) (Photo, error) {
	out, _, err := s.frame(shown)
	return out, err
}

// ComposePhoto draws a picture's sheet over the part of it that a page shows.
func ComposePhoto(sheet photo.Sheet, s Screen, shown Shown) (Photo, error) {
	out, frame, err := s.frame(shown)
	if err != nil {
		return Photo{}, err
	}
	marks, err := sheet.OnScreen(frame)
	if err != nil {
		return Photo{}, err
	}
	k := s.perMM()
	marks = slice.Map(marks, func(m render.Mark) render.Mark { return draft.Scaled(m, k) })
	lines, words := split(marks)
	if out.Words = words; s.Dark {
		lines = slice.Map(lines, darkened)
	}
	var file bytes.Buffer
	page := render.Page{Width: geom.MM(out.Width), Height: geom.MM(out.Height), Guides: draft.GuidesOf(lines), Marks: lines}
	if err := svg.Write(&file, page); err != nil {
		return Photo{}, err
	}
	out.SVG = file.Bytes()
	return out, nil
}
