package report

import (
	"encoding/json"

	"hubrule/segments"
	"hubrule/segments/reading"
)

// readFigure is a figure of a reading; value and pm are null where it is absent.
type readFigure struct {
	Value    any           `json:"value"`
	PM       any           `json:"pm"`
	Unit     segments.Unit `json:"unit"`
	MM       any           `json:"mm"`
	MMPM     any           `json:"mm-pm"`
	State    reading.State `json:"state"`
	MostFrom string        `json:"most-from,omitempty"`
}

type readCamera struct {
	Yaw        json.Number `json:"yaw"`
	YawPM      json.Number `json:"yaw-pm"`
	Roll       json.Number `json:"roll"`
	Distance   json.Number `json:"distance"`
	DistancePM json.Number `json:"distance-pm"`
	Focal      json.Number `json:"focal"`
}

type readDifference struct {
	Range    []json.Number `json:"range"`
	Beyond   json.Number   `json:"beyond"`
	BeyondPM json.Number   `json:"beyond-pm"`
	Move     any           `json:"move"`
}

// Reading is a reading in figures, as JSON; what is not known is null.
type Reading struct {
	Name     string       `json:"name"`
	Student  string       `json:"student,omitempty"`
	Like     any          `json:"like"`
	Wheel    any          `json:"wheel-mm"`
	Camera   *readCamera  `json:"camera"`
	Skew     reading.Skew `json:"skew"`
	Figures  Members      `json:"figures"`
	Messages []string     `json:"messages"`
	ReadsAs  string       `json:"reads-as"`
	Nearest  []Near       `json:"nearest"`
	Against  Members      `json:"against,omitempty"`
}

// ReadingOf returns a reading in figures, with how they lie to what they are held against, if anything.
func ReadingOf(r reading.Reading, differences []reading.Difference) Reading {
	out := Reading{Name: r.Name, Student: r.Student, Skew: r.Skew, Messages: append([]string{}, r.Messages...), Nearest: []Near{}}
	if r.Like != nil {
		out.Like = r.Like.Name
	}
	if r.Wheel.Diameter > 0 {
		out.Wheel = Three(float64(r.Wheel.Diameter))
	}
	if c := r.Camera; c != nil {
		out.Camera = &readCamera{Six(c.Yaw), Six(c.YawPM), Six(c.Roll), Six(c.Distance), Six(c.DistancePM), Six(c.Focal)}
	}
	for f := range segments.FigureCount {
		if IsMeasured(f) {
			out.Figures = append(out.Figures, Member{Key: f.String(), Value: readFigureOf(r, f)})
		}
	}
	if all := r.Rank(segments.All()); all != nil {
		out.ReadsAs = RankingLine(all)
		for _, l := range all {
			out.Nearest = append(out.Nearest, Near{Segment: l.Segment.Name, Distance: Six(l.Distance)})
		}
	}
	for _, d := range differences {
		one := readDifference{[]json.Number{Six(d.Range.Lo), Six(d.Range.Hi)}, Six(d.Beyond), Six(d.Read.PM), nil}
		if d.Move != 0 {
			one.Move = Six(d.Move)
		}
		out.Against = append(out.Against, Member{Key: d.Figure.String(), Value: one})
	}
	return out
}

// IsMeasured reports whether a picture or a data sheet can have a figure: tyres and words are no measures.
func IsMeasured(f segments.Figure) bool {
	unit := f.Info().Unit
	return unit != segments.InMM && unit != segments.AsWord && f != segments.Rim
}

// readFigureOf is one figure as JSON.
func readFigureOf(r reading.Reading, f segments.Figure) readFigure {
	v := r.Figures[f]
	out := readFigure{Unit: f.Info().Unit, State: v.State, MostFrom: v.MostFrom}
	if v.State == "" || v.State == reading.Absent {
		out.State = reading.Absent
		return out
	}
	out.Value, out.PM = Six(v.Value), Six(v.PM)
	if mm, ok := OnVehicle(r, f, v.Value); ok {
		pm, _ := OnVehicle(r, f, v.PM)
		out.MM, out.MMPM = Three(mm), Three(pm)
	}
	return out
}

// OnVehicle returns a figure's length in millimetres, if it is one and the tyre is known.
func OnVehicle(r reading.Reading, f segments.Figure, x float64) (float64, bool) {
	unit := f.Info().Unit
	return x * float64(r.Wheel.Diameter), r.Wheel.Diameter > 0 && (unit == segments.InWheels || unit == segments.AsCount)
}
