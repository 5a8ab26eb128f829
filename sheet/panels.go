package sheet

import (
	"fmt"
	"hubrule/internal/geom"
	"hubrule/render"
	"hubrule/render/draft"
)

// Panels of a steps sheet: how many, how much of the width the sentence takes, and the room round the figure.
const (
	panelCount                = 8
	sentenceMost      geom.MM = 60
	panelGap          geom.MM = 4
	panelTail         geom.MM = 9 // brackets and their numbers behind the figure
	panelAbove        geom.MM = 2.5
	panelBelow        geom.MM = 4
	leastWheelInPanel geom.MM = 6
)

// panels is how a page is divided for the steps: the wheel is the largest even one that all panels hold.
type panels struct {
	columns    int
	sentence   geom.MM // the width of a sentence
	wide, high geom.MM
	wheel      geom.MM // on paper, true millimetres
}

// findPanels divides the canvas into two columns or one, with sentences as narrow as the rows are tall enough for, whichever draws largest.
// largest returns the largest wheel on the canvas that a panel of some width and height beside its sentence has room for.
func findPanels(c draft.Canvas, sentences [panelCount]string, largest func(width, height geom.MM) geom.MM) panels {
	var best panels
	for columns := 1; columns <= 2; columns++ {
		for _, share := range []geom.MM{.19, .22, .26, .3, .36} {
			g := panels{columns: columns, wide: c.Space.Width() / geom.MM(columns)}
			g.sentence = min(sentenceMost, g.wide*share)
			g.high = (c.Space.Height() - draft.StripHeight - 2) / geom.MM(panelCount/columns)
			if g.wheel = c.EvenBelow(largest(g.wide-g.sentence, g.high)); g.wheel > best.wheel && g.hold(sentences) {
				best = g
			}
		}
	}
	return best
}

// write writes the sentence of panel i, with a line over each new row, and returns the panel.
func (g panels) write(c draft.Canvas, fixed *draft.Board, i int, sentence string) draft.Box {
	b := g.box(c.Space, i)
	if i > 0 && i%g.columns == 0 {
		fixed.Hairline("strip", "", levelLine(), draft.Point{X: c.Space.Min.X, Y: b.Min.Y}, draft.Point{X: c.Space.Max.X, Y: b.Min.Y})
	}
	fixed.Write("strip", g.words(i, sentence), b.Min.X, b.Min.Y+1, render.Start)
	return b
}

// hold reports whether every sentence keeps to its column and is no taller than its panel.
func (g panels) hold(sentences [panelCount]string) bool {
	for i, sentence := range sentences {
		if l := g.words(i, sentence); l.Height > g.high-1 || l.Width > g.sentence {
			return false
		}
	}
	return true
}

// words is step i's number and sentence.
func (g panels) words(i int, sentence string) draft.Label {
	return draft.NewLabel(append([][]draft.Word{{{Text: fmt.Sprint(i + 1), Height: draft.Large, Weight: render.SemiBold, Role: draft.Words}}}, draft.Wrapped(sentence, g.sentence)...)...)
}

// box returns panel i's place, in rows from the top left.
func (g panels) box(space draft.Box, i int) draft.Box {
	at := space.Min.Add(draft.Point{X: geom.MM(i%g.columns) * g.wide, Y: geom.MM(i/g.columns) * g.high})
	return draft.Box{Min: at, Max: at.Add(draft.Point{X: g.wide, Y: g.high})}
}
