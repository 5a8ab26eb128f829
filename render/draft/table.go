package draft

import (
	"hubrule/internal/geom"
	"hubrule/render"
)

// Distances in a table.
const (
	tablePitch geom.MM = 4.5
	rowLine    geom.MM = 3.85 // below a row's top: as far under the baseline as over the next row's capitals
	tableGap   geom.MM = 4
	blockGap   geom.MM = 9
)

// Table is rows of words under a header row; the first column starts at its left edge, the others end at their right edge. It is set in as
// many blocks side by side as the page is wide.
type Table struct {
	head   []Word
	rows   [][]Word
	widths []geom.MM
	blocks int
	deep   int // rows of the longest block
}

// NewTable measures a table for the room across. It is set in so few blocks that each has at least three rows.
func NewTable(head []Word, rows [][]Word, across geom.MM) Table {
	t := Table{head: head, rows: rows, widths: make([]geom.MM, len(head))}
	for _, row := range append([][]Word{head}, rows...) {
		for i, w := range row {
			t.widths[i] = max(t.widths[i], w.Width())
		}
	}
	const least = 3
	t.blocks = max(1, min(int((across+blockGap)/(t.width()+blockGap)), (len(rows)+least-1)/least))
	t.deep = (len(rows) + t.blocks - 1) / t.blocks
	return t
}

// width is that of one block.
func (t Table) width() geom.MM {
	out := tableGap * geom.MM(len(t.widths)-1)
	for _, w := range t.widths {
		out += w
	}
	return out
}

// Height returns the height of the table in mm.
func (t Table) Height() geom.MM { return tablePitch * geom.MM(t.deep+1) }

// Draw sets the table with its upper left corner at x, y.
func (t Table) Draw(b *Surface, x, y geom.MM) {
	for block := 0; block*t.deep < len(t.rows); block++ {
		rows := t.rows[block*t.deep : min(len(t.rows), (block+1)*t.deep)]
		for i, row := range append([][]Word{t.head}, rows...) {
			top := y + tablePitch*geom.MM(i)
			at := x
			for n, w := range row {
				place, anchor := at, render.Start
				if n > 0 {
					place, anchor = at+t.widths[n], render.End
				}
				if w.Text != "" {
					b.Write("labels", OneLine(w).TopAt(place, top, anchor))
				}
				at += t.widths[n] + tableGap
			}
			k := LineStyle{Hair, nil, Muted}
			if i == 0 {
				k = RuleLine()
			}
			b.Line(k.For("labels", ""), Pt(x, top+rowLine), Pt(x+t.width(), top+rowLine))
		}
		x += t.width() + blockGap
	}
}
