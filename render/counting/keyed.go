package counting

import (
	"slices"

	"hubrule/internal/geom"
	"hubrule/render"
	"hubrule/render/draft"
)

// letter is what stands for row i of the table in the drawing.
func letter(i int) draft.Word { return draft.Heading(string(rune('a'+i)), draft.Small) }

// Keyed returns l, or where the words stand in a table the letter under which the table has it.
func (d *Drawing) Keyed(l draft.Label) draft.Label {
	if d.Labels.ValuesOnly {
		return l.Values()
	}
	if !d.Labels.Keyed {
		return l
	}
	d.Table = append(d.Table, l)
	return draft.OneLine(letter(len(d.Table) - 1))
}

// SizeOf returns a label as large as what stands for l in the drawing.
func (d *Drawing) SizeOf(l draft.Label) draft.Label {
	if d.Labels.ValuesOnly {
		return l.Values()
	}
	if d.Labels.Keyed {
		return draft.OneLine(letter('m' - 'a')) // the widest
	}
	return l
}

// Distances in the table of letters, in mm.
const (
	keyedPitch  geom.MM = 4.6
	keyedIndent geom.MM = 4.5
	keyedGap    geom.MM = 7 // between columns
)

// onOneLine is a label's lines one after the other, in the lettering of words.
func onOneLine(l draft.Label) draft.Label {
	var out []draft.Word
	for _, line := range l.Lines {
		if len(out) > 0 {
			join := ", "
			if last := out[len(out)-1]; last == draft.Name(last.Text) { // the next line goes on with it
				join = " "
			}
			out = append(out, draft.Note(join))
		}
		for _, w := range line {
			w.Height = draft.Small
			out = append(out, w)
		}
	}
	return draft.NewLabel(out)
}

// keyedColumns divides labels into as many columns as stand side by side in a width, each as wide as its own words.
func keyedColumns(labels []draft.Label, across geom.MM) (rows int, widths []geom.MM) {
	for columns := len(labels); columns > 0; columns-- {
		rows, widths = (len(labels)+columns-1)/columns, nil
		total := -keyedGap
		for column := range slices.Chunk(labels, rows) {
			var widest geom.MM
			for _, l := range column {
				widest = max(widest, keyedIndent+onOneLine(l).Width)
			}
			widths, total = append(widths, widest), total+widest+keyedGap
		}
		if total <= across {
			break
		}
	}
	return rows, widths
}

// KeyedHeight returns how high the table of some labels is in a space.
func KeyedHeight(labels []draft.Label, space draft.Box) geom.MM {
	rows, _ := keyedColumns(labels, space.Width())
	return keyedPitch * geom.MM(rows)
}

// WriteTable writes what the letters stand for over the title block, in columns.
func (d *Drawing) WriteTable(b *draft.Surface) {
	rows, widths := keyedColumns(d.Table, b.Space.Width())
	x, top := b.Space.Min.X, b.Space.Max.Y-draft.TitleBlockHeight-3-keyedPitch*geom.MM(rows)
	for i, l := range d.Table {
		y := top + keyedPitch*geom.MM(i%rows)
		b.Write("labels", draft.OneLine(letter(i)).TopAt(x, y, render.Start))
		b.Write("labels", onOneLine(l).TopAt(x+keyedIndent, y, render.Start))
		if (i+1)%rows == 0 {
			x += widths[i/rows] + keyedGap
		}
	}
}
