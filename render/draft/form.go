package draft

import (
	"hubrule/internal/geom"
	"hubrule/render"
)

// The lines for a name and a date.
const (
	NameLine geom.MM = 56
	dateLine geom.MM = 26
)

// Blank is one numbered line of a practice sheet: what to count, the answer, and the range that counts as right.
type Blank struct {
	Name          string
	Value, Lo, Hi string
}

// Where the blanks stand: the heading and its sentence on top, then rows.
const (
	firstRow    geom.MM = 15 // top of the first row below the space's top
	rowPitch    geom.MM = 8
	numberWidth geom.MM = 7
	ruleLength  geom.MM = 17
	columnGap   geom.MM = 3
)

// BlankGrid is the blanks' layout on one page: as many columns as their words leave room for.
type BlankGrid struct {
	count, columns int
	names, width   geom.MM // the widest name, and a whole column
	need           geom.MM // of a column
}

// NewBlankGrid lays out blanks in a space, in mm, in at most three columns.
func NewBlankGrid(list []Blank, space Box) BlankGrid {
	g := BlankGrid{count: len(list), columns: 1}
	var ranges geom.MM
	for _, b := range list {
		g.names, ranges = max(g.names, Name(b.Name).Width()), max(ranges, b.bounds().Width())
	}
	g.need = numberWidth + g.names + 3 + ruleLength + 2 + ranges + columnGap
	for g.columns < 3 && geom.MM(g.columns+1)*g.need <= space.Width()+columnGap {
		g.columns++
	}
	g.width = space.Width() / geom.MM(g.columns)
	return g
}

// rows is how many blanks stand in the longest column.
func (g BlankGrid) rows() int { return (g.count + g.columns - 1) / g.columns }

// Height returns how much of the page's top the blanks take, with the gap below them.
func (g BlankGrid) Height() geom.MM { return firstRow + rowPitch*geom.MM(g.rows()) + 1 }

// bounds is the range that counts as right.
func (b Blank) bounds() Word { return Note("(" + b.Lo + " to " + b.Hi + ")") }

// Form is what stands over a practice or an answer sheet.
type Form struct {
	Heading, Sentence string
	Filled            bool
	Blanks            []Blank
}

// Write writes the sheet's blanks on the fixed surface.
func (s Form) Write(b *Surface) {
	at, width := b.Space.Min, b.Space.Width()
	head := NewLabel([]Word{Heading(s.Heading, Large)}, []Word{Truncated(Name(s.Sentence), width)})
	b.Write("strip", head.TopAt(b.Seams.After(at.X, head.Width), at.Y, render.Start))
	if !s.Filled { // lines that the student signs on
		for _, f := range SignatureFields(b.Space) {
			b.Line(LeaderLine().For("strip", ""), f.From, f.To)
			b.Write("strip", OneLine(Note(f.What)).BaselineAt(f.From.X-1.5, f.From.Y-.8, render.End))
		}
	}
	g := NewBlankGrid(s.Blanks, b.Space)
	for i, k := range s.Blanks {
		x, base := b.Seams.After(at.X+geom.MM(i/g.rows())*g.width, g.need), at.Y+firstRow+rowPitch*geom.MM(i%g.rows())+4.2
		put := func(w Word, x geom.MM) { b.Write("strip", OneLine(w).BaselineAt(x, base, render.Start)) }
		put(Heading(FormatCount(float64(i+1)), Small), x)
		put(Name(k.Name), x+numberWidth)
		rule := x + numberWidth + g.names + 3
		b.Line(LeaderLine().For("strip", ""), Pt(rule, base+1.6), Pt(rule+ruleLength, base+1.6))
		if s.Filled {
			put(Count(k.Value), rule+1)
			put(k.bounds(), rule+ruleLength+2)
		}
	}
}

// signatureField is a line that the student writes on.
type signatureField struct {
	What     string
	From, To Point
}

// SignatureFields lays out the lines for name and date in a space, from their end on the baseline of the heading leftwards.
func SignatureFields(space Box) []signatureField {
	end := Pt(space.Max.X, space.Min.Y+OneLine(Heading("Practice", Large)).Baselines[0]+.8)
	date := signatureField{"date", end.Sub(Pt(dateLine, 0)), end}
	end.X = date.From.X - 1.5 - OneLine(Note("date")).Width - 5
	return []signatureField{date, {"name", end.Sub(Pt(NameLine, 0)), end}}
}
