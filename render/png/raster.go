package png

import (
	"encoding/binary"
	"image"
	"image/draw"
	"math"

	"golang.org/x/image/vector"

	"hubrule/internal/geom"
	"hubrule/internal/picture"
	"hubrule/render"
)

// An image is drawn in tiles. They are smaller than the 512 pixels up to which the rasteriser counts in whole numbers,
// which is what gives the same image on every machine; a band of them is all that is held of a page.
const (
	tileWidth  = 128
	bandHeight = 32
)

// grid is the number of steps a pixel that the rasteriser knows. Spots are snapped to them, so that what the last bit
// of a sum is on one machine or another makes no difference.
const grid = picture.Grid

func snapped(p pixelPoint) pixelPoint { return pixelPoint{X: snap(p.X), Y: snap(p.Y)} }

func snap(v pixel) pixel { return pixel(math.Round(float64(v*grid)) / grid) }

// band is bandHeight rows of an image from row top on, as PNG spells them: each begins with the number of its filter, which is none, as
// it packs flat colours best; then depth bytes a pixel, red, green, blue and perhaps how much it covers.
type band struct {
	top, width, depth int
	data              []byte
	tile              *vector.Rasterizer
	mask, one         *image.Alpha // of a tile; of a single loop in it
	colours           []byte       // of a picture in the band, row by row
}

// newBand returns a band for images of the given width.
func newBand(width, depth int) *band {
	size := image.Rect(0, 0, tileWidth, bandHeight)
	b := &band{width: width, depth: depth, tile: &vector.Rasterizer{}, mask: image.NewAlpha(size), one: image.NewAlpha(size)}
	b.data = make([]byte, bandHeight*b.stride())
	return b
}

// stride is how many bytes a row takes.
func (b *band) stride() int { return 1 + b.depth*b.width }

// draw fills b with the rows from top on: paper, or nothing at all where pixels say how much they cover, and the areas on it.
func (b *band) draw(top int, all []area) {
	b.top = top
	clear(b.data[:b.stride()])
	if b.depth == 3 {
		for i := range b.data[1:b.stride()] {
			b.data[1+i] = 0xff
		}
	}
	for done := b.stride(); done < len(b.data); done *= 2 {
		copy(b.data[done:], b.data[:done])
	}
	for i := range all {
		if a := &all[i]; a.box.Min.Y < pixel(top+bandHeight) && a.box.Max.Y > pixel(top) {
			b.area(a)
		}
	}
}

// area draws a, tile by tile.
func (b *band) area(a *area) {
	if a.shown != nil {
		b.sample(a.shown)
	}
	first := max(0, int(a.box.Min.X)/tileWidth*tileWidth)
	for left := first; left < b.width && pixel(left) < a.box.Max.X; left += tileWidth {
		corner := pixelPoint{X: pixel(left), Y: pixel(b.top)}
		tile := geom.Box[pixel]{Min: corner, Max: corner.Add(pixelPoint{X: tileWidth, Y: bandHeight})}
		var loops []loop
		for i, box := range a.boxes {
			if box.Overlaps(tile) {
				loops = append(loops, a.loops[i])
			}
		}
		switch {
		case len(loops) == 0:
			continue
		case a.evenOdd:
			b.cover(b.mask, left, loops[:1])
			for i := range loops[1:] {
				b.cover(b.one, left, loops[1+i:2+i])
				exclude(b.mask.Pix, b.one.Pix)
			}
		default:
			b.cover(b.mask, left, loops)
		}
		b.cut(left, a.clip)
		if a.shown != nil {
			b.show(left, a.shown)
		} else {
			b.paint(left, a.ink)
		}
	}
}

// cut leaves of the mask what lies inside a clip, in the tile whose left edge is given.
func (b *band) cut(left int, clip image.Rectangle) {
	inSteps := func(r image.Rectangle) image.Rectangle { return image.Rectangle{r.Min.Mul(grid), r.Max.Mul(grid)} }
	if inSteps(b.mask.Rect.Add(image.Pt(left, b.top))).In(clip) {
		return
	}
	for i, cover := range b.mask.Pix {
		if cover != 0 {
			x, y := left+i%tileWidth, b.top+i/tileWidth
			seen := inSteps(image.Rect(x, y, x+1, y+1)).Intersect(clip)
			b.mask.Pix[i] = byte((int(cover)*seen.Dx()*seen.Dy() + grid*grid/2) / (grid * grid))
		}
	}
}

