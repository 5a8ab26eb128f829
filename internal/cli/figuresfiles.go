package cli

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"strconv"

	"hubrule/layout"
	"hubrule/segments"
)

// number writes a number as files carry it: a fixed count of decimals, no exponent, no "-0".
func number(v float64, decimals int) string {
	s := strconv.FormatFloat(v, 'f', decimals, 64)
	if f, _ := strconv.ParseFloat(s, 64); f == 0 {
		s = strconv.FormatFloat(0, 'f', decimals, 64)
	}
	return s
}

// members is a JSON object whose keys keep their order, which encoding/json does not offer.
type members []member

type member struct {
	key   string
	value any
}

// MarshalJSON returns the object.
func (m members) MarshalJSON() ([]byte, error) {
	var list [][]byte
	for _, one := range m {
		value, err := json.Marshal(one.value)
		if err != nil {
			return nil, err
		}
		list = append(list, fmt.Appendf(nil, "%q:%s", one.key, value))
	}
	return fmt.Appendf(nil, "{%s}", bytes.Join(list, []byte(","))), nil
}

func six(v float64) json.Number   { return json.Number(number(v, 6)) }
func three(v float64) json.Number { return json.Number(number(v, 3)) }

type figureJSON struct {
	Value  any           `json:"value"`
	Unit   segments.Unit `json:"unit"`
	MM     any           `json:"mm"`
	Range  []json.Number `json:"range"`
	State  layout.State  `json:"state"`
	Beyond json.Number   `json:"beyond"`
	Limit  string        `json:"limit,omitempty"`

	Typical any `json:"typical,omitempty"` // before tweaks and pins
}

type nearJSON struct {
	Segment  string      `json:"segment"`
	Distance json.Number `json:"distance"`
}

// checkJSON is one check; value and holds are null where they are not known.
type checkJSON struct {
	Name   string `json:"name"`
	Value  any    `json:"value"`
	Limit  string `json:"limit"`
	Holds  any    `json:"holds"`
	Source string `json:"source"`
}

func checkOf(c layout.Check) checkJSON {
	out := checkJSON{Name: c.Name, Limit: c.Limit, Source: c.Source}
	if !math.IsNaN(c.Value) {
		out.Value = three(c.Value)
	}
	if c.Result != layout.Unknown {
		out.Holds = c.Result == layout.Met
	}
	return out
}

func figuresJSON(w io.Writer, plan layout.Plan) error {
	var figures, sizes members
	for _, s := range plan.FigureStatuses() {
		f := figureJSON{Value: six(s.Value), Unit: s.Figure.Info().Unit, State: s.State, Beyond: six(s.Beyond), Limit: s.Limit}
		if f.Unit == segments.AsWord {
			f.Value = plan.Profile.Form
		} else {
			f.Typical = six(s.Typical)
		}
		if mm, ok := inMM(plan, s); ok {
			f.MM = three(mm)
		}
		if s.Range != nil {
			f.Range = []json.Number{six(s.Range.Lo), six(s.Range.Hi)}
		}
		figures = append(figures, member{s.Figure.String(), f})
	}
	for _, d := range dimensions(plan) {
		sizes = append(sizes, member{d.name, three(d.value)})
	}
	doc := struct {
		Segment    string        `json:"segment"`
		Form       segments.Form `json:"form"`
		Wheel      json.Number   `json:"wheel-mm"`
		RearWheel  json.Number   `json:"rear-wheel-mm"`
		ReadsAs    string        `json:"reads-as"`
		Nearest    []nearJSON    `json:"nearest"`
		Figures    members       `json:"figures"`
		Dimensions members       `json:"dimensions"`
		Checks     []checkJSON   `json:"checks"`
	}{Segment: plan.Profile.Name, Form: plan.Profile.Form,
		Wheel: three(plan.Value(segments.Wheel)), RearWheel: three(plan.Value(segments.RearWheel)),
		Figures: figures, Dimensions: sizes}
	verdict := plan.ReadsAs(segments.All())
	doc.ReadsAs = verdict.Line
	for _, n := range verdict.Nearest {
		doc.Nearest = append(doc.Nearest, nearJSON{n.Segment, six(n.Distance)})
	}
	for _, c := range plan.Checks() {
		doc.Checks = append(doc.Checks, checkOf(c))
	}
	return writeJSON(w, doc)
}

func figuresCSV(w io.Writer, plan layout.Plan) {
	c := csv.NewWriter(w)
	c.Write([]string{"figure", "value", "unit", "mm", "from", "to", "state", "beyond", "typical"})
	for _, s := range plan.FigureStatuses() {
		unit := s.Figure.Info().Unit
		row := []string{s.Figure.String(), number(s.Value, 6), string(unit), "", "", "", string(s.State), number(s.Beyond, 6),
			number(s.Typical, 6)}
		if unit == segments.AsWord {
			row[1], row[8] = string(plan.Profile.Form), ""
		}
		if mm, ok := inMM(plan, s); ok {
			row[3] = number(mm, 3)
		}
		if s.Range != nil {
			row[4], row[5] = number(s.Range.Lo, 6), number(s.Range.Hi, 6)
		}
		c.Write(row)
	}
	c.Flush()
}
