package request

import (
	"slices"

	"hubrule/internal/geom"
	"hubrule/layout"
)

// Facing is the way the vehicle faces.
type Facing string

// The two ways to face.
const (
	Left  Facing = "left"
	Right Facing = "right"
)

// Labels is how much is written into the drawing.
type Labels string

// NoLabels leaves the drawing without words, ShortLabels writes names and values, FullLabels adds notes.
const (
	NoLabels    Labels = "none"
	ShortLabels Labels = "short"
	FullLabels  Labels = "full"
	// ValueLabels writes values alone, on a screen too narrow for names; it is not on offer for paper.
	ValueLabels Labels = "values"
)

// Units are those of the lengths written on a sheet.
type Units string

// The units of labels: wheels, or millimetres or inches on the vehicle.
const (
	Wheels      Units = "w"
	Millimetres Units = "mm"
	Inches      Units = "in"
)

// Ink is a set of inks. The empty Ink is the kind's own: pale on trace, dark elsewhere.
type Ink string

// The sets of inks: to read, to copy, to draw over.
const (
	Dark Ink = "dark"
	Grey Ink = "grey"
	Pale Ink = "pale"
)

// OutlineMode is whether the vehicle's outline is drawn. The empty OutlineMode is the kind's own.
type OutlineMode string

// The modes, as they are written.
const (
	OutlineByKind OutlineMode = ""
	OutlineOn     OutlineMode = "true"
	OutlineOff    OutlineMode = "false"
)

// Scale is the size of the vehicle on paper. The zero Scale fits it to the page.
type Scale struct {
	Reduction float64 // 1:N, or 0
	Wheel     geom.MM // the front wheel's diameter on paper, or 0
}

// Fits reports whether s asks for the largest size that fits.
func (s Scale) Fits() bool { return s.Reduction == 0 && s.Wheel == 0 }

// WheelOf returns the wheel on paper that a fixed scale asks of p.
func (s Scale) WheelOf(p layout.Plan) geom.MM {
	if s.Wheel > 0 {
		return s.Wheel
	}
	return geom.MM(float64(p.OnVehicle(1)) / s.Reduction)
}

// WheelBeside returns the wheel on paper of p where the wheel of base is as large as given: at a reduction each vehicle has its own,
// else all wheels are alike.
func (s Scale) WheelBeside(base layout.Plan, wheel geom.MM, p layout.Plan) geom.MM {
	if s.Reduction == 0 {
		return wheel
	}
	return geom.MM(float64(wheel) * float64(p.OnVehicle(1)/base.OnVehicle(1)))
}

// Setting is everything about a sheet but the vehicle.
type Setting struct {
	Paper   Paper
	Scale   Scale
	Facing  Facing
	Guides  []Guide // nil: all that the kind draws
	Labels  Labels
	Units   Units
	Ink     Ink
	Views   []View     // nil: the side
	Angle   Projection // of an arrangement
	Camera  Camera     // of perspectives
	Outline OutlineMode
	Checks  bool // draw the ground angles too
	Frame   bool
	Legend  bool   // explain the kinds of line
	Tile    bool   // over as many pages of the paper as the scale takes
	Given   int    // how much a practice sheet gives: GivenWheels to GivenMost; 0 is GivenWheels
	Title   string // over the segment's name, or empty
	Author  string
}

// GivenLevel returns how much a practice sheet gives, 1 to 4.
func (s Setting) GivenLevel() int { return max(s.Given, GivenWheels) }

// Seen returns the views of the job, the side where none is named.
func (s Setting) Seen() []View {
	if len(s.Views) == 0 {
		return []View{SideView}
	}
	return s.Views
}

// Shows reports whether a view is asked for.
func (s Setting) Shows(v View) bool { return slices.Contains(s.Seen(), v) }

// SideOnly reports whether only the side view is asked for.
func (s Setting) SideOnly() bool { return slices.Equal(s.Seen(), []View{SideView}) }
