package sheet

import (
	"bytes"
	"fmt"
	"image"
	_ "image/png" // a second decoder
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"hubrule/internal/geom"
	"hubrule/internal/outside"
	"hubrule/internal/testsheet"
	"hubrule/layout"
	"hubrule/render"
	"hubrule/render/draft"
	"hubrule/render/pdf"
	"hubrule/render/png"
	"hubrule/render/request"
	"hubrule/render/tile"
)

// tiling is one sheet before and after it is cut.
type tiling struct {
	grid  tile.Grid
	whole render.Page
	tiles []render.Page
	blank []string
}

// tilingOf cuts the first sheet of a job as composeTiles does, and keeps the large sheet.
func tilingOf(t testing.TB, job request.Request) tiling {
	t.Helper()
	d := composer{Request: job}
	p := d.parts()[0]
	wheel := job.Setting.Scale.WheelOf(p.plans[0])
	grid, pages, ok := d.place(p, wheel)
	if !ok || grid.Columns == 0 {
		t.Fatalf("%v is not cut: %v %v", job.Kinds, grid, ok)
	}
	out := tiling{grid: grid, whole: pages[0]}
	doc, _, err := Compose(job)
	if err != nil {
		t.Fatal(err)
	}
	_, out.blank = tile.Cutting{Grid: grid, Sheet: pages[0], Wheel: wheel, Inks: draft.InksOf(request.Dark)}.Pages()
	out.tiles = doc.Pages[:grid.Columns*grid.Rows-len(out.blank)]
	return out
}

func tilesOf(g tile.Grid) []tile.Tile {
	var out []tile.Tile
	for row := range g.Rows {
		for column := range g.Columns {
			out = append(out, tile.Tile{Column: column, Row: row})
		}
	}
	return out
}

// find returns the page of a tile, nil where it is left out.
func (x tiling) find(t tile.Tile) *render.Page {
	i := slices.IndexFunc(x.tiles, func(p render.Page) bool { return p.Label == t.Name() || strings.HasSuffix(p.Label, "-"+t.Name()) })
	if i < 0 {
		return nil
	}
	return &x.tiles[i]
}

// perMM is how many pixels a millimetre has: windows and steps are whole pixels.
const perMM = 3

func pictureOf(t testing.TB, p render.Page) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := png.Write(&b, p, png.Options{DPI: perMM * 25.4}); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func greyOf(t testing.TB, data []byte) *image.Gray {
	t.Helper()
	img, _, err := image.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	out, pix := image.NewGray(img.Bounds()), pixelsOf(img)
	for i := range out.Pix {
		r, g, b := uint32(pix[4*i]), uint32(pix[4*i+1]), uint32(pix[4*i+2])
		out.Pix[i] = uint8((19595*r + 38470*g + 7471*b + 1<<15) >> 16) // as color.GrayModel does, in no time
	}
	return out
}

// glued has ImageMagick do what a person does: cut every tile on its dashed lines, wherever the file has them, and lay it on those
// before it. The margins that are not cut stay, so that they would hide what they lie on.
func (x tiling) glued(t testing.TB, picture func(testing.TB, render.Page) []byte) *image.Gray {
	t.Helper()
	whole, step, window := x.grid.Whole(), x.grid.Step(), x.grid.Window()
	pixels := func(l geom.MM) int { return int(math.Round(float64(l) * perMM)) }
	edge := 100 // pixels round all, for margins
	args := []string{"-size", fmt.Sprintf("%dx%d", pixels(whole.Width)+2*edge, pixels(whole.Height)+2*edge), "canvas:white"}
	for _, at := range tilesOf(x.grid) {
		p := x.find(at)
		if p == nil {
			continue
		}
		keep := draft.Box{Max: draft.Point{X: p.Width, Y: p.Height}}
		for id, s := range testsheet.ReadSVG(t, testsheet.SvgOf(t, *p)).Shapes {
			switch id {
			case "cut-left":
				keep.Min.X = geom.MM(s.Num(t, "x1"))
			case "cut-top":
				keep.Min.Y = geom.MM(s.Num(t, "y1"))
			case "cut-right":
				keep.Max.X = geom.MM(s.Num(t, "x1"))
			}
		}
		file := outside.File(t, at.Name()+".png", picture(t, *p))
		args = append(args, "(", file, "-crop", fmt.Sprintf("%dx%d+%d+%d", pixels(keep.Width()), pixels(keep.Height()), pixels(keep.Min.X), pixels(keep.Min.Y)), "+repage", ")",
			"-geometry", fmt.Sprintf("+%d+%d", edge+pixels(step.X*geom.MM(at.Column)+keep.Min.X-window.Min.X), edge+pixels(step.Y*geom.MM(at.Row)+keep.Min.Y-window.Min.Y)), "-composite")
	}
	path := filepath.Join(t.TempDir(), "glued.png")
	outside.Run(t, "convert", append(args, "-crop", fmt.Sprintf("%dx%d+%d+%d", pixels(whole.Width), pixels(whole.Height), edge, edge), "+repage", "-depth", "8", path)...)
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return greyOf(t, data)
}

