package picture

import (
	"io"
	"math"

	"github.com/bep/imagemeta"
)

// exifTags are the only tags that are read, each with the directory that it counts in: a thumbnail has an orientation of its own.
var exifTags = map[string]string{
	"Orientation": "IFD0", "FocalLengthIn35mmFormat": "IFD0/ExifIFDP", "FocalLength": "IFD0/ExifIFDP", "ExifImageWidth": "IFD0/ExifIFDP",
	"FocalPlaneXResolution": "IFD0/ExifIFDP", "FocalPlaneResolutionUnit": "IFD0/ExifIFDP",
}

// readEXIF returns the orientation of a picture of a size as stored, 1 where it says none, and its focal length for 35 mm film, 0 where it
// is not known. What stands before a break counts, as it does in viewers.
func readEXIF(f io.ReadSeeker, format imagemeta.ImageFormat, stored Header) (orientation int, focal float64) {
	found := map[string]float64{}
	if _, err := f.Seek(0, io.SeekStart); err != nil {
		return 1, 0
	}
	imagemeta.Decode(imagemeta.Options{ // its error is about metadata alone
		R: f, ImageFormat: format, Sources: imagemeta.EXIF,
		ShouldHandleTag: func(t imagemeta.TagInfo) bool { return exifTags[t.Tag] == t.Namespace },
		HandleTag: func(t imagemeta.TagInfo) error {
			switch v := t.Value.(type) {
			case uint16:
				found[t.Tag] = float64(v)
			case uint32:
				found[t.Tag] = float64(v)
			case interface{ Float64() float64 }:
				found[t.Tag] = v.Float64()
			}
			return nil
		},
	})
	orientation = 1
	if o := found["Orientation"]; o >= 1 && o <= 8 {
		orientation = int(o)
	}
	return orientation, focalOf(found, stored)
}

// The bounds of a focal length for 35 mm film that is believed, in millimetres.
const (
	MinFocal = 10
	MaxFocal = 1200
)

// focalOf returns the focal length for 35 mm film: as the file says it (EXIF 2.32, 4.6.5 G; 0 is not known), or from the diagonal of the
// sensor where the file has all of its pixels.
func focalOf(found map[string]float64, stored Header) float64 {
	const filmDiagonal = 43.267 // millimetres
	focal := found["FocalLengthIn35mmFormat"]
	unit := map[float64]float64{2: 25.4, 3: 10}[found["FocalPlaneResolutionUnit"]] // an inch, a centimetre
	if whole := found["ExifImageWidth"] == float64(stored.Width); focal == 0 && whole && unit > 0 {
		sensor := math.Sqrt(float64(stored.Width*stored.Width+stored.Height*stored.Height)) / found["FocalPlaneXResolution"] * unit
		focal = math.Round(found["FocalLength"]*filmDiagonal/sensor*10) / 10
	}
	if !(focal >= MinFocal && focal <= MaxFocal) {
		return 0
	}
	return focal
}
