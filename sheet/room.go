package sheet

import (
	"hubrule/internal/geom"
	"hubrule/render/draft"
)

// tight says which words found no room.
type tight string

func (t tight) Error() string { return "no room for " + string(t) }

// room is what a kind of sheet needs round the figure, in mm on the canvas.
type room struct {
	nose, tail   geom.MM // lanes beside the figure
	above, below geom.MM // above the guides, and below the ground
	strip        geom.MM
	blanks       geom.MM     // kept free at the page's top
	from, to     geom.Wheels // reach of the guides along the ground
	top          geom.Wheels
}

// reserve is the least room over the figure that sheets with blanks need; every sheet keeps it where the page is wide enough for three
// columns of blanks, so that all sheets of a segment register.
const (
	reserve     geom.MM = 51
	reserveFrom geom.MM = 330
)

// largest returns the widest wheel, in mm on the canvas, that leaves the room r.
func (r room) largest(space draft.Box) geom.MM {
	across := (space.Width() - r.nose - r.tail) / geom.MM(r.to-r.from)
	up := (space.Height() - r.strip - 3 - r.above - r.below) / geom.MM(r.top)
	return min(across, up)
}

// stand places the plan in space with room r: in the middle across, and at a little over half of what is left upwards.
func (r room) stand(space draft.Box, wheel, paperWidth geom.MM) (place, error) {
	slack := space.Width() - r.nose - r.tail - geom.MM(geom.MM(r.to-r.from)*wheel)
	const rounding = 1e-9
	if slack < -rounding {
		return place{}, tight("the width of the figure")
	}
	need := r.above + geom.MM(geom.MM(r.top)*wheel)
	lowest := space.Max.Y - r.strip - 3 - r.below
	left := lowest + 3 - space.Min.Y - need
	over := geom.MM(.55) * left
	if paperWidth > reserveFrom {
		over = max(over, reserve)
	}
	over = max(over, r.blanks)
	y := min(space.Min.Y+need+over, lowest)
	if y < space.Min.Y+need+r.blanks-rounding {
		return place{}, tight("the height of the figure")
	}
	x := space.Min.X + slack/2 + r.nose - geom.MM(geom.MM(r.from)*wheel)
	return place{origin: draft.Point{X: x, Y: y}, wheel: wheel}, nil
}

// roadAhead is how far the ground line runs on ahead of the outermost guide at the nose.
const roadAhead geom.MM = 6

// roadFrom returns the x of the page where the ground line of a full sheet begins.
func (d *drawing) roadFrom() geom.MM {
	from, _ := reachOf(d.plan)
	return d.x(from) - roadAhead
}
