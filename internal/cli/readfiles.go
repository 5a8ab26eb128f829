package cli

import (
	"encoding/csv"
	"encoding/json"
	"io"

	"hubrule/internal/report"
	"hubrule/segments"
	"hubrule/segments/reading"
)

// readJSON is a figure of a reading; value and pm are null where it is absent.
type readJSON struct {
	Value    any           `json:"value"`
	PM       any           `json:"pm"`
	Unit     segments.Unit `json:"unit"`
	MM       any           `json:"mm"`
	MMPM     any           `json:"mm-pm"`
	State    reading.State `json:"state"`
	MostFrom string        `json:"most-from,omitempty"`
}

type cameraJSON struct {
	Yaw        json.Number `json:"yaw"`
	YawPM      json.Number `json:"yaw-pm"`
	Roll       json.Number `json:"roll"`
	Distance   json.Number `json:"distance"`
	DistancePM json.Number `json:"distance-pm"`
	Focal      json.Number `json:"focal"`
}

type differenceJSON struct {
	Range    []json.Number `json:"range"`
	Beyond   json.Number   `json:"beyond"`
	BeyondPM json.Number   `json:"beyond-pm"`
	Move     any           `json:"move"`
}

type readingJSON struct {
	Name     string         `json:"name"`
	Student  string         `json:"student,omitempty"`
	Like     any            `json:"like"`
	Wheel    any            `json:"wheel-mm"`
	Camera   *cameraJSON    `json:"camera"`
	Skew     reading.Skew   `json:"skew"`
	Figures  report.Members `json:"figures"`
	Messages []string       `json:"messages"`
	ReadsAs  string         `json:"reads-as"`
	Nearest  []report.Near  `json:"nearest"`
	Against  report.Members `json:"against,omitempty"`
}

// readingsJSON writes one reading, or an array of several.
func readingsJSON(w io.Writer, readings []reading.Reading, s standard) error {
	var all []readingJSON
	for i, r := range readings {
		all = append(all, jsonOf(r, s.differences(i, r)))
	}
	if len(all) == 1 {
		return report.WriteJSON(w, all[0])
	}
	return report.WriteJSON(w, all)
}

func jsonOf(r reading.Reading, differences []reading.Difference) readingJSON {
	out := readingJSON{Name: r.Name, Student: r.Student, Skew: r.Skew, Messages: append([]string{}, r.Messages...), Nearest: []report.Near{}}
	if r.Like != nil {
		out.Like = r.Like.Name
	}
	if r.Wheel.Diameter > 0 {
		out.Wheel = report.Three(float64(r.Wheel.Diameter))
	}
	if c := r.Camera; c != nil {
		out.Camera = &cameraJSON{report.Six(c.Yaw), report.Six(c.YawPM), report.Six(c.Roll), report.Six(c.Distance), report.Six(c.DistancePM), report.Six(c.Focal)}
	}
	for f := range segments.FigureCount {
		if isMeasured(f) {
			out.Figures = append(out.Figures, report.Member{Key: f.String(), Value: figureOf(r, f)})
		}
	}
	if all := r.Rank(segments.All()); all != nil {
		out.ReadsAs = rankingLine(all)
		for _, l := range all {
			out.Nearest = append(out.Nearest, report.Near{Segment: l.Segment.Name, Distance: report.Six(l.Distance)})
		}
	}
	for _, d := range differences {
		one := differenceJSON{[]json.Number{report.Six(d.Range.Lo), report.Six(d.Range.Hi)}, report.Six(d.Beyond), report.Six(d.Read.PM), nil}
		if d.Move != 0 {
			one.Move = report.Six(d.Move)
		}
		out.Against = append(out.Against, report.Member{Key: d.Figure.String(), Value: one})
	}
	return out
}

// isMeasured reports whether a picture or a data sheet can have a figure: tyres and words are no measures.
func isMeasured(f segments.Figure) bool {
	unit := f.Info().Unit
	return unit != segments.InMM && unit != segments.AsWord && f != segments.Rim
}

// figureOf is one figure as JSON.
func figureOf(r reading.Reading, f segments.Figure) readJSON {
	v := r.Figures[f]
	out := readJSON{Unit: f.Info().Unit, State: v.State, MostFrom: v.MostFrom}
	if v.State == "" || v.State == reading.Absent {
		out.State = reading.Absent
		return out
	}
	out.Value, out.PM = report.Six(v.Value), report.Six(v.PM)
	if mm, ok := onVehicle(r, f, v.Value); ok {
		pm, _ := onVehicle(r, f, v.PM)
		out.MM, out.MMPM = report.Three(mm), report.Three(pm)
	}
	return out
}

// onVehicle returns a figure's length in millimetres, if it is one and the tyre is known.
func onVehicle(r reading.Reading, f segments.Figure, x float64) (float64, bool) {
	unit := f.Info().Unit
	return x * float64(r.Wheel.Diameter), r.Wheel.Diameter > 0 && (unit == segments.InWheels || unit == segments.AsCount)
}

// readingsCSV writes a row a reading: each figure and its ±, empty where it is absent.
func readingsCSV(w io.Writer, readings []reading.Reading) {
	c := csv.NewWriter(w)
	head := []string{"name"}
	for f := range segments.FigureCount {
		if isMeasured(f) {
			head = append(head, f.String(), f.String()+"-pm")
		}
	}
	c.Write(head)
	for _, r := range readings {
		row := []string{r.Name}
		for f := range segments.FigureCount {
			if !isMeasured(f) {
				continue
			}
			switch v := r.Figures[f]; v.State {
			case reading.Read: // what is assumed says nothing of the vehicle
				row = append(row, report.Number(v.Value, 6), report.Number(v.PM, 6))
			default:
				row = append(row, "", "")
			}
		}
		c.Write(row)
	}
	c.Flush()
}
