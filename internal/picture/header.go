// Package picture reads photographs: what the header of a file says, and its pixels, upright and no larger than paper shows them.
//
// It never keeps anything else that the file holds: no place, no date, no camera.
package picture

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"

	"hubrule/internal/fault"
)

// The bounds of what is read.
const (
	maxSize = 100 << 20 // bytes of a file
	MaxSide = 20_000    // pixels along a side
)

// Header is what the header of a picture says.
type Header struct {
	Format        string  // "PNG", "JPEG" or "WebP"
	Width, Height int     // in pixels, of the upright picture: as its orientation says
	Orientation   int     // EXIF 2.32, 4.6.4 A: 1 is upright as stored, 2 to 8 are mirrored and turned
	Focal         float64 // focal length for 35 mm film, in millimetres; 0 where it is not known
	pixelSize     float64 // bytes that a decoder holds for each pixel
	kind          *format
}

// Open reads the header of a picture, and no more of the file. The picture is a regular file, PNG, JPEG or WebP by its content. Broken
// EXIF counts as none. The error does not name the path.
func Open(path string) (Header, error) {
	f, h, err := OpenFile(path)
	if err != nil {
		return Header{}, err
	}
	return h, f.Close()
}

// OpenFile opens a picture and reads its header.
func OpenFile(path string) (*os.File, Header, error) {
	f, err := openRegular(path)
	if err != nil {
		return nil, Header{}, err
	}
	h, err := readHeader(f)
	if err == nil {
		_, err = f.Seek(0, io.SeekStart)
	}
	if err != nil {
		f.Close()
		return nil, Header{}, err
	}
	return f, h, nil
}

// HeaderOf reads the header of a picture that is no file.
func HeaderOf(data []byte) (Header, error) { return readHeader(bytes.NewReader(data)) }

// wanted ends messages about what cannot be a picture.
const wanted = "; want a picture: PNG, JPEG or WebP"

// openRegular opens a regular file of a bounded size. It never opens a pipe, which would wait for a writer.
func openRegular(path string) (*os.File, error) {
	info, err := os.Stat(path)
	switch {
	case err != nil:
		return nil, fault.Plain(err)
	case info.IsDir():
		return nil, errors.New("a directory" + wanted)
	case !info.Mode().IsRegular():
		return nil, errors.New("not a regular file" + wanted)
	case info.Size() > maxSize:
		return nil, fmt.Errorf("larger than %d MB", maxSize>>20)
	}
	f, err := os.Open(path)
	return f, fault.Plain(err)
}

// sniffed is how many bytes tell the format of a file.
const sniffed = 512

// readHeader reads the header at the start of f.
func readHeader(f io.ReadSeeker) (Header, error) {
	r := bufio.NewReaderSize(f, 1<<12)
	start, _ := r.Peek(sniffed)
	kind := sniff(start)
	if kind == nil {
		return Header{}, refusal(start)
	}
	h, err := kind.size(r)
	switch {
	case errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF):
		return Header{}, fmt.Errorf("a %s that ends within its header", kind.name)
	case err != nil:
		return Header{}, fmt.Errorf("a %s that cannot be read: %w", kind.name, err)
	case h.Width == 0 || h.Height == 0:
		return Header{}, fmt.Errorf("a %s of %d x %d pixels", kind.name, h.Width, h.Height)
	case max(h.Width, h.Height) > MaxSide:
		return Header{}, fmt.Errorf("%d x %d pixels; want at most %d on a side", h.Width, h.Height, MaxSide)
	}
	h.Format, h.kind = kind.name, kind
	h.Orientation, h.Focal = readEXIF(f, kind.metadata, h)
	if h.Orientation > 4 {
		h.Width, h.Height = h.Height, h.Width
	}
	return h, nil
}

// signature is what files of a format have at a place near their start.
type signature struct {
	at    int
	bytes string
	name  string
}

func (s signature) matches(start []byte) bool {
	return len(start) >= s.at && bytes.HasPrefix(start[s.at:], []byte(s.bytes))
}

// others are the formats that people try and that are not read. An ISO container comes after those that its brand names.
var others = []signature{
	{8, "heic", "HEIC"}, {8, "heix", "HEIC"}, {8, "hevc", "HEIC"}, {8, "heim", "HEIC"}, {8, "mif1", "HEIC or AVIF"},
	{8, "avif", "AVIF"}, {8, "avis", "AVIF"}, {8, "crx ", rawFile}, {4, "ftyp", "a video"},
	{8, "CR\x02\x00", rawFile}, {0, "FUJIFILMCCD-RAW", rawFile}, {0, "IIRO", rawFile}, {0, "IIRS", rawFile}, {0, "IIU\x00", rawFile},
	{0, "FOVb", rawFile}, {0, "\x00MRM", rawFile}, {0, "II*\x00", "TIFF or " + rawFile}, {0, "MM\x00*", "TIFF or " + rawFile},
	{0, "GIF8", "GIF"}, {0, "BM", "BMP"}, {0, "%PDF", "PDF"}, {0, "8BPS", "PSD"},
	{0, "\xff\x0a", "JPEG XL"}, {4, "JXL ", "JPEG XL"}, {4, "jP  ", "JPEG 2000"},
}

const rawFile = "a camera's raw file"

// refusal says what a file is whose start is given, and what to do.
func refusal(start []byte) error {
	for _, s := range others {
		if s.matches(start) {
			return fmt.Errorf("%s, which is not read; save it as JPEG or PNG", s.name)
		}
	}
	switch {
	case len(start) == 0:
		return errors.New("an empty file" + wanted)
	case bytes.Contains(start, []byte("<svg")):
		return errors.New("SVG, which is not read; save it as JPEG or PNG")
	}
	return errors.New("not a picture; want PNG, JPEG or WebP")
}