// cover sets the mask to how much of each pixel the loops wind round, in the tile whose left edge is given.
func (b *band) cover(mask *image.Alpha, left int, loops []loop) {
	b.tile.Reset(tileWidth, bandHeight)
	b.tile.DrawOp = draw.Src
	origin := pixelPoint{X: pixel(left), Y: pixel(b.top)}
	for _, l := range loops {
		from := l[len(l)-1].Sub(origin)
		for _, p := range l {
			to := p.Sub(origin)
			b.side(from, to)
			from = to
		}
	}
	b.tile.Draw(mask, mask.Rect, image.Opaque, image.Point{})
}

// side gives the rasteriser one side of a loop, cut to the tile: it loses exactness outside. What lies to the left or
// right becomes upright, along the tile's edge.
func (b *band) side(from, to pixelPoint) {
	if max(from.Y, to.Y) <= 0 || min(from.Y, to.Y) >= bandHeight || from.Y == to.Y {
		return
	}
	atY := func(y pixel) pixelPoint {
		return pixelPoint{X: from.Lerp(to, float64((y-from.Y)/(to.Y-from.Y))).X, Y: y}
	}
	clipped := func(p pixelPoint) pixelPoint {
		if p.Y < 0 {
			return atY(0)
		}
		if p.Y > bandHeight {
			return atY(bandHeight)
		}
		return p
	}
	start, end := clipped(from), clipped(to)
	atX := func(x pixel) pixelPoint {
		return pixelPoint{X: x, Y: start.Lerp(end, float64((x-start.X)/(end.X-start.X))).Y}
	}
	low, high := pixel(0), pixel(tileWidth)
	if start.X > end.X {
		low, high = high, low
	}
	b.tile.MoveTo(inTile(start))
	for _, x := range []pixel{low, high} {
		if (start.X < x) != (end.X < x) && start.X != end.X {
			b.tile.LineTo(inTile(atX(x)))
		}
	}
	b.tile.LineTo(inTile(end))
}

// inTile returns p for the rasteriser, moved sideways onto the tile.
func inTile(p pixelPoint) (x, y float32) {
	p = snapped(p)
	return float32(max(0, min(tileWidth, p.X))), float32(p.Y)
}

// exclude leaves in mask what exactly one of the two covers.
func exclude(mask, one []byte) {
	for i, m := range mask {
		a, b := int(m), int(one[i])
		mask[i] = byte((a*(255-b) + b*(255-a) + 127) / 255)
	}
}

// paint lays ink through the mask on the tile whose left edge is given.
func (b *band) paint(left int, ink render.Colour) {
	right := min(left+tileWidth, b.width)
	for y := range bandHeight {
		row := b.mask.Pix[y*tileWidth:][:right-left]
		pix := b.data[y*b.stride()+1+b.depth*left:]
		for x := 0; x < len(row); x++ {
			switch cover := row[x]; {
			case cover != 0:
				blend(pix[b.depth*x:][:b.depth], ink, uint32(cover))
			case x+8 <= len(row) && binary.NativeEndian.Uint64(row[x:]) == 0: // most of a tile is empty
				x += 7
			}
		}
	}
}

// blend lays ink over a pixel, covering it by cover of 255. A pixel of three bytes covers all that lies below.
func blend(p []byte, ink render.Colour, cover uint32) {
	const full = 255 * 255
	if len(p) == 3 {
		mix := func(old, ink byte) byte {
			return byte((255*(uint32(old)*(255-cover)+uint32(ink)*cover) + full/2) / full)
		}
		p[0], p[1], p[2] = mix(p[0], ink.R), mix(p[1], ink.G), mix(p[2], ink.B)
		return
	}
	under := uint32(p[3]) * (255 - cover) // of 255 × 255
	over := 255 * cover
	all := over + under // > 0
	mix := func(old, ink byte) byte { return byte((uint32(old)*under + uint32(ink)*over + all/2) / all) }
	p[0], p[1], p[2] = mix(p[0], ink.R), mix(p[1], ink.G), mix(p[2], ink.B)
	p[3] = byte((all + 127) / 255)
}
