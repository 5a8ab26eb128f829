package picture

import "image"

// Grid is the number of steps of a pixel in which an Axis takes its ends.
const Grid = 512

// one is the sum of the weights of a span: two of them and a level fit into 64 bits.
const one = 1 << 20

// Axis says which pixels along a side of a picture, and how much of each, make the pixels along a side of an image.
type Axis []span

type span struct {
	first   int      // of the picture's pixels
	weights []uint32 // of it and those that follow; their sum is one
}

// NewAxis lays n pixels of a picture between left and right, in steps of Grid of an image's pixel, for the image's pixels from lo up to hi.
// Where pixels shrink, each takes its share of all that it covers (a box filter); where they grow, they run into each other (linearly).
// The numbers are whole, so that every machine gives the same image.
func NewAxis(n int, left, right int64, lo, hi int) Axis {
	right = max(right, left+1)
	build := linear
	if int64(n)*Grid > right-left {
		build = box
	}
	out := make(Axis, 0, hi-lo)
	for x := lo; x < hi; x++ {
		out = append(out, build(int64(n), int64(x)*Grid-left, right-left))
	}
	return out
}

// box returns the span of a pixel that starts at a place of a picture of n pixels, which is long in steps. A step is n parts, a pixel of
// the picture is as many parts as it is long in steps.
func box(n, start, long int64) span {
	from, to := max(start, 0)*n, min(start+Grid, long)*n
	from = min(from, (long-1)*n) // a pixel beside the picture is like the nearest one in it
	to = max(to, from+n)
	first, last := from/long, (to-1)/long
	out := span{int(first), make([]uint32, 0, last-first+1)}
	before := int64(0)
	for i := first; i <= last; i++ {
		upTo := (min((i+1)*long, to) - from) * one / (to - from)
		out.weights = append(out.weights, uint32(upTo-before))
		before = upTo
	}
	return out
}

// linear is box for pixels that grow: the two whose middles lie about the middle of the image's pixel.
func linear(n, start, long int64) span {
	place := (2*start+Grid)*n - long // of the middle, from the middle of the first, in parts of which a pixel is two lengths
	i := place / (2 * long)
	switch {
	case place <= 0:
		return span{0, []uint32{one}}
	case i >= n-1:
		return span{int(n) - 1, []uint32{one}}
	}
	second := uint32((place - i*2*long) * one / (2 * long))
	return span{int(i), []uint32{one - second, second}}
}

// Sampler gives the rows of an image that shows a picture. A sampler is for one goroutine.
type Sampler struct {
	X, Y     Axis
	Mirrored bool   // left and right change places
	White    uint32 // how much of 256 parts is white, laid over the picture

	row func(y int) []byte // of the picture: red, green, blue, alpha; the alpha is not looked at
	sum []uint32           // of a row of the picture's pixels
}

// NewSampler samples an opaque picture.
func NewSampler(pixels *image.RGBA, x, y Axis) *Sampler {
	width := pixels.Rect.Dx()
	return newSampler(width, func(y int) []byte { return pixels.Pix[y*pixels.Stride:][:4*width] }, x, y)
}

func newSampler(width int, row func(y int) []byte, x, y Axis) *Sampler {
	return &Sampler{X: x, Y: y, row: row, sum: make([]uint32, 4*width)}
}

// Row writes the pixels of the image's row i of those that s.Y has: red, green, blue and an alpha of 255 each.
func (s *Sampler) Row(i int, out []byte) {
	clear(s.sum)
	for k, weight := range s.Y[i].weights {
		row := s.row(s.Y[i].first + k)
		for c, v := range row[:len(s.sum)] {
			s.sum[c] += weight * uint32(v)
		}
	}
	last := len(s.sum)/4 - 1
	for x, span := range s.X {
		var r, g, b uint64
		for k, weight := range span.weights {
			at := span.first + k
			if s.Mirrored {
				at = last - at
			}
			w, p := uint64(weight), s.sum[4*at:][:3]
			r, g, b = r+w*uint64(p[0]), g+w*uint64(p[1]), b+w*uint64(p[2])
		}
		p := out[4*x:][:4]
		p[0], p[1], p[2], p[3] = s.level(r), s.level(g), s.level(b), 255
	}
}

// level rounds a sum of weighted levels and lays white over it.
func (s *Sampler) level(sum uint64) byte {
	v := uint32((sum + one*one/2) / (one * one))
	return byte(255 - ((255-v)*(256-s.White)+128)/256)
}
