package cli

import (
	"encoding/csv"
	"io"

	"hubrule/internal/report"
	"hubrule/segments"
	"hubrule/segments/reading"
)

// readingsJSON writes one reading, or an array of several.
func readingsJSON(w io.Writer, readings []reading.Reading, s standard) error {
	var all []report.Reading
	for i, r := range readings {
		all = append(all, report.ReadingOf(r, s.differences(i, r)))
	}
	if len(all) == 1 {
		return report.WriteJSON(w, all[0])
	}
	return report.WriteJSON(w, all)
}

// readingsCSV writes a row a reading: each figure and its ±, empty where it is absent.
func readingsCSV(w io.Writer, readings []reading.Reading) {
	c := csv.NewWriter(w)
	head := []string{"name"}
	for f := range segments.FigureCount {
		if report.IsMeasured(f) {
			head = append(head, f.String(), f.String()+"-pm")
		}
	}
	c.Write(head)
	for _, r := range readings {
		row := []string{r.Name}
		for f := range segments.FigureCount {
			if !report.IsMeasured(f) {
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
