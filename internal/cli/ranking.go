package cli

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"io"
	"slices"
	"strings"
	"text/tabwriter"

	"github.com/spf13/cobra"

	"hubrule/internal/geom"
	"hubrule/internal/report"
	"hubrule/internal/slice"
	"hubrule/layout"
	"hubrule/segments"
)

// rankPins prints which segments pinned figures fit, and where the figures lie in the nearest.
func rankPins(cmd *cobra.Command, pins []segments.Pin, format string) error {
	w := cmd.OutOrStdout()
	if !slices.ContainsFunc(pins, func(p segments.Pin) bool { return p.Figure.Info().Role != segments.Given }) {
		return usagef("figures wants a segment, or figures of your own to rank the segments by, like --pin wheelbase=2690mm --pin " +
			"height=1520mm")
	}
	all := layout.Rank(pins, segments.All())
	for _, l := range all[:3] {
		if notes := layout.PinNotes(segments.Brief{Profile: l.Segment, Pins: pins}); notes != nil {
			tell(cmd.ErrOrStderr(), "note", notes...)
			break
		}
	}
	switch format {
	case "json":
		return rankingJSON(w, pins, all)
	case "csv":
		c := csv.NewWriter(w)
		c.Write([]string{"segment", "share", "distance", "bodies", "first", "first-two"})
		for _, l := range all {
			first, two := "", ""
			if l.Bodies > 0 {
				first, two = report.Number(l.First, 0), report.Number(l.FirstTwo, 0)
			}
			c.Write([]string{l.Segment.Name, report.Number(l.Share, 6), report.Number(l.Distance, 6), fmt.Sprint(l.Bodies), first, two})
		}
		c.Flush()
		return nil
	}
	rankingTable(w, pins, all)
	return nil
}

// Where the table stops; judged by eye.
const (
	shareShown  = .01 // share below which the table ends,
	fewestShown = 3   // though not before so many segments
)

func rankingTable(w io.Writer, pins []segments.Pin, all []layout.Likeness) {
	fmt.Fprintf(w, "%s\n\n", report.RankingLine(all))
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', tabwriter.AlignRight)
	fmt.Fprintln(t, "segment\tshare\tdistance\tfirst\tfirst two\tof bodies\t")
	for i, l := range all {
		if i >= fewestShown && l.Share < shareShown {
			break
		}
		first, two, bodies := "", "", "none"
		if l.Bodies > 0 {
			first, two, bodies = fmt.Sprintf("%g %%", l.First), fmt.Sprintf("%g %%", l.FirstTwo), fmt.Sprint(l.Bodies)
		}
		fmt.Fprintf(t, "%s\t%.0f %%\t%.1f\t%s\t%s\t%s\t\n", l.Segment.Name, 100*l.Share, l.Distance, first, two, bodies)
	}
	t.Flush()
	fmt.Fprint(w, "share: of the likelihood of all segments; distance: in standard deviations\n"+
		"first, first two: measured bodies of the segment that wheelbase, length, height and width place there\n\n")
	near := all[:3]
	t = tabwriter.NewWriter(w, 0, 0, 3, ' ', 0)
	fmt.Fprintf(t, "figure\tgiven\t%s\t%s\t%s\n", near[0].Segment.Name, near[1].Segment.Name, near[2].Segment.Name)
	for _, pin := range pins {
		cells := []string{pin.Figure.String(), pin.Text}
		for _, l := range near {
			cells = append(cells, placeWords(pin, l))
		}
		fmt.Fprintln(t, strings.Join(cells, "\t"))
	}
	t.Flush()
	fmt.Fprintln(w, "below, above: half-ranges outside the segment's range")
	if _, ok := (segments.Brief{Pins: pins}).Pin(segments.Wheel); !ok {
		fmt.Fprintln(w, "no wheel is given: millimetres and wheels are converted by each segment's own tyre")
	}
	fmt.Fprintf(w, "\n%s\n", caution)
}

