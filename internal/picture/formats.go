package picture

import (
	"bufio"
	"encoding/binary"
	"errors"
	"image"
	"image/jpeg"
	"image/png"
	"io"
	"slices"

	"github.com/bep/imagemeta"
	"golang.org/x/image/webp"
)

// format is a format that is read. Size reads width and height as they are stored, and what a decoder holds for each pixel.
type format struct {
	name     string
	starts   []signature // all of them
	size     func(*bufio.Reader) (Header, error)
	decode   func(io.Reader) (image.Image, error)
	metadata imagemeta.ImageFormat
}

// sniff finds the format of a file whose start is given; nil if it is none of those that are read.
func sniff(start []byte) *format {
	formats := []format{
		{"PNG", []signature{{0, "\x89PNG\r\n\x1a\n", ""}}, pngSize, png.Decode, imagemeta.PNG},
		{"JPEG", []signature{{0, "\xff\xd8\xff", ""}}, jpegSize, decodeJPEG, imagemeta.JPEG},
		{"WebP", []signature{{0, "RIFF", ""}, {8, "WEBP", ""}}, webpSize, webp.Decode, imagemeta.WebP},
	}
	for _, f := range formats {
		if !slices.ContainsFunc(f.starts, func(s signature) bool { return !s.matches(start) }) {
			return &f
		}
	}
	return nil
}

// pngSize reads the header chunk of a PNG (third edition, 11.2.1).
func pngSize(r *bufio.Reader) (Header, error) {
	b, err := r.Peek(29)
	if err != nil {
		return Header{}, err
	}
	if string(b[12:16]) != "IHDR" {
		return Header{}, errors.New("it has no header")
	}
	depth, colours, interlaced := b[24], b[25], b[28]
	size := 4. // red, green, blue, alpha
	if colours == 0 || colours == 3 {
		size = 1 // grey or a palette's number; a transparent grey is met by what is left free
	}
	if depth == 16 {
		size *= 2
	}
	if interlaced != 0 {
		size *= 1.5 // the last of the passes is half the picture
	}
	return Header{Width: sideOf(binary.BigEndian.Uint32(b[16:])), Height: sideOf(binary.BigEndian.Uint32(b[20:])), pixelSize: size}, nil
}

// sideOf returns a length in pixels, of any larger than is read a still larger one.
func sideOf(n uint32) int { return int(min(n, 1<<30)) }

// jpegSize walks to the frame header of a JPEG (ITU-T T.81, B.2.2). A decoder of a progressive one holds four bytes of coefficient for each
// byte of a channel besides.
func jpegSize(r *bufio.Reader) (Header, error) {
	r.Discard(2)
	for {
		head, err := r.Peek(4)
		if err != nil {
			return Header{}, err
		}
		first, marker, length := head[0], head[1], int(binary.BigEndian.Uint16(head[2:]))
		if marker == 0xff { // the byte before only fills
			r.Discard(1)
			continue
		}
		r.Discard(4)
		switch {
		case first != 0xff || length < 2:
			return Header{}, errors.New("its header is damaged")
		case marker == 0xda:
			return Header{}, errors.New("its pixels come before its size")
		case marker >= 0xc0 && marker <= 0xcf && marker != 0xc4 && marker != 0xc8 && marker != 0xcc:
			return jpegFrame(r, marker, length-2)
		}
		if _, err := r.Discard(length - 2); err != nil {
			return Header{}, err
		}
	}
}

// jpegFrame reads a frame header of a length.
func jpegFrame(r *bufio.Reader, marker byte, length int) (Header, error) {
	b := make([]byte, length)
	if _, err := io.ReadFull(r, b); err != nil {
		return Header{}, err
	}
	if marker > 0xc2 || length < 6 || b[0] != 8 || length != 6+3*int(b[5]) {
		return Header{}, errors.New("it is of a rare kind (lossless, arithmetic coding, more than 8 bits); save it as PNG")
	}
	size := 8. // four channels, and the picture made of them
	if b[5] < 4 {
		largest, all := 1, 0
		for c := range int(b[5]) {
			samples := int(b[7+3*c]>>4) * int(b[7+3*c]&15)
			largest, all = max(largest, samples), all+samples
		}
		size = float64(all) / float64(largest)
	}
	if marker == 0xc2 {
		size *= 5
	}
	return Header{Width: int(binary.BigEndian.Uint16(b[3:])), Height: int(binary.BigEndian.Uint16(b[1:])), pixelSize: size}, nil
}

// mostScans is how many scans a JPEG may have. Ten are usual; each walks over all pixels, though a few bytes are enough for it.
const mostScans = 200

// decodeJPEG is jpeg.Decode, but gives up a picture of too many scans.
func decodeJPEG(r io.Reader) (image.Image, error) { return jpeg.Decode(&scanCounter{Reader: r}) }

// scanCounter fails where it has read the starts of too many scans.
type scanCounter struct {
	io.Reader
	scans int
	last  byte
}

func (c *scanCounter) Read(p []byte) (int, error) {
	n, err := c.Reader.Read(p)
	for _, b := range p[:n] {
		if c.last == 0xff && b == 0xda {
			c.scans++
		}
		c.last = b
	}
	if c.scans > mostScans {
		return 0, errors.New("too many scans")
	}
	return n, err
}

// webpSize reads the header of a WebP. What is not plainly lossy may be a lossless picture, or have a lossless mask: the decoder holds such
// pixels twice.
func webpSize(r *bufio.Reader) (Header, error) {
	size := 10.
	if b, err := r.Peek(16); err == nil && string(b[12:]) == "VP8 " {
		size = 1.5
	}
	c, err := webp.DecodeConfig(r)
	return Header{Width: c.Width, Height: c.Height, pixelSize: size}, err
}
