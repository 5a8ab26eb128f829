package render

import (
	"image"
	"math"

	"hubrule/internal/geom"
)

// cuts reports whether the marks of g are cut to the page's window.
func (p Page) cuts(g Guide) bool { return p.Clip != nil && !g.Unclipped }

// clipCorners returns the corners of a window as readers of a file know them.
func (p Page) clipCorners() (at, to Point) { return written(p.Clip.Min), written(p.Clip.Max) }

// clipRect is the window in a picture, in steps of the rasteriser's grid; nil: everything is seen.
type clipRect struct{ left, top, right, bottom int }

// clipIn returns the window of page in pixels, where scale is pixels a millimetre.
func (p Page) clipIn(scale float64) *clipRect {
	steps := func(l geom.MM) int { return int(math.Round(float64(l) * scale * grid)) }
	at, to := p.clipCorners()
	return &clipRect{steps(at.X), steps(at.Y), steps(to.X), steps(to.Y)}
}

// seen returns how much of pixel n lies between two edges, in steps of the grid.
func seen(n, from, to int) int {
	return max(0, min(to, (n+1)*grid)-max(from, n*grid))
}

// cut leaves of a mask what the pane shows; the mask's first pixel lies at left, top of the picture.
func (w *clipRect) cut(mask *image.Alpha, left, top int) {
	for y := range bandHeight {
		down := seen(top+y, w.top, w.bottom)
		row := mask.Pix[y*mask.Stride:][:tileWidth]
		if down == grid && seen(left, w.left, w.right) == grid && seen(left+tileWidth-1, w.left, w.right) == grid {
			continue
		}
		for x, cover := range row {
			if cover != 0 {
				row[x] = byte((int(cover)*down*seen(left+x, w.left, w.right) + grid*grid/2) / (grid * grid))
			}
		}
	}
}

// clip cuts what follows, up to the next Q, to the rectangle between two corners.
func (c *content) clip(at, to Point) {
	c.buf = append(c.buf, "q "...)
	c.at("", at)
	c.buf = c.buf[:len(c.buf)-1]
	c.op("re W n", to.X-at.X, to.Y-at.Y)
}
