package counting

import (
	"hubrule/internal/geom"
	"hubrule/render/draft"
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
	up := (space.Height() - r.TitleBlock - 3 - r.Above - r.Below) / geom.MM(r.Top)
	return min(across, up)
}

// Place places the plan in space with room r: in the middle across, and at a little over half of what is left upwards.
func (r Room) Place(space draft.Box, wheel, paperWidth geom.MM) (Place, error) {
	slack := space.Width() - r.Nose - r.Tail - geom.MM(geom.MM(r.To-r.From)*wheel)
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
	x := space.Min.X + slack/2 + r.Nose - geom.MM(geom.MM(r.From)*wheel)
	return Place{Origin: draft.Pt(x, y), Wheel: wheel}, nil
}

// RoadAhead is how far the ground line runs on ahead of the outermost guide at the nose.
const RoadAhead geom.MM = 6

// RoadStart returns the x of the page where the ground line of a full sheet begins.
func (d *Drawing) RoadStart() geom.MM {
	from, _ := GuideExtent(d.Plan)
	return d.X(from) - RoadAhead
}

// BelowGround is the room under the ground for rule, spans and two dimension lines.
const BelowGround geom.MM = 37

// LeastWheel is the smallest wheel on paper that is drawn at all.
const LeastWheel geom.MM = 10
