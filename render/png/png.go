// Package png writes pages as PNG images, one a page, with an antialiasing rasteriser whose results are the same on every machine.
package png

import (
	"bufio"
	"encoding/binary"
	"fmt"
	"hash/crc32"
	"image"
	"io"
	"math"
	"runtime"

	"hubrule/internal/geom"
	"hubrule/render"
)

// Options says how a page becomes an image.
type Options struct {
	DPI         float64 // pixels an inch, MinDPI to MaxDPI
	Transparent bool    // no paper: only the marks cover what lies below
	Watcher     Watcher // may be nil
}

// Watcher follows the drawing of pages.
type Watcher interface {
	Drawn(rows, all int) // called now and then while a page is drawn, and when all its rows are
}

// The bounds of Options.DPI: coarser than a screen no label is read, finer than a film setter nothing is gained.
const (
	MinDPI = 30
	MaxDPI = 1200
)

// maxPixels is a little more than A1 has at 1200 dots an inch. Few programs open larger images.
const maxPixels = 1_200_000_000

// Write writes one page as a PNG file in 8-bit sRGB, with an alpha channel if transparent. The image is as many
// pixels wide and high as the page has, rounded to whole ones; its resolution is recorded, so that it is placed in its
// true size. It is drawn and packed strip by strip, on all processors: memory grows with the width of the image only. The same page gives
// the same bytes on every machine.
//
// The error is w's, or says what cannot be written: a resolution out of bounds, an image too large, a mark (see Page.Check).
func Write(w io.Writer, p render.Page, o Options) error { return write(w, p, o, runtime.GOMAXPROCS(0)) }

// write is Write with so many workers.
func write(w io.Writer, p render.Page, o Options, workers int) error {
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
	colourType, depth := byte(2), 3 // red, green, blue
	if o.Transparent {
		colourType, depth = 6, 4 // and alpha
	}
	// 8 bits a channel, colour type, deflate, the five filters, not interlaced
	out.chunk("IHDR", bigEndian(uint32(width), uint32(height), []byte{8, colourType, 0, 0, 0}))
	out.chunk("sRGB", []byte{0}) // rendering intent: perceptual
	perMetre := uint32(math.Round(o.DPI * 1000 / float64(geom.Inch)))
	out.chunk("pHYs", bigEndian(perMetre, perMetre, byte(1))) // the unit is the metre
	out.about(p.Title, p.About)
	body := bufio.NewWriterSize(&out, 1<<16)
	drawn := drawing{width, height, depth, areas(p, o.DPI/float64(geom.Inch), image.Pt(width, height)), o.Watcher}
	if err := drawn.write(body, workers); err != nil {
		return err
	}
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
	count := func(l geom.MM) float64 { return max(1, math.Round(float64(l)*o.DPI/float64(geom.Inch))) }
	w, h := count(p.Width), count(p.Height)
	if w*h > maxPixels {
		most := math.Floor(math.Sqrt(maxPixels/float64(p.Width)/float64(p.Height)) * float64(geom.Inch))
		return 0, 0, fmt.Errorf("%.0f x %.0f pixels at %v dpi are more than programs open; this paper goes up to %.0f dpi",
			w, h, o.DPI, most)
	}
	return int(w), int(h), nil
}

// chunkWriter writes chunks; as an io.Writer, what it is given is image data.
type chunkWriter struct{ w *bufio.Writer }

func (out *chunkWriter) Write(data []byte) (int, error) {
	out.chunk("IDAT", data)
	_, err := out.w.Write(nil) // the buffer keeps the first error
	return len(data), err
}

func (out *chunkWriter) chunk(name string, data []byte) {
	out.w.Write(bigEndian(uint32(len(data)), []byte(name)))
	out.w.Write(data)
	out.w.Write(bigEndian(crc32.Update(crc32.ChecksumIEEE([]byte(name)), crc32.IEEETable, data)))
}

// bigEndian returns numbers and bytes as PNG spells them.
func bigEndian(fields ...any) []byte {
	var out []byte
	for _, field := range fields {
		out, _ = binary.Append(out, binary.BigEndian, field) // all are of fixed size
	}
	return out
}
