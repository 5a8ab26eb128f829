package cli

import (
	"encoding/csv"
	"io"

	"hubrule/internal/report"
	"hubrule/layout"
	"hubrule/segments"
)

// figuresCSV prints one row a figure.
func figuresCSV(w io.Writer, plan layout.Plan) {
	c := csv.NewWriter(w)
	c.Write([]string{"figure", "value", "unit", "mm", "from", "to", "state", "beyond", "typical"})
	for _, s := range plan.FigureStatuses() {
		unit := s.Figure.Info().Unit
		row := []string{s.Figure.String(), report.Number(s.Value, 6), string(unit), "", "", "", string(s.State), report.Number(s.Beyond, 6),
			report.Number(s.Typical, 6)}
		if unit == segments.AsWord {
			row[1], row[8] = string(plan.Profile.Form), ""
		}
		if mm, ok := report.InMM(plan, s); ok {
			row[3] = report.Number(mm, 3)
		}
		if s.Range != nil {
			row[4], row[5] = report.Number(s.Range.Lo, 6), report.Number(s.Range.Hi, 6)
		}
		c.Write(row)
	}
	c.Flush()
}
