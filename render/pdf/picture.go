package pdf

import (
	"fmt"
	"image"
	"weak"

	"hubrule/render"
)

// packedPicture is a picture made ready for a file.
type packedPicture struct {
	key           pictureKey
	data          []byte // as JPEG, which PDF holds as it is
	width, height int
}

// pictureKey tells pictures apart: a document holds each once, on however many pages it stands. The pixels are not kept.
type pictureKey struct {
	pixels   weak.Pointer[image.RGBA]
	size     render.Point
	mirrored bool
	fade     float64
}

// picture shows m. The unit square of an image has its origin at the lower left.
func (c *content) picture(m *render.Picture) {
	at, to := render.RoundPoint(m.Box.Min), render.RoundPoint(m.Box.Max)
	packed := packedPicture{key: pictureKey{weak.Make(m.Pixels), to.Sub(at), m.Mirrored, m.Fade}}
	packed.data, packed.width, packed.height = m.JPEG()
	c.buf = append(c.buf, "q "...)
	c.op("cm", to.X-at.X, 0, 0, at.Y-to.Y, at.X, to.Y)
	c.buf = append(append(c.buf, pictureName(len(c.pictures))...), " Do Q\n"...)
	c.pictures = append(c.pictures, packed)
}

// pictureName is the name by which a page calls one of its pictures.
func pictureName(n int) string { return fmt.Sprintf("/Picture%d", n+1) }

// picturesOf writes the pictures of a page that the document has not yet, and returns the names by which the page calls its own.
func (p *Writer) picturesOf(page Packed) string {
	var entries []byte
	for i, m := range page.pictures {
		n, known := p.shown[m.key]
		if !known {
			n = p.add(fmt.Sprintf("<</Type/XObject/Subtype/Image/Width %d/Height %d/ColorSpace/DeviceRGB/BitsPerComponent 8"+
				"/Filter/DCTDecode/Length %d>>\nstream\n%s\nendstream", m.width, m.height, len(m.data), m.data))
			p.shown[m.key] = n
		}
		entries = fmt.Appendf(entries, "%s %d 0 R", pictureName(i), n)
	}
	return string(entries)
}
