package draft

import (
	"hubrule/internal/geom"
	"hubrule/render"
)

// Distances in a table.
const (
	tablePitch geom.MM = 4.5
	tableGap   geom.MM = 4
	blockGap   geom.MM = 9
)

// Table is rows of words under a header row; the first column starts at its left edge, the others end at their right edge. It is set in as
// many blocks side by side as the page is wide.
type Table struct {
	spanners []Spanner
	head     []Word
	rows     [][]Word
	widths   []geom.MM
	blocks   int
	deep     int     // rows of the longest block
	pitch    geom.MM // of the rows
	gap      geom.MM // between columns
}

// Spanner is a word over several columns of a table, with a line under it that joins them. Where it stands over one column, or has no
// words, there is no line.
type Spanner struct {
	Word
	Columns int
}

// NewTable measures a table for the room across. It is set in so few blocks that each has at least three rows. Spanners, if there are any,
// stand over all columns from the left.
func NewTable(head []Word, rows [][]Word, across geom.MM, spanners ...Spanner) Table {
	t := Table{spanners: spanners, head: head, rows: rows, widths: make([]geom.MM, len(head)), pitch: tablePitch, gap: tableGap}
	for _, row := range append([][]Word{head}, rows...) {
		for i, w := range row {
			t.widths[i] = max(t.widths[i], w.Width())
		}
	}
	n := 0
	for _, s := range spanners {
		n += s.Columns
		t.widths[n-1] += max(0, s.Width()-t.across(n-s.Columns, n))
	}
	const least = 3
	t.blocks = max(1, min(int((across+blockGap)/(t.width()+blockGap)), (len(rows)+least-1)/least))
	t.deep = (len(rows) + t.blocks - 1) / t.blocks
	return t
}

// Filling returns the table in one block as wide as the room across, and as high as it allows, though rows no higher than most.
func (t Table) Filling(across, high, most geom.MM) Table {
	t.blocks, t.deep = 1, len(t.rows)
	t.gap += max(0, across-t.width()) / geom.MM(max(1, len(t.widths)-1))
	t.pitch = max(tablePitch, min(most, high/(t.Height()/t.pitch)))
	return t
}

// rowLine is how far below a row's top its line lies: as far under the baseline as over the next row's capitals.
func (t Table) rowLine() geom.MM { return 2.85 + (t.pitch-Small)/2 }

// width is that of one block.
func (t Table) width() geom.MM { return t.across(0, len(t.widths)) }

// across is the width of the columns from one to before another.
func (t Table) across(from, to int) geom.MM {
	out := t.gap * geom.MM(to-from-1)
	for _, w := range t.widths[from:to] {
		out += w
	}
	return out
}

// Height returns the height of the table in mm.
func (t Table) Height() geom.MM {
	if t.spanners != nil {
		return t.pitch * geom.MM(t.deep+2)
	}
	return t.pitch * geom.MM(t.deep+1)
}

// Draw sets the table with its upper left corner at x, y.
func (t Table) Draw(b *Surface, x, y geom.MM) {
	for block := 0; block*t.deep < len(t.rows); block++ {
		if off := b.Seams.After(x, t.width()); off+t.width() <= b.Space.Max.X {
			x = off
		}
		rows, top := t.rows[block*t.deep:min(len(t.rows), (block+1)*t.deep)], y
		if t.spanners != nil {
			t.drawSpanners(b, x, y)
			top += t.pitch
		}
		for i, row := range append([][]Word{t.head}, rows...) {
			for n, w := range row {
				t.write(b, w, n, x, top)
			}
			k := LineStyle{Hair, nil, Muted}
			if i == 0 {
				k = RuleLine()
			}
			b.Line(k.For("labels", ""), Pt(x, top+t.rowLine()), Pt(x+t.width(), top+t.rowLine()))
			top += t.pitch
		}
		x += t.width() + blockGap
	}
}

// drawSpanners writes the words over the header row of a block that begins at x.
func (t Table) drawSpanners(b *Surface, x, top geom.MM) {
	n := 0
	for _, s := range t.spanners {
		n += s.Columns
		t.write(b, s.Word, n-1, x, top)
		if s.Columns > 1 && s.Text != "" {
			to := x + t.across(0, n)
			b.Line(TickLine().For("labels", ""), Pt(to-t.across(n-s.Columns, n), top+t.rowLine()), Pt(to, top+t.rowLine()))
		}
	}
}

// write writes a word in column n of a block that begins at x.
func (t Table) write(b *Surface, w Word, n int, x, top geom.MM) {
	if w.Text == "" {
		return
	}
	if n == 0 {
		b.Write("labels", OneLine(w).TopAt(x, top, render.Start))
		return
	}
	b.Write("labels", OneLine(w).TopAt(x+t.across(0, n+1), top, render.End))
}
