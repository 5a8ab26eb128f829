package sheet

import (
	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/segments"
)

// Kind is a kind of sheet.
type Kind string

// The kinds of sheet.
const (
	Full     Kind = "full"     // every guide, everything labelled
	Trace    Kind = "trace"    // pale and without words, to draw over
	Practice Kind = "practice" // part of the guides, and blanks to fill
	Answer   Kind = "answer"   // the practice sheet solved
	Steps    Kind = "steps"    // the construction in eight panels
)

// Kinds lists the kinds that draw one plan a page, in the order they are told to people.
func Kinds() []Kind { return []Kind{Full, Trace, Steps, Practice, Answer} }

// Facing says which way the vehicle looks.
type Facing string

// The two ways to face.
const (
	Left  Facing = "left"
	Right Facing = "right"
)

// Labels says how much is written into the drawing.
type Labels string

// NoLabels leaves the drawing without words, ShortLabels writes names and values, FullLabels adds notes.
const (
	NoLabels    Labels = "none"
	ShortLabels Labels = "short"
	FullLabels  Labels = "full"
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

// Choice is a yes or no that the kind of sheet decides when nobody else does.
type Choice uint8

// The choices.
const (
	ByKind Choice = iota
	On
	Off
)

// Scale says how large the vehicle stands on paper. The zero Scale fits it to the page.
type Scale struct {
	Reduction float64 // 1:N, or 0
	Wheel     geom.MM // the front wheel's diameter on paper, or 0
}

// fits reports whether s asks for the largest size that fits.
func (s Scale) fits() bool { return s.Reduction == 0 && s.Wheel == 0 }

// wheel returns the wheel on paper that a fixed scale asks of p.
func (s Scale) wheel(p layout.Plan) geom.MM {
	if s.Wheel > 0 {
		return s.Wheel
	}
	return geom.MM(float64(p.OnVehicle(1)) / s.Reduction)
}

// Setting is everything about a sheet but the vehicle.
type Setting struct {
	Paper   Paper
	Scale   Scale
	Facing  Facing
	Guides  []string // nil: all that the kind draws
	Labels  Labels
	Units   Units
	Ink     Ink
	Views   []View     // nil: the side
	Angle   Projection // of an arrangement
	Camera  Camera     // of perspectives
	Outline Choice
	Checks  bool // draw the ground angles too
	Frame   bool
	Tile    bool   // over as many pages of the paper as the scale takes
	Given   int    // how much a practice sheet gives: GivenWheels to GivenMost; 0 is GivenWheels
	Title   string // over the segment's name, or empty
	Author  string
}

// given returns the level of practice sheets.
func (s Setting) given() int { return max(s.Given, GivenWheels) }

// Job is what one command draws: each plan on each kind of sheet, in that order, at one wheel size.
type Job struct {
	Plans   []layout.Plan
	Against []layout.Plan // what an overlay compares each plan with; none: the first plan with the others
	Count   int           // thumbnails on a page; 0: one a plan, and twelve of a plan alone
	Kinds   []Kind
	Setting Setting
	Among   []*segments.Profile // the segments that a bent plan is compared with

	handout bool    // part of a class: a line over its sheets numbers them
	more    int     // sheets of other views, which are numbered with these
	most    geom.MM // the largest wheel that other views have room for; 0: any
}

// Guides lists the guides that a user may choose among, in paint order. All are drawn where none is chosen, but for checks.
func Guides() []string {
	return []string{"outline", "pillar", "roof", "belt", "sill", "clearance", "checks", "between", "stack",
		"overhangs", "ratio", "arches", "lamps", "glass", "wheels", "ground", "ticks"}
}

// guideTitles are the layers' names for people.
var guideTitles = map[string]string{
	"outline":   "Outline",
	"pillar":    "A-pillar, its aim and band",
	"roof":      "Roof level",
	"belt":      "Belt line",
	"sill":      "Sill",
	"clearance": "Clearance",
	"checks":    "Ground angles",
	"between":   "Wheels between",
	"stack":     "Height in wheels",
	"overhangs": "Overhangs, nose and tail",
	"ratio":     "Greenhouse to body side",
	"arches":    "Wheel arches",
	"lamps":     "Lamps",
	"glass":     "End of the side glass",
	"wheels":    "Tyres and axle lines",
	"ground":    "Ground line",
	"ticks":     "Rules",
	"labels":    "Labels",
	"strip":     "Strip",
	"grid":      "Ground in wheels",
	"horizon":   "Horizon",
	"vanishing": "Where parallels meet",
	"sections":  "Sections and centre line",
	"box":       "Enclosing box and its thirds",
	"axis":      "Axes of the ellipses",
	"axles":     "Axles",
	"heights":   "Levels on the box",
	"widths":    "Widths",
	"carried":   "Lines carried from view to view",
	tileGuide:   "Cut and glue marks, tile's strip",
	"frame":     "Frame and centring marks",
}

// guideTitle is a layer's name for people.
func guideTitle(name string) string {
	title, ok := guideTitles[name]
	if !ok {
		panic("sheet: no guide " + name)
	}
	return title
}
