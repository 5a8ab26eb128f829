package pdf

import (
	"bytes"
	"fmt"

	"github.com/klauspost/compress/zlib"

	"hubrule/render"
)

// Packed is a page made ready for a PDF file: its operators, compressed.
type Packed struct {
	page    render.Page // without its marks
	content []byte
	used    usedGlyphs
	layers  []render.Guide

	pictures []packedPicture
}

// Packer makes pages ready for a PDF file. Packing is most of the work of writing and needs nothing of the file, so several
// packers, one for each worker, pack the pages of one file at the same time. The zero Packer is ready.
type Packer struct {
	content []byte
	packed  bytes.Buffer
	deflate *zlib.Writer
}

// Pack makes one page ready. The error says what on the page cannot be written (see Page.Check).
func (k *Packer) Pack(page render.Page) (Packed, error) {
	if page.Clip != nil {
		page = page.Flatten() // what is shared is shared whole
	}
	if err := page.Check(); err != nil {
		return Packed{}, err
	}
	c := content{buf: k.content[:0], used: usedGlyphs{}}
	if page.Base != nil {
		c.buf = append(append(c.buf, baseName...), " Do\n"...)
	}
	layers := c.page(page)
	k.content, page.Marks = c.buf, nil
	return Packed{page, bytes.Clone(k.squeeze(c.buf)), c.used, layers, c.pictures}, nil
}

// squeeze returns data compressed, valid until the next call. The fastest level is within a fifth of the smallest size, and a
// page is small beside the fonts.
func (k *Packer) squeeze(data []byte) []byte {
	k.packed.Reset()
	if k.deflate == nil {
		k.deflate, _ = zlib.NewWriterLevel(&k.packed, zlib.BestSpeed) // fails only for levels that do not exist
	} else {
		k.deflate.Reset(&k.packed)
	}
	k.deflate.Write(data) // a bytes.Buffer does not fail
	k.deflate.Close()
	return k.packed.Bytes()
}

// baseName is the name by which a page calls what it shares with others.
const baseName = "/Base"

// layerName returns the name by which the contents of pages call a layer (ISO 32000-1, 7.3.5).
func layerName(guide string) string {
	b := []byte("/guide-")
	for i := range len(guide) {
		c := guide[i]
		if c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' || c == '-' {
			b = append(b, c)
		} else {
			b = fmt.Appendf(b, "#%02X", c)
		}
	}
	return string(b)
}
