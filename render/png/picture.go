package png

import (
	"math"

	"hubrule/internal/picture"
	"hubrule/render"
)

// shown is a picture laid on an image: which of its pixels make those of the image from left and top on.
type shown struct {
	mark      *render.Picture
	x, y      picture.Axis
	left, top int
}

// picture adds the box of m as an area that shows it. What lies beside the image is left out.
func (s *scene) picture(m *render.Picture) {
	at, to := s.toPixels(m.Box.Min), s.toPixels(m.Box.Max)
	side := func(pixels, size int, from, to pixel) (picture.Axis, int) {
		start, end := int64(math.Round(float64(from)*grid)), int64(math.Round(float64(to)*grid))
		lo := max(0, start/grid)
		hi := max(lo, min(int64(size), (end+grid-1)/grid))
		return picture.NewAxis(pixels, start, end, int(lo), int(hi)), int(lo)
	}
	on := &shown{mark: m}
	on.x, on.left = side(m.Pixels.Rect.Dx(), s.size.X, at.X, to.X)
	on.y, on.top = side(m.Pixels.Rect.Dy(), s.size.Y, at.Y, to.Y)
	if len(on.x) > 0 && len(on.y) > 0 {
		s.add(area{loops: []loop{{at, {X: to.X, Y: at.Y}, to, {X: at.X, Y: to.Y}}}, shown: on})
	}
}

// sample computes the colours of a picture's pixels in the band.
func (b *band) sample(p *shown) {
	stride := 4 * len(p.x)
	if len(b.colours) < bandHeight*stride {
		b.colours = make([]byte, bandHeight*stride)
	}
	sampler := p.mark.Sampler(p.x, p.y)
	for y := max(b.top, p.top); y < min(b.top+bandHeight, p.top+len(p.y)); y++ {
		sampler.Row(y-p.top, b.colours[(y-b.top)*stride:][:stride])
	}
}

// show lays the colours of a picture through the mask on the tile whose left edge is given.
func (b *band) show(left int, p *shown) {
	for i, cover := range b.mask.Pix {
		x, y := left+i%tileWidth, i/tileWidth
		if cover == 0 || x >= b.width {
			continue
		}
		c := b.colours[4*(y*len(p.x)+x-p.left):][:3]
		blend(b.data[y*b.stride()+1+b.depth*x:][:b.depth], render.Colour{R: c[0], G: c[1], B: c[2]}, uint32(cover))
	}
}