// onOwn returns the pixels of the large sheet that belong to a tile alone.
func onOwn(g tile.Grid, t tile.Tile) image.Rectangle {
	b := g.Own(t)
	px := func(l geom.MM) int { return int(math.Round(float64(l) * perMM)) }
	return image.Rect(px(b.Min.X), px(b.Min.Y), px(b.Max.X), px(b.Max.Y))
}

// compareGlued compares the glued sheet with the large one, where tiles are, and sees to it that what is left out is blank.
func (x tiling) compareGlued(t *testing.T, glued, whole *image.Gray) (worst int, mean float64) {
	t.Helper()
	count, sum := 0, 0
	for _, at := range tilesOf(x.grid) {
		own, there, dark := onOwn(x.grid, at), x.find(at) != nil, 0
		for y := own.Min.Y; y < own.Max.Y; y++ {
			for px := own.Min.X; px < own.Max.X; px++ {
				v := whole.GrayAt(px, y).Y
				if v < 255 {
					dark++
				}
				if there {
					d := int(v) - int(glued.GrayAt(px, y).Y)
					worst, sum, count = max(worst, d, -d), sum+max(d, -d), count+1
				}
			}
		}
		if there == (dark == 0) {
			t.Errorf("tile %s is there: %v, and has %d pixels of something", at.Name(), there, dark)
		}
	}
	return worst, float64(sum) / float64(count)
}

func atScale(s request.Setting, reduction float64) request.Setting {
	s.Scale, s.Tile = request.Scale{Reduction: reduction}, true
	return s
}

// Tiles glued by ImageMagick are the large sheet; a tile that is left out is blank there.
func TestGluedTilesAreTheLargeSheet(t *testing.T) {
	t.Parallel()
	outside.Need(t, "convert")
	right := testsheet.Setting(t, "A4")
	right.Facing = request.Right
	for i, job := range []request.Request{
		{Plans: []layout.Plan{testsheet.Plan(t, "suv")}, Kinds: []request.Kind{request.Full}, Setting: atScale(testsheet.Setting(t, "A4"), 6)},
		{Plans: []layout.Plan{testsheet.Plan(t, "mid-engine")}, Kinds: []request.Kind{request.Trace}, Setting: atScale(right, 7)},
	} {
		x, whole := tilingOf(t, job), (*image.Gray)(nil)
		whole = greyOf(t, pictureOf(t, x.whole))
		worst, mean := x.compareGlued(t, x.glued(t, pictureOf), whole)
		t.Logf("%s: %d x %d tiles, %v left out; the largest difference is %d levels of 255, the mean %.5f", x.whole.Title, x.grid.Columns, x.grid.Rows, x.blank, worst, mean)
		if worst > 12 {
			t.Errorf("%s: a pixel differs by %d levels", x.whole.Title, worst)
		}
		if i > 0 {
			continue
		}
		x.tiles[1].Clip.Max.X -= 12 // narrower than its flap
		if worst, _ = x.compareGlued(t, x.glued(t, pictureOf), whole); worst < 20 {
			t.Errorf("%s: a gap is not noticed", x.whole.Title)
		}
	}
}

// The same of a PDF, as poppler draws it.
func TestGluedPDFTilesAreTheLargeSheet(t *testing.T) {
	t.Parallel()
	outside.Need(t, "convert", "pdftoppm")
	x := tilingOf(t, request.Request{Plans: []layout.Plan{testsheet.Plan(t, "city")}, Kinds: []request.Kind{request.Trace}, Setting: atScale(testsheet.Setting(t, "A4"), 6)})
	poppler := func(t testing.TB, p render.Page) []byte {
		var b bytes.Buffer
		if err := pdf.Write(&b, render.Document{Pages: []render.Page{p}}); err != nil {
			t.Fatal(err)
		}
		root := filepath.Join(t.TempDir(), "page")
		outside.Run(t, "pdftoppm", "-r", fmt.Sprint(perMM*25.4), "-singlefile", "-gray", "-png", outside.File(t, "page.pdf", b.Bytes()), root)
		data, err := os.ReadFile(root + ".png")
		if err != nil {
			t.Fatal(err)
		}
		return data
	}
	worst, mean := x.compareGlued(t, x.glued(t, poppler), greyOf(t, poppler(t, x.whole)))
	t.Logf("%s: the largest difference is %d levels of 255, the mean %.5f", x.whole.Title, worst, mean)
	if mean > .001 {
		t.Errorf("%s: the mean difference is %.5f levels", x.whole.Title, mean)
	}
}
