package reading

import (
	"cmp"

	"hubrule/internal/geom"
	"hubrule/segments"
)

// Pixel is a length in photo space.
type Pixel float64

// Point is a place in photo space.
type Point = geom.Point[Pixel]

// Mark is one point that was set on a picture.
type Mark struct {
	At      Point
	PM      Pixel        // half the width of the 95 % interval; 0: as the whole file has it
	Inboard *geom.Wheels // how far inside half the width the point lies; nil: as the table of names has it
}

// Marks are what was set on one picture, and what is known of picture and vehicle besides. What is zero is not known.
type Marks struct {
	Name, Student string
	Path          string // of the marks file
	studentPlace  string // where Student stands, or ought to
	Picture       string // path of the picture; "" if there is none
	Width, Height Pixel  // of the upright picture
	FacesRight    bool
	Points        [nameCount][]Mark
	Hidden        []Name // of which the picture shows no point, or no more
	PM            Pixel  // half the width of a mark's 95 % interval unless it has its own

	Tyre, RearTyre     segments.Tyre
	Wheelbase          geom.MM // to check the reading with
	Like               *segments.Profile
	HalfWidth          geom.Wheels
	Track              geom.Wheels
	Round              Roundness
	Focal              float64 // 35 mm equivalent, in millimetres
	Distance           segments.Measure
	EyeHeight          segments.Measure
	Cropped, OnCircles bool
	Sheet              *Sheet // of a sketch on one of the program's sheets; nil for a photograph
}

// Roundness is how far the silhouette's ends retreat towards the sides, in wheels. Nose and tail: over half the width, seen from above.
// Crown: how far the roof falls from the centre to its edges; 0 means that the roof's highest seen point is its edge.
// A nil number is not known.
type Roundness struct{ Nose, Tail, Crown *geom.Wheels }

// Where nothing is known of roundness it is taken to be this; deviations of what is known or taken (R, judged by eye).
var (
	usualRoundness     = [3]float64{.25, .12, .06}
	roundnessDeviation = [3]float64{.10, .06, .02}
)

// defaultPM is how far off a mark is taken to be: four pixels, more on large pictures (judged by eye).
func (m *Marks) defaultPM() Pixel { return cmp.Or(m.PM, max(4, .0013*m.Width)) }

// deviation returns the standard deviation of a mark in pixels.
func (m *Marks) deviation(k Mark) float64 { return float64(cmp.Or(k.PM, m.defaultPM())) / twoSided }

// seen returns a mark as the fit takes it: from the picture's centre, mirrored where the vehicle faces right; of a sketch, in millimetres
// of its sheet.
func (m *Marks) seen(k Mark) (at vec, sd float64) {
	at, sd = vec{float64(k.At.X - m.Width/2), float64(k.At.Y - m.Height/2)}, m.deviation(k)
	if m.Sheet != nil {
		at, sd = m.Sheet.flatten(k.At, sd)
	}
	if m.FacesRight {
		at.x = -at.x
	}
	return at, sd
}

// twoSided is how many standard deviations the 95 % interval of a normal distribution reaches to each side.
const twoSided = 1.96
