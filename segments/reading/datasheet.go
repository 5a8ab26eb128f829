package reading

import (
	"fmt"
	"math"
	"path/filepath"
	"strings"
	"unicode/utf8"

	"hubrule/internal/geom"
	"hubrule/segments"
	"hubrule/segments/strict"
)

const (
	mostRows     = 10_000
	sheetPM      = 5. // mm: of lengths, where no column pm says otherwise
	sheetRatioPM = .01
	sheetAnglePM = .5  // degrees
	largestPM    = 500 // mm
)

// loadDataSheet reads the CSV file at path.
func loadDataSheet(path string) ([]Reading, error) {
	data, err := strict.ReadFile(path, "a CSV file")
	if err != nil {
		return nil, err
	}
	return parseDataSheet(path, data)
}

// parseDataSheet reads a CSV file whose first row names figures with their units, one vehicle in each row below; file is its name in
// messages. The error is a *strict.Problems with everything that is wrong, in order.
func parseDataSheet(file string, data []byte) ([]Reading, error) {
	rows, doc := strict.ParseCSV(file, data)
	if len(rows) == 0 {
		return nil, doc.Err()
	}
	if n := len(rows) - 1; n > mostRows {
		rows[mostRows+1][0].Problem("%d rows; want at most %d", n, mostRows)
		return nil, doc.Err()
	}
	columns, ok := parseColumns(rows[0])
	if !ok {
		return nil, doc.Err()
	}
	s := dataSheet{file: filepath.Base(file), columns: columns, lines: map[string]int{}}
	for _, cells := range rows[1:] {
		s.row(cells)
	}
	if len(rows) == 1 && doc.Err() == nil {
		rows[0][0].Problem("no rows; want one for each vehicle below the names of the columns")
	}
	return s.readings, doc.Err()
}

// dataSheet is a data sheet while it is read.
type dataSheet struct {
	file     string
	columns  []column
	lines    map[string]int // of names
	readings []Reading
}

// row reads one vehicle.
func (s *dataSheet) row(cells []strict.Cell) {
	r := rowReader{dataSheet: s, cells: cells, Reading: Reading{Skew: None, Source: fmt.Sprintf("%s:%d", s.file, cells[0].Line)}}
	r.name()
	r.Wheel, r.RearWheel = r.tyre(tyreColumn), r.tyre(rearColumn)
	r.ratio()
	pm := r.pm()
	read := 0
	for i, c := range s.columns {
		if c.isFigure() && cells[i].Text != "" {
			read++
			r.figure(c, cells[i], pm)
		}
		if c.pm >= 0 && cells[i].Text == "" && cells[c.pm].Text != "" {
			cells[c.pm].Problem("%s without %s; want both or neither", s.columns[c.pm].name, c.name)
		}
	}
	if read == 0 {
		cells[0].Problem("no figure; want at least one")
	}
	r.exchanged()
	r.Messages = contradictions(&r.Reading)
	s.readings = append(s.readings, r.Reading)
}

// rowReader reads one row.
type rowReader struct {
	*dataSheet
	Reading
	cells  []strict.Cell
	noTyre bool // reported
}

// cell returns the cell of a column that holds no figure; empty where there is none.
func (r *rowReader) cell(name string) (column, strict.Cell) {
	for i, c := range r.columns {
		if c.name == name {
			return c, r.cells[i]
		}
	}
	return column{}, strict.Cell{}
}

func (r *rowReader) name() {
	_, cell := r.cell(nameColumn)
	_, control := strict.Control(cell.Text)
	switch n := utf8.RuneCountInString(cell.Text); {
	case n == 0 || n > longestName || control:
		cell.Want("a name of 1 to %d characters on one line", longestName)
	case r.lines[cell.Text] > 0:
		cell.Problem("%s stands twice, first on line %d; want another name", strict.Quote(cell.Text), r.lines[cell.Text])
	default:
		r.lines[cell.Text] = cell.Line
	}
	r.Name = cell.Text
}

func (r *rowReader) tyre(name string) (t segments.Tyre) {
	_, cell := r.cell(name)
	if cell.Text != "" {
		var err error
		if t, err = segments.ParseTyre(cell.Text); err != nil {
			cell.Problem("%s: %v", name, err)
			r.noTyre = true // of lengths in millimetres there is no more to say
		}
	}
	return t
}

// ratio checks the tyres beside each other.
func (r *rowReader) ratio() {
	_, cell := r.cell(rearColumn)
	if cell.Text == "" || r.noTyre {
		return
	}
	if q := r.RearWheel.Diameter / r.Wheel.Diameter; r.Wheel.Diameter == 0 {
		cell.Problem("%s without a front tyre; want one in the column %s", rearColumn, tyreColumn)
	} else if q < .5 || q > 2 {
		cell.Problem("%s: %s; want half to twice the front one, %s", rearColumn, cell.Text, r.Wheel)
	}
}

