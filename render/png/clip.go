package png

import (
	"image"
	"math"

	"hubrule/internal/geom"
	"hubrule/render"
)

// clipRect is the clip in a picture, in steps of the rasteriser's grid; nil: everything is seen.
type clipRect struct{ left, top, right, bottom int }

// clipOf returns the clip of a page in pixels, where scale is pixels a millimetre.
func clipOf(p render.Page, scale float64) *clipRect {
	steps := func(l geom.MM) int { return int(math.Round(float64(l) * scale * grid)) }
	at, to := p.ClipCorners()
	return &clipRect{steps(at.X), steps(at.Y), steps(to.X), steps(to.Y)}
}

// seen returns how much of pixel n lies between two edges, in steps of the grid.
func seen(n, from, to int) int {
	return max(0, min(to, (n+1)*grid)-max(from, n*grid))
}

// cut leaves of a mask what lies inside w; the mask's first pixel lies at left, top of the picture.
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
