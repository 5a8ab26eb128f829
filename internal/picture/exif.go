package picture

import (
	"encoding/binary"
	"math"
)

// exifTag is a tag of EXIF's (EXIF 2.32, tables 4 and 7: MEM) that is read.
type exifTag uint16

const (
	orientationTag    exifTag = 0x0112
	exifDirectory     exifTag = 0x8769 // where the tags after it stand
	focalLength       exifTag = 0x920a
	exifImageWidth    exifTag = 0xa002
	planeXResolution  exifTag = 0xa20e
	planeUnit         exifTag = 0xa210
	focalLength35Film exifTag = 0xa405
)

// readEXIF returns the orientation that a block of EXIF gives to a picture of a size as stored, 1 where it says none, and its focal length
// for 35 mm film, 0 where it is not known. What stands before a break counts, as it does in viewers.
func readEXIF(data []byte, stored Header) (orientation int, focal float64) {
	block := tiff{data: data}
	if len(data) >= 8 {
		block.order = map[string]binary.ByteOrder{"II": binary.LittleEndian, "MM": binary.BigEndian}[string(data[:2])]
	}
	if block.order == nil {
		return 1, 0
	}
	main := block.directory(block.order.Uint32(data[4:])) // a thumbnail has a directory and an orientation of its own
	orientation = 1
	if o := main[orientationTag]; o >= 1 && o <= 8 {
		orientation = int(o)
	}
	return orientation, focalOf(block.directory(uint32(main[exifDirectory])), stored)
}

// tiff is a block of directories of tags (TIFF 6.0, section 2: MEM).
type tiff struct {
	data  []byte
	order binary.ByteOrder
}

// directory returns the numbers of a directory that starts at a place; those of tags that hold more than one are left out.
func (t tiff) directory(at uint32) map[exifTag]float64 {
	const entry, short, long, rational = 12, 3, 4, 5
	out := map[exifTag]float64{}
	if at < 8 || uint64(at)+2 > uint64(len(t.data)) {
		return out
	}
	rest := t.data[at+2:]
	for range t.order.Uint16(t.data[at:]) {
		if len(rest) < entry {
			break
		}
		tag, kind, count, value := exifTag(t.order.Uint16(rest)), t.order.Uint16(rest[2:]), t.order.Uint32(rest[4:]), rest[8:entry]
		rest = rest[entry:]
		if count != 1 {
			continue
		}
		switch kind {
		case short:
			out[tag] = float64(t.order.Uint16(value))
		case long:
			out[tag] = float64(t.order.Uint32(value))
		case rational:
			if at := uint64(t.order.Uint32(value)); at+8 <= uint64(len(t.data)) {
				out[tag] = float64(t.order.Uint32(t.data[at:])) / float64(t.order.Uint32(t.data[at+4:]))
			}
		}
	}
	return out
}

// The bounds of a focal length for 35 mm film that is believed, in millimetres.
const (
	MinFocal = 10
	MaxFocal = 1200
)

// focalOf returns the focal length for 35 mm film: as the file says it (EXIF 2.32, 4.6.5 G; 0 is not known), or from the diagonal of the
// sensor where the file has all of its pixels.
func focalOf(found map[exifTag]float64, stored Header) float64 {
	const filmDiagonal = 43.267 // millimetres
	focal := found[focalLength35Film]
	unit := map[float64]float64{2: 25.4, 3: 10}[found[planeUnit]] // an inch, a centimetre
	if whole := found[exifImageWidth] == float64(stored.Width); focal == 0 && whole && unit > 0 {
		sensor := math.Sqrt(float64(stored.Width*stored.Width+stored.Height*stored.Height)) / found[planeXResolution] * unit
		focal = math.Round(found[focalLength]*filmDiagonal/sensor*10) / 10
	}
	if !(focal >= MinFocal && focal <= MaxFocal) {
		return 0
	}
	return focal
}