// pm returns the ± of lengths in wheels.
func (r *rowReader) pm() float64 {
	wheel := r.Wheel.Diameter
	if wheel == 0 {
		wheel = usualTyre
	}
	mm := geom.MM(sheetPM)
	if c, cell := r.cell(pmColumn); cell.Text != "" {
		x, ok := strict.ParseNumber(cell.Text)
		if mm = (segments.Measure{Value: x, Unit: c.unit}).MM(wheel); !ok || mm < 0 || mm > largestPM {
			cell.Problem("pm %s: %s; want a ± of 0 to %g mm%s", c.unit, strict.Excerpt(cell.Text), float64(largestPM), strict.NumberHint(cell.Text))
		}
	}
	return float64(mm / wheel)
}

// figure reads a figure's cell.
func (r *rowReader) figure(c column, cell strict.Cell, pm float64) {
	head := strings.TrimSpace(c.name + " " + c.unit)
	if _, ok := strict.ParseNumber(cell.Text); !ok {
		hint := strict.NumberHint(cell.Text)
		if _, err := segments.ParseLength(cell.Text); err == nil {
			hint = ", without a unit: it stands above"
		}
		cell.Problem("%s: %s; want a number%s", head, strict.Excerpt(cell.Text), hint)
		return
	}
	if c.pm >= 0 {
		r.written(c, cell)
		return
	}
	if c.unit != "" && c.unit != "w" && r.Wheel.Diameter == 0 {
		if !r.noTyre {
			cell.Problem("%s: %s without a tyre; want one in the column %s, or lengths in w", head, cell.Text, tyreColumn)
		}
		r.noTyre = true
		return
	}
	pin, err := segments.ParsePin(c.figure, cell.Text+c.unit)
	if err == nil {
		err = pin.CheckBounds(r.Wheel.Diameter)
	}
	if err != nil {
		cell.Problem("%s: %v", c.name, err)
		return
	}
	switch c.figure.Info().Unit {
	case segments.AsRatio:
		pm = sheetRatioPM
	case segments.InDegrees:
		pm = sheetAnglePM
	}
	r.Figures[c.figure] = Value{Value: whole(pin.Value(r.Wheel.Diameter)), PM: whole(pm), State: Read}
}

// written reads a figure as readings are written: in the figure's own unit, with a ± of its own.
func (r *rowReader) written(c column, cell strict.Cell) {
	value, _ := strict.ParseNumber(cell.Text)
	pm, ok := strict.ParseNumber(r.cells[c.pm].Text)
	if !ok || pm < 0 {
		r.cells[c.pm].Problem("%s: %s; want a ± of 0 or more%s", r.columns[c.pm].name, strict.Excerpt(r.cells[c.pm].Text),
			strict.NumberHint(r.cells[c.pm].Text))
		return
	}
	v := Value{Value: value, PM: pm, State: Read}
	if lo, hi := possible(c.figure); !v.isPossible(c.figure) {
		cell.Problem("%s: %s; want %s to %s", c.name, cell.Text, amount(c.figure, lo), amount(c.figure, hi))
		return
	}
	r.Figures[c.figure] = v
}

// growing are pairs of figures of which the second is larger on every vehicle.
var growing = [][2]segments.Figure{
	{segments.Wheelbase, segments.Length}, {segments.Track, segments.Width},
	{segments.Sill, segments.Belt}, {segments.Belt, segments.Height}, {segments.Sill, segments.Height},
}

// exchanged reports figures that no vehicle has together.
func (r *rowReader) exchanged() {
	for _, pair := range growing {
		small, large := r.Figures[pair[0]], r.Figures[pair[1]]
		if small.State != Read || large.State != Read || small.Value-large.Value <= math.Hypot(small.PM, large.PM) {
			continue
		}
		c, cell := r.cell(pair[1].String())
		other, beside := r.cell(pair[0].String())
		cell.Problem("%s: %s, but %s is %s; want it larger; are the two exchanged?", strings.TrimSpace(c.name+" "+c.unit), cell.Text,
			strings.TrimSpace(other.name+" "+other.unit), beside.Text)
		return
	}
}

// contradictions says which figures that were read are not the sum of others that were.
func contradictions(r *Reading) (out []string) {
	var known estimates // of the parts, then of their sums
	read := func(f segments.Figure) { known[f] = measured(f, r.Figures[f].Value, max(r.Figures[f].PM, leastPM(f))) }
	for _, relation := range relations {
		sum := estimate{value: relation.plus + float64(relation.perRatio*r.tyreRatio()), known: true}
		for _, f := range relation.parts {
			if r.Figures[f].State == Read {
				read(f)
			}
			sum = sum.plus(1, known[f])
			sum.known = sum.known && known[f].known
		}
		whole := relation.whole
		known[whole] = sum
		if r.Figures[whole].State != Read {
			continue
		}
		read(whole)
		if off := known[whole].plus(-1, sum); sum.known && math.Abs(off.value) > 2*off.pm() {
			out = append(out, fmt.Sprintf("%s is %s, and follows as %s from %s", whole, amount(whole, r.Figures[whole].Value),
				amount(whole, sum.value), names(sum.from())))
		}
	}
	return out
}

// tyreRatio returns rear ÷ front tyre, 1 where it is not known.
func (r *Reading) tyreRatio() float64 {
	if r.Wheel.Diameter == 0 || r.RearWheel.Diameter == 0 {
		return 1
	}
	return float64(r.RearWheel.Diameter / r.Wheel.Diameter)
}
