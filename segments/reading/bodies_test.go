package reading

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"hubrule/internal/outside"
	"hubrule/layout"
	"hubrule/segments"
)

// catalogueName returns what the catalogue calls a segment of the measured bodies; "" for one that it lacks.
func catalogueName(name string) string {
	if name == "pickup-fullsize" {
		return "pickup-large"
	}
	if slices.Contains(segments.Names(), name) {
		return name
	}
	return ""
}

// measuredSheet returns the measured bodies of a segment as a data sheet: names, the segment's own tyre, lengths in millimetres.
func measuredSheet(t testing.TB, rows []map[string]string, segment, tyre string) string {
	t.Helper()
	columns := []string{"wheelbase", "length", "height", "width", "front_overhang", "rear_overhang"}
	out := &strings.Builder{}
	out.WriteString("name,tyre,wheelbase mm,length mm,height mm,width mm,front-overhang-axle mm,rear-overhang-axle mm\n")
	for i, row := range rows {
		if row["segment"] != segment {
			continue
		}
		fmt.Fprintf(out, "body %d,%s", i+1, tyre)
		for _, c := range columns {
			out.WriteString("," + row[c])
		}
		out.WriteString("\n")
	}
	return out.String()
}

// measuredSegments lists the segments of the measured bodies that the catalogue has.
func measuredSegments(rows []map[string]string) (out []string) {
	for _, row := range rows {
		if s := row["segment"]; catalogueName(s) != "" && !slices.Contains(out, s) {
			out = append(out, s)
		}
	}
	return out
}

// Norms of the measured bodies, read from data sheets, have the percentiles that were computed from these bodies elsewhere (Transport
// Canada, Canadian Vehicle Specifications, 2011-2023; SEEN): p10, p50 and p90 of wheelbase, length, height and width in whole millimetres.
// Their other rows are ratios of two lengths, which norms do not take.
func TestNormsOfMeasuredBodies(t *testing.T) {
	rows := outside.Rows(t, outside.Data(t, "measured-bodies.csv"))
	want := map[string]map[string]string{}
	for _, row := range outside.Rows(t, outside.Data(t, "segment-percentiles.csv")) {
		want[row["segment"]+" "+row["ratio"]] = row
	}
	compared := 0
	for _, name := range measuredSegments(rows) {
		like := segment(t, catalogueName(name))
		readings, err := parseDataSheet("bodies.csv", []byte(measuredSheet(t, rows, name, like.Wheel.String())))
		if err != nil {
			t.Fatal(err)
		}
		norms, err := Gather(readings, NormOptions{Name: "mine", Like: like, Plain: true})
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range []segments.Figure{segments.Wheelbase, segments.Length, segments.Height, segments.Width} {
			n := norms.Figures[slices.IndexFunc(norms.Figures, func(n Norm) bool { return n.Figure == f })]
			row := want[name+" "+f.String()+"_mm"]
			for _, c := range []struct {
				column string
				got    float64
			}{{"p10", n.P10}, {"p50", n.Median}, {"p90", n.P90}} {
				mm := c.got * float64(like.Wheel.Diameter)
				if x, err := strconv.ParseFloat(row[c.column], 64); err != nil || math.Abs(x-mm) > .501 {
					t.Errorf("%s %s %s: %.2f mm, want %s", name, f, c.column, mm, row[c.column])
				}
				compared++
			}
			if strconv.Itoa(n.N) != row["n"] || n.Range.Lo != n.P10 || n.Range.Hi != n.P90 {
				t.Errorf("%s %s: %d bodies, range %v; want %s, p10 to p90", name, f, n.N, n.Range, row["n"])
			}
		}
		planOf(t, norms.Profile)
	}
	if compared != 12*17 {
		t.Errorf("%d numbers compared, want %d", compared, 12*17)
	}
}

// Rows of measured bodies rank as docs/verdict.md says of the same lengths as pins: a row is ranked as pins are.
func TestReadingsRankAsPins(t *testing.T) {
	rows := outside.Rows(t, outside.Data(t, "measured-bodies.csv"))
	all := segments.All()
	like := segment(t, "suv")
	readings, err := parseDataSheet("bodies.csv", []byte(measuredSheet(t, rows, "suv", like.Wheel.String())))
	if err != nil {
		t.Fatal(err)
	}
	first := 0
	for _, r := range readings[:30] {
		var pins []segments.Pin
		for f, v := range r.Figures {
			if v.State == Read {
				pins = append(pins, pinOf(segments.Figure(f), exactly(segments.Figure(f), v.Value), ""))
			}
		}
		pins = append(pins, pinOf(segments.Wheel, r.Wheel.String(), ""))
		got, want := r.Rank(all), layout.Rank(pins, all)
		if got[0].Segment.Name != want[0].Segment.Name || math.Abs(got[0].Distance-want[0].Distance) > 1e-9 {
			t.Errorf("%s: %s %.3f, as pins %s %.3f", r.Name, got[0].Segment.Name, got[0].Distance, want[0].Segment.Name, want[0].Distance)
		}
		if got[0].Segment.Name == "suv" {
			first++
		}
	}
	if first < 24 {
		t.Errorf("%d of 30 suvs rank as one", first)
	}
}

// Cars of 1985 in inches (UCI Machine Learning Repository, Automobile, as imports85 of R's randomForest; SEEN): norms of the hatchbacks are
// the medians of the file itself, computed here by sorting.
func TestNormsInInches(t *testing.T) {
	var lengths, heights []float64
	sheet := &strings.Builder{}
	sheet.WriteString("name;tyre;wheelbase in;length in;width in;height in\n")
	for i, row := range outside.Rows(t, outside.Data(t, "imports85.csv")) {
		if row["bodyStyle"] != "hatchback" {
			continue
		}
		fmt.Fprintf(sheet, "car %d;165/70R13;%s;%s;%s;%s\r\n", i+1, row["wheelBase"], row["length"], row["width"], row["height"])
		for c, into := range map[string]*[]float64{"length": &lengths, "height": &heights} {
			x, err := strconv.ParseFloat(row[c], 64)
			if err != nil {
				t.Fatal(err)
			}
			*into = append(*into, x)
		}
	}
	readings, err := parseDataSheet("imports.csv", []byte(sheet.String()))
	if err != nil {
		t.Fatal(err)
	}
	norms, err := Gather(readings, NormOptions{Name: "imports"})
	if err != nil {
		t.Fatal(err)
	}
	const inches = 25.4 / 562 // 165/70R13 by its printed rule: 330 + 2 × 116 mm
	plan := planOf(t, norms.Profile)
	for f, values := range map[segments.Figure][]float64{segments.Length: lengths, segments.Height: heights} {
		slices.Sort(values)
		want := (values[(len(values)-1)/2] + values[len(values)/2]) / 2 * inches
		if got := plan.Value(f); math.Abs(got-want) > .002 {
			t.Errorf("%s of the plan %.4f, want the median %.4f", f, got, want)
		}
	}
	if len(readings) != 70 || norms.Base.Name == "" {
		t.Errorf("%d hatchbacks on %s", len(readings), norms.Base.Name)
	}
}
