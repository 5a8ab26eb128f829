package counting

import (
	"fmt"

	"hubrule/internal/geom"
	"hubrule/render"
	"hubrule/render/draft"
	"hubrule/render/request"
)

// NoRoom is the error when words find no room; it names them.
type NoRoom string

// Error names the words.
func (t NoRoom) Error() string { return "no room for " + string(t) }

// Room is what a kind of sheet needs round the figure, in mm on the canvas.
type Room struct {
	Nose, Tail   geom.MM // lanes beside the figure
	Above, Below geom.MM // above the guides, and below the ground
	TitleBlock   geom.MM
	Blanks       geom.MM     // kept free at the page's top
	From, To     geom.Wheels // reach of the guides along the ground
	Top          geom.Wheels
	// Words that stand ahead of one x of the plan need this much, over the guides that reach further.
	WordsFrom geom.Wheels
	Words     geom.MM
}

// ahead returns how much room the guides and words ahead of the front axle need at a wheel.
func (r Room) ahead(wheel geom.MM) geom.MM {
	return max(r.Nose-geom.MM(geom.MM(r.From)*wheel), r.Words-geom.MM(geom.MM(r.WordsFrom)*wheel))
}

// reserve is the least room over the figure that sheets with blanks need; every sheet keeps it where the page is wide enough for three
// columns of blanks, so that all sheets of a segment register.
const (
	reserve     geom.MM = 51
	reserveFrom geom.MM = 330
)

// LargestWheel returns the widest wheel, in mm on the canvas, that leaves the room r.
func (r Room) LargestWheel(space draft.Box) geom.MM {
	across := (space.Width() - r.Nose - r.Tail) / geom.MM(r.To-r.From)
	if r.Words > 0 {
		across = min(across, (space.Width()-r.Words-r.Tail)/geom.MM(r.To-r.WordsFrom))
	}
	up := (space.Height() - r.TitleBlock - 3 - r.Above - r.Below) / geom.MM(r.Top)
	return min(across, up)
}

// Place places the plan in space with room r: in the middle across, and at a little over half of what is left upwards.
func (r Room) Place(space draft.Box, wheel, paperWidth geom.MM) (Place, error) {
	slack := space.Width() - r.ahead(wheel) - r.Tail - geom.MM(geom.MM(r.To)*wheel)
	const rounding = 1e-9
	if slack < -rounding {
		return Place{}, NoRoom("the width of the figure")
	}
	need := r.Above + geom.MM(geom.MM(r.Top)*wheel)
	lowest := space.Max.Y - r.TitleBlock - 3 - r.Below
	left := lowest + 3 - space.Min.Y - need
	over := geom.MM(.55) * left
	if paperWidth > reserveFrom {
		over = max(over, reserve)
	}
	over = max(over, r.Blanks)
	y := min(space.Min.Y+need+over, lowest)
	if y < space.Min.Y+need+r.Blanks-rounding {
		return Place{}, NoRoom("the height of the figure")
	}
	x := space.Min.X + slack/2 + r.ahead(wheel)
	return Place{Origin: draft.Pt(x, y), Wheel: wheel}, nil
}

// RoadAhead is how far the ground line runs on ahead of the outermost guide at the nose.
const RoadAhead geom.MM = 3

// RoadStart returns the x of the page where the ground line of a full sheet begins.
func (d *Drawing) RoadStart() geom.MM {
	from, _ := d.GuideExtent()
	return d.X(from) - RoadAhead
}

// BelowGround is the room under the ground for rule, intervals and two dimension lines.
const BelowGround geom.MM = 37

// LeastWheel is the smallest wheel on paper that is drawn at all.
const LeastWheel geom.MM = 10

// Panels of a steps sheet: how many, how much of the width the sentence takes, and the room round the figure.
const (
	PanelCount                = request.StepCount
	sentenceMost      geom.MM = 60
	PanelGap          geom.MM = 4
	PanelTail         geom.MM = 9 // brackets and their numbers behind the figure
	PanelAbove        geom.MM = 2.5
	PanelBelow        geom.MM = 4
	leastWheelInPanel geom.MM = 6
)

// Panels is how a page is divided for the steps: the wheel is the largest even one that all panels hold.
type Panels struct {
	columns       int
	sentence      geom.MM // the width of a sentence
	width, height geom.MM
	Wheel         geom.MM // on paper, true millimetres
}

// FindPanels divides the canvas into two columns or one, with sentences as narrow as the rows are tall enough for, whichever draws largest.
// largest returns the largest wheel on the canvas that a panel of some width and height beside its sentence has room for. The error says
// that there is no room.
func FindPanels(c draft.Canvas, sentences [PanelCount]string, largest func(width, height geom.MM) geom.MM) (Panels, error) {
	var best Panels
	for columns := 1; columns <= 2; columns++ {
		for _, share := range []geom.MM{.19, .22, .26, .3, .36} {
			g := Panels{columns: columns, width: c.Space.Width() / geom.MM(columns)}
			g.sentence = min(sentenceMost, g.width*share)
			g.height = (c.Space.Height() - draft.TitleBlockHeight - 2) / geom.MM(PanelCount/columns)
			if g.Wheel = c.FloorEven(largest(g.width-g.sentence, g.height)); g.Wheel > best.Wheel && g.fit(sentences) {
				best = g
			}
		}
	}
	if best.Wheel < leastWheelInPanel {
		return best, NoRoom("eight panels")
	}
	return best, nil
}

// underRule is how far a panel's number stands under the line over its row: judged by eye.
const underRule geom.MM = 2

// Write writes the sentence of panel i, with a line over each new row, and returns where its figure stands. The page is mirrored at the
// end where the vehicle faces right: the figure has to come back to its own sentence.
func (g Panels) Write(o Page, i int, sentence string, facing request.Facing) draft.Box {
	c, fixed := o.Canvas, o.Fixed
	b := g.box(c.Space, i)
	if i > 0 && i%g.columns == 0 {
		fixed.Stroke(levelLine().For("strip", ""), draft.Pt(c.Space.Min.X, b.Min.Y), draft.Pt(c.Space.Max.X, b.Min.Y))
	}
	fixed.Write("strip", g.label(i, sentence).TopAt(b.Min.X, b.Min.Y+underRule, render.Start))
	b.Min.X, b.Max.X = b.Min.X+g.sentence+PanelGap, b.Max.X-PanelGap
	if facing == request.Right {
		twice := c.Space.Min.X + c.Space.Max.X
		b.Min.X, b.Max.X = twice-b.Max.X, twice-b.Min.X
	}
	return b
}

// fit reports whether every sentence keeps to its column and is no taller than its panel.
func (g Panels) fit(sentences [PanelCount]string) bool {
	for i, sentence := range sentences {
		if l := g.label(i, sentence); l.Height > g.height-underRule || l.Width > g.sentence {
			return false
		}
	}
	return true
}

// label is step i's number and sentence.
func (g Panels) label(i int, sentence string) draft.Label {
	number := []draft.Word{draft.Heading(fmt.Sprint(i+1), draft.Large)}
	return draft.NewLabel(append([][]draft.Word{number}, draft.Wrapped(draft.Name(sentence), g.sentence)...)...)
}

// box returns panel i's place, in rows from the top left.
func (g Panels) box(space draft.Box, i int) draft.Box {
	at := space.Min.Add(draft.Pt(geom.MM(i%g.columns)*g.width, geom.MM(i/g.columns)*g.height))
	return draft.Box{Min: at, Max: at.Add(draft.Pt(g.width, g.height))}
}
