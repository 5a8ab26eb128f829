package counting

import (
	"fmt"
	"hubrule/internal/geom"
	"hubrule/render"
	"hubrule/render/draft"
)

// Panels of a steps sheet: how many, how much of the width the sentence takes, and the room round the figure.
const (
	PanelCount                = 8
	sentenceMost      geom.MM = 60
	PanelGap          geom.MM = 4
	PanelTail         geom.MM = 9 // brackets and their numbers behind the figure
	PanelAbove        geom.MM = 2.5
	PanelBelow        geom.MM = 4
	LeastWheelInPanel geom.MM = 6
)

// Panels is how a page is divided for the steps: the wheel is the largest even one that all panels hold.
type Panels struct {
	columns       int
	Sentence      geom.MM // the width of a sentence
	Width, height geom.MM
	Wheel         geom.MM // on paper, true millimetres
}

// FindPanels divides the canvas into two columns or one, with sentences as narrow as the rows are tall enough for, whichever draws largest.
// largest returns the largest wheel on the canvas that a panel of some width and height beside its sentence has room for.
func FindPanels(c draft.Canvas, sentences [PanelCount]string, largest func(width, height geom.MM) geom.MM) Panels {
	var best Panels
	for columns := 1; columns <= 2; columns++ {
		for _, share := range []geom.MM{.19, .22, .26, .3, .36} {
			g := Panels{columns: columns, Width: c.Space.Width() / geom.MM(columns)}
			g.Sentence = min(sentenceMost, g.Width*share)
			g.height = (c.Space.Height() - draft.TitleBlockHeight - 2) / geom.MM(PanelCount/columns)
			if g.Wheel = c.FloorEven(largest(g.Width-g.Sentence, g.height)); g.Wheel > best.Wheel && g.fit(sentences) {
				best = g
			}
		}
	}
	return best
}

// Write writes the sentence of panel i, with a line over each new row, and returns the panel.
func (g Panels) Write(c draft.Canvas, fixed *draft.Surface, i int, sentence string) draft.Box {
	b := g.box(c.Space, i)
	if i > 0 && i%g.columns == 0 {
		fixed.Stroke(levelLine().For("strip", ""), draft.Pt(c.Space.Min.X, b.Min.Y), draft.Pt(c.Space.Max.X, b.Min.Y))
	}
	fixed.Write("strip", g.label(i, sentence).TopAt(b.Min.X, b.Min.Y+1, render.Start))
	return b
}

// fit reports whether every sentence keeps to its column and is no taller than its panel.
func (g Panels) fit(sentences [PanelCount]string) bool {
	for i, sentence := range sentences {
		if l := g.label(i, sentence); l.Height > g.height-1 || l.Width > g.Sentence {
			return false
		}
	}
	return true
}

// label is step i's number and sentence.
func (g Panels) label(i int, sentence string) draft.Label {
	number := []draft.Word{draft.Heading(fmt.Sprint(i+1), draft.Large)}
	return draft.NewLabel(append([][]draft.Word{number}, draft.Wrapped(sentence, g.Sentence)...)...)
}

// box returns panel i's place, in rows from the top left.
func (g Panels) box(space draft.Box, i int) draft.Box {
	at := space.Min.Add(draft.Pt(geom.MM(i%g.columns)*g.Width, geom.MM(i/g.columns)*g.height))
	return draft.Box{Min: at, Max: at.Add(draft.Pt(g.Width, g.height))}
}