// placeWords says where a pin lies in a segment: "in 2640–2800 mm", "0.3 below 2640 mm".
func placeWords(pin segments.Pin, l layout.Likeness) string {
	s, ok := slice.Find(l.Figures, func(s layout.Standing) bool { return s.Figure == pin.Figure })
	if !ok {
		return "–"
	}
	decimals, unit := 2, ""
	switch u := pin.Unit(); {
	case u == "mm":
		decimals, unit = 0, " mm"
	case u == "cm" || u == "in":
		decimals, unit = 1, " "+u
	case u != "":
		unit = " " + u
	case s.Figure.Info().Unit == segments.InDegrees:
		decimals, unit = 1, "°"
	}
	shown := func(v float64) string { return report.Number(pin.FromFigureUnit(v, l.Wheel), decimals) }
	switch {
	case s.Beyond > 0 && s.Value < s.Range.Lo:
		return fmt.Sprintf("%.1f below %s%s", s.Beyond, shown(s.Range.Lo), unit)
	case s.Beyond > 0:
		return fmt.Sprintf("%.1f above %s%s", s.Beyond, shown(s.Range.Hi), unit)
	}
	return fmt.Sprintf("in %s–%s%s", shown(s.Range.Lo), shown(s.Range.Hi), unit)
}

func rankingJSON(w io.Writer, pins []segments.Pin, all []layout.Likeness) error {
	type likelyJSON struct {
		report.Near
		Share    json.Number `json:"share"`
		Bodies   int         `json:"bodies"`
		First    any         `json:"first"` // null without bodies
		FirstTwo any         `json:"first-two"`
	}
	var nearest []likelyJSON
	for _, l := range all {
		n := likelyJSON{report.Near{Segment: l.Segment.Name, Distance: report.Six(l.Distance)}, report.Six(l.Share), l.Bodies, nil, nil}
		if l.Bodies > 0 {
			n.First, n.FirstTwo = l.First, l.FirstTwo
		}
		nearest = append(nearest, n)
	}
	wheels := map[segments.Figure]any{}
	for _, f := range []segments.Figure{segments.Wheel, segments.RearWheel} {
		if pin, ok := (segments.Brief{Pins: pins}).Pin(f); ok {
			wheels[f] = report.Three(pin.Value(0))
		}
	}
	var figures, places report.Members
	for _, pin := range pins {
		figures = append(figures, report.Member{Key: pin.Figure.String(), Value: pinnedJSON(pin, all[0].Wheel, wheels[segments.Wheel] != nil)})
		var beyond report.Members
		for _, l := range all[:3] {
			if s, ok := slice.Find(l.Figures, func(s layout.Standing) bool { return s.Figure == pin.Figure }); ok {
				beyond = append(beyond, report.Member{Key: l.Segment.Name, Value: report.Six(s.Beyond)})
			}
		}
		if beyond != nil {
			places = append(places, report.Member{Key: pin.Figure.String(), Value: beyond})
		}
	}
	return report.WriteJSON(w, struct {
		Segment   any            `json:"segment"`
		Form      any            `json:"form"`
		Wheel     any            `json:"wheel-mm"`
		RearWheel any            `json:"rear-wheel-mm"`
		ReadsAs   string         `json:"reads-as"`
		Nearest   []likelyJSON   `json:"nearest"`
		Figures   report.Members `json:"figures"`
		PerFigure report.Members `json:"per-figure"`
	}{nil, nil, wheels[segments.Wheel], wheels[segments.RearWheel], report.RankingLine(all), nearest, figures, places})
}

// pinnedJSON is a pinned figure by itself. Without a wheel a length has either millimetres or wheels.
func pinnedJSON(pin segments.Pin, wheel geom.MM, known bool) report.Figure {
	f := report.Figure{Unit: pin.Figure.Info().Unit, State: "pinned", Beyond: report.Six(0)}
	inWheels := f.Unit == segments.InWheels || f.Unit == segments.AsCount
	if value := pin.Value(wheel); !inWheels || known || pin.Unit() == "w" || pin.Unit() == "" {
		f.Value = report.Six(value)
	}
	if value := pin.Value(wheel) * float64(wheel); inWheels && (known || pin.Unit() != "w" && pin.Unit() != "") {
		f.MM = report.Three(value)
	}
	if f.Unit == segments.InMM {
		f.MM = report.Three(pin.Value(wheel))
	}
	return f
}
