// Package png writes pages as PNG images, one a page, with an antialiasing rasteriser whose results are the same on every machine.
package png

import (
	"bufio"
	"encoding/binary"
	"fmt"
	"hash/crc32"
	"io"
	"math"

	"github.com/klauspost/compress/zlib"

	"hubrule/internal/geom"
	"hubrule/render"
)

// Options says how a page becomes an image.
type Options struct {
	DPI         float64 // pixels an inch, MinDPI to MaxDPI
	Transparent bool    // no paper: only the marks cover what lies below
}

// The bounds of Options.DPI: coarser than a screen no label is read, finer than a film setter nothing is gained.
const (
	MinDPI = 30
	MaxDPI = 1200
)

// maxPixels is a little more than A1 has at 1200 dots an inch. Few programs open larger images.
const maxPixels = 1_200_000_000

const millimetresPerInch = 25.4

// level is the last one that costs next to no time: a third to a half of what the levels behind it take.
const level = 5

// Write writes one page as a PNG file in 8-bit sRGB, with an alpha channel if transparent. The image is as many
// pixels wide and high as the page has, rounded to whole ones; its resolution is recorded, so that it is placed in its
// true size. It is drawn and written band by band: memory grows with the width of the image only. The same page gives
// the same bytes on every machine.
//
// The error is w's, or says what cannot be written: a resolution out of bounds, an image too large, a mark (see Page.Check).
func Write(w io.Writer, p render.Page, o Options) error {
	p = p.Flatten()
	if err := p.Check(); err != nil {
		return err
	}
	width, height, err := o.Size(p)
	if err != nil {
		return fmt.Errorf("page %q: %w", p.Title, err)
	}
	out := chunkWriter{w: bufio.NewWriterSize(w, 1<<16)}
	out.w.WriteString("\x89PNG\r\n\x1a\n")
	colourType := byte(2) // red, green, blue
	if o.Transparent {
		colourType = 6 // and alpha
	}
	// 8 bits a channel, colour type, deflate, the five filters, not interlaced
	out.chunk("IHDR", bigEndian(uint32(width), uint32(height), []byte{8, colourType, 0, 0, 0}))
	out.chunk("sRGB", []byte{0}) // rendering intent: perceptual
	perMetre := uint32(math.Round(o.DPI * 1000 / millimetresPerInch))
	out.chunk("pHYs", bigEndian(perMetre, perMetre, byte(1))) // the unit is the metre
	out.about(p.Title, p.About)
	body := bufio.NewWriterSize(&out, 1<<16)
	packer, _ := zlib.NewWriterLevel(body, level)
	all := areas(p, o.DPI/millimetresPerInch)
	b := newBand(width)
	for top := 0; top < height; top += bandHeight {
		b.draw(top, all, o.Transparent)
		if err := b.write(packer, min(bandHeight, height-top), o.Transparent); err != nil {
			return err
		}
	}
	packer.Close() // the buffers keep the first error until they are flushed
	if err := body.Flush(); err != nil {
		return err
	}
	out.chunk("IEND", nil)
	return out.w.Flush()
}

// Size returns how many pixels p takes.
func (o Options) Size(p render.Page) (width, height int, err error) {
	if !(o.DPI >= MinDPI && o.DPI <= MaxDPI) {
		return 0, 0, fmt.Errorf("%v dpi; want %d to %d", o.DPI, MinDPI, MaxDPI)
	}
	count := func(l geom.MM) float64 { return max(1, math.Round(float64(l)*o.DPI/millimetresPerInch)) }
	w, h := count(p.Width), count(p.Height)
	if w*h > maxPixels {
		most := math.Floor(math.Sqrt(maxPixels/float64(p.Width)/float64(p.Height)) * millimetresPerInch)
		return 0, 0, fmt.Errorf("%.0f x %.0f pixels at %v dpi are more than programs open; this paper goes up to %.0f dpi",
			w, h, o.DPI, most)
	}
	return int(w), int(h), nil
}

// write sends the first rows of b, each after the number of its filter: none, which packs flat colours best.
func (b *band) write(w io.Writer, rows int, alpha bool) error {
	line := make([]byte, 0, 1+4*b.width)
	for y := range rows {
		line = append(line[:0], 0)
		pix := b.pix[4*y*b.width:][:4*b.width]
		if alpha {
			line = append(line, pix...)
		} else {
			for ; len(pix) > 0; pix = pix[4:] {
				line = append(line, pix[0], pix[1], pix[2])
			}
		}
		if _, err := w.Write(line); err != nil {
			return err
		}
	}
	return nil
}

// chunkWriter writes chunks; as an io.Writer, what it is given is image data.
type chunkWriter struct{ w *bufio.Writer }

func (out *chunkWriter) Write(data []byte) (int, error) {
	out.chunk("IDAT", data)
	_, err := out.w.Write(nil) // the buffer keeps the first error
	return len(data), err
}

func (out *chunkWriter) chunk(name string, data []byte) {
	body := append([]byte(name), data...)
	out.w.Write(bigEndian(uint32(len(data)), body, crc32.ChecksumIEEE(body)))
}

// bigEndian returns numbers and bytes as PNG spells them.
func bigEndian(fields ...any) []byte {
	var out []byte
	for _, field := range fields {
		out, _ = binary.Append(out, binary.BigEndian, field) // all are of fixed size
	}
	return out
}
