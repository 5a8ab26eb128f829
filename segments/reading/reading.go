// Package reading takes the figures of a vehicle off marks that a person set on a picture of its side, or off the numbers of a data
// sheet, each with how far off it may be, and turns one reading or many into a profile.
//
// Photo space is pixels, x right and y down from the top left corner of the upright picture. Body space is wheels: x rearwards from the
// front axle, y up from the road, z from the centre plane towards the camera. A depth is z less that of the near tyres' outer edges:
// negative farther in.
package reading

import (
	"hubrule/segments"
)

// State says how a reading came by a figure.
type State string

// The states. A figure that is Absent has no value. One that is Unreadable has a value too uncertain to use. Assumed figures come from
// the segment that the vehicle is like.
const (
	Read       State = "read"
	Absent     State = "absent"
	Unreadable State = "unreadable"
	Assumed    State = "assumed"
)

// Value is one figure of a reading, in the figure's own unit; the zero Value is absent.
type Value struct {
	Value    float64
	PM       float64 // half the width of the interval that holds the true value in 95 of 100 readings
	State    State   // "" is Absent
	MostFrom string  // the source of the largest part of PM, like "tyre marks"; "" where there is one source only
}

// Skew says what is known of how far a picture is from square-on.
type Skew string

// The skews. Carried: the yaw is known well enough to be taken out. Weak: taken out, but it widens what depends on it. CannotTell: the
// picture is read as if it were square-on, and figures that depend on the yaw are unreadable. None: there was no camera.
const (
	Carried    Skew = "carried"
	Weak       Skew = "weak"
	CannotTell Skew = "cannot tell"
	None       Skew = "none"
)

// Reading is what was read of one vehicle.
type Reading struct {
	Name    string // the file's stem, or the first cell of a data sheet's row
	Source  string // what it was read from, as messages and bases name it: "side.jpg", "sheet.csv:4"
	Student string // who drew it; "" where a file names nobody
	Like    *segments.Profile
	// Wheel and RearWheel are the tyres; without a Diameter there are no millimetres.
	Wheel, RearWheel segments.Tyre
	Figures          [segments.FigureCount]Value
	Camera           *Camera // nil for a data sheet and for a sketch on a sheet
	Skew             Skew
	Picture          *Picture // nil for a data sheet
	Messages         []string // what whoever reads it should know, in whole sentences
}

// File returns what to edit: the path of the marks, or a data sheet's name with the line.
func (r Reading) File() string {
	if r.Picture == nil {
		return r.Source
	}
	return r.Picture.marks.Path
}

// StudentPlace returns where the student is named: file:line:column, or the file alone where none is.
func (r Reading) StudentPlace() string {
	if r.Picture == nil {
		return r.Source
	}
	return r.Picture.marks.studentPlace
}

// Camera is where a picture was taken from, as far as the fit knows.
type Camera struct {
	Yaw, YawPM           float64 // degrees; positive: the camera stands farther back than square-on
	Roll                 float64 // degrees
	Distance, DistancePM float64 // of the front wheel, in wheels
	Focal                float64 // millimetres, for a picture of 36 by 24
}
