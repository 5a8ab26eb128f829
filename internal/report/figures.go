package report

import (
	"encoding/json"
	"math"

	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/segments"
)

// Figures is a plan in figures, as JSON.
type Figures struct {
	Segment    string        `json:"segment"`
	Form       segments.Form `json:"form"`
	Wheel      json.Number   `json:"wheel-mm"`
	RearWheel  json.Number   `json:"rear-wheel-mm"`
	ReadsAs    string        `json:"reads-as"`
	Nearest    []Near        `json:"nearest"`
	Figures    Members       `json:"figures"`
	Dimensions Members       `json:"dimensions"`
	Checks     []check       `json:"checks"`
}

// Figure is one figure; what it has not is null.
type Figure struct {
	Value  any           `json:"value"`
	Unit   segments.Unit `json:"unit"`
	MM     any           `json:"mm"`
	Range  []json.Number `json:"range"`
	State  layout.State  `json:"state"`
	Beyond json.Number   `json:"beyond"`
	Limit  string        `json:"limit,omitempty"`

	Typical any `json:"typical,omitempty"` // before tweaks and pins
}

// Near is a segment and how far a plan lies from it, in half-ranges.
type Near struct {
	Segment  string      `json:"segment"`
	Distance json.Number `json:"distance"`
}

// check is one check; value and holds are null where they are not known.
type check struct {
	Name   string `json:"name"`
	Value  any    `json:"value"`
	Limit  string `json:"limit"`
	Holds  any    `json:"holds"`
	Source string `json:"source"`
}

func checkOf(c layout.Check) check {
	out := check{Name: c.Name, Limit: c.Limit, Source: c.Source}
	if !math.IsNaN(c.Value) {
		out.Value = Three(c.Value)
	}
	if c.Result != layout.Unknown {
		out.Holds = c.Result == layout.Met
	}
	return out
}

// FiguresOf returns a plan in figures.
func FiguresOf(plan layout.Plan) Figures {
	verdict := plan.ReadsAs(segments.All())
	doc := Figures{Segment: plan.Profile.Name, Form: plan.Profile.Form,
		Wheel: Three(plan.Value(segments.Wheel)), RearWheel: Three(plan.Value(segments.RearWheel)), ReadsAs: verdict.Line}
	for _, n := range verdict.Nearest {
		doc.Nearest = append(doc.Nearest, Near{n.Segment, Six(n.Distance)})
	}
	for _, s := range plan.FigureStatuses() {
		doc.Figures = append(doc.Figures, Member{s.Figure.String(), figureOf(plan, s)})
	}
	for _, d := range Dimensions(plan) {
		doc.Dimensions = append(doc.Dimensions, Member{d.Name, Three(d.Value)})
	}
	for _, c := range plan.Checks() {
		doc.Checks = append(doc.Checks, checkOf(c))
	}
	return doc
}

func figureOf(plan layout.Plan, s layout.FigureStatus) Figure {
	f := Figure{Value: Six(s.Value), Unit: s.Figure.Info().Unit, State: s.State, Beyond: Six(s.Beyond), Limit: s.Limit}
	if f.Unit == segments.AsWord {
		f.Value = plan.Profile.Form
	} else {
		f.Typical = Six(s.Typical)
	}
	if mm, ok := InMM(plan, s); ok {
		f.MM = Three(mm)
	}
	if s.Range != nil {
		f.Range = []json.Number{Six(s.Range.Lo), Six(s.Range.Hi)}
	}
	return f
}

// InMM returns a figure in millimetres on the vehicle; ratios, degrees and words have none.
func InMM(plan layout.Plan, s layout.FigureStatus) (float64, bool) {
	switch s.Figure.Info().Unit {
	case segments.InMM:
		return s.Value, true
	case segments.InWheels, segments.AsCount:
		return float64(plan.OnVehicle(geom.Wheels(s.Value))), true
	}
	return 0, false
}

// Dimension is a size on the vehicle.
type Dimension struct {
	Name   string
	Value  float64
	Format string // of the value in a table
	About  string // what it measures; "" of a second name, which JSON alone has
}

// Dimensions lists p's sizes on the vehicle in the order of the JSON contract. Overhangs are ISO 612's: from the wheel centre to
// the foremost or rearmost point; they stand under two names, of which the longer is a figure's; the shorter is that of another figure, from
// the tyre.
func Dimensions(p layout.Plan) []Dimension {
	const inMM, inDegrees = "%.0f mm", "%.1f°"
	mm := func(w geom.Wheels) float64 { return float64(p.OnVehicle(w)) }
	return []Dimension{
		{"wheelbase", mm(p.Wheelbase()), inMM, "axle to axle"},
		{"length", mm(p.Length()), inMM, "nose to tail"},
		{"height", mm(p.Height()), inMM, "ground to roof"},
		{"width", mm(geom.Wheels(p.Value(segments.Width))), inMM, "without mirrors"},
		{"front-overhang", mm(-p.Nose()), inMM, ""},
		{"rear-overhang", mm(p.Tail() - p.Wheelbase()), inMM, ""},
		{"front-overhang-axle", mm(-p.Nose()), inMM, "nose ahead of the front wheel's centre"},
		{"rear-overhang-axle", mm(p.Tail() - p.Wheelbase()), inMM, "tail behind the rear wheel's centre"},
		{"track", mm(geom.Wheels(p.Value(segments.Track))), inMM, "between the tyres' centre lines, at the ground"},
		{"ground-clearance", mm(p.Clearance()), inMM, "ground to the lowest underbody point between the axles"},
		{"approach-angle", float64(p.Approach()), inDegrees, "steepest ramp ahead of the front tyre that the lower front corner clears"},
		{"departure-angle", float64(p.Departure()), inDegrees, "steepest ramp behind the rear tyre that the lower rear corner clears"},
		{"breakover-angle", float64(p.Breakover()), inDegrees, "sharpest crest (change of slope) that the underbody clears"},
	}
}
