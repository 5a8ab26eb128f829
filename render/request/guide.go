package request

import "slices"

// Guide is a layer of a sheet: one kind of construction help, or something around the drawing.
type Guide string

// Tile is the layer of what a tile has besides its part of the large sheet: marks to cut and glue by, and its title line.
const Tile Guide = "tile"

// Outside reports whether the layer's marks stand outside the window of a tile.
func (g Guide) Outside() bool { return g == Tile }

// views is a set of views.
type views uint8

const (
	inSide views = 1 << iota
	inFront
	inRear
	inTop
	inArrangement
	inPerspective
	inEnds = inFront | inRear
	inAll  = inSide | inEnds | inTop | inArrangement | inPerspective
)

// guides is the table of layers in paint order.
var guides = []struct {
	guide  Guide
	title  string // for people
	chosen views  // in which it is drawn and a user may choose it
}{
	{"photo", "Photograph", 0},
	{"frame", "Frame and centring marks", 0},
	{"grid", "Ground in wheels", inPerspective},
	{"horizon", "Horizon", inPerspective},
	{"vanishing", "Where parallels meet", inPerspective},
	{"carried", "Lines carried from view to view", 0},
	{"outline", "Outline", inAll},
	{"pillar", "A-pillar, its aim and band", inAll &^ inRear},
	{"roof", "Roof level", inSide | inEnds},
	{"belt", "Belt line", inSide | inEnds},
	{"sill", "Sill", inSide | inEnds},
	{"clearance", "Clearance", inSide},
	{"checks", "Ground angles", inSide},
	{"between", "Wheels between", inAll},
	{"stack", "Height in wheels", inSide},
	{"overhangs", "Overhangs, nose and tail", inSide},
	{"ratio", "Greenhouse to body side", inSide | inEnds},
	{"arches", "Wheel arches", inSide | inPerspective},
	{"lamps", "Lamps", inAll},
	{"glass", "End of the side glass", inSide},
	{"wheels", "Tyres and axle lines", inAll},
	{"ground", "Ground line", inSide | inEnds | inArrangement},
	{"ticks", "Rules", inSide | inEnds | inTop},
	{"sections", "Sections and centre line", inPerspective},
	{"box", "Enclosing box and its thirds", inPerspective},
	{"axis", "Axes of the ellipses", inPerspective},
	{"axles", "Axles", inPerspective},
	{"widths", "Widths", 0},
	{"heights", "Levels on the box", inPerspective},
	{"labels", "Labels", 0},
	{"legend", "Legend", 0},
	{"strip", "Strip", 0},
	{Tile, "Cut and glue marks, tile's title line", 0},
}

// Layers lists every layer in paint order.
func Layers() []Guide {
	out := make([]Guide, len(guides))
	for i, g := range guides {
		out[i] = g.guide
	}
	return out
}

// Guides lists the guides that a user may choose among, in paint order. All are drawn where none is chosen, except checks.
func Guides() []Guide { return guidesIn(inAll) }

// Guides lists those of the guides that a view draws.
func (v View) Guides() []Guide {
	return guidesIn(map[View]views{SideView: inSide, FrontView: inFront, RearView: inRear, TopView: inTop, ArrangementView: inArrangement,
		PerspectiveView: inPerspective}[v])
}

func guidesIn(v views) []Guide {
	var out []Guide
	for _, g := range guides {
		if g.chosen&v != 0 {
			out = append(out, g.guide)
		}
	}
	return out
}

// Title returns a layer's name for people.
func (g Guide) Title() string {
	for _, row := range guides {
		if row.guide == g {
			return row.title
		}
	}
	panic("request: no guide " + string(g))
}

// counted are the guides that are read, not drawn over or compared.
var counted = []Guide{"grid", "vanishing", "between", "stack", "ratio", "ticks", "heights"}

// On reports whether a kind of sheet can show the guide in a view.
func (g Guide) On(k Kind, v View) bool {
	switch {
	case !slices.Contains(v.Guides(), g), k == Steps, k == Demonstration, k == Spread:
		return false
	case k == Practice:
		return v == SideView && !slices.Contains([]Guide{"outline", "pillar", "ratio", "ticks"}, g)
	case k == Full, k == Answer:
		return true
	case k == Overlay && g == "checks":
		return false
	}
	return !slices.Contains(counted, g)
}

// UsuallyOn reports whether a kind of sheet shows the guide in a view where nothing is chosen.
func (g Guide) UsuallyOn(k Kind, v View) bool {
	usual := k.Guides()
	switch {
	case !g.On(k, v), g == "checks", usual != nil && !slices.Contains(usual, g):
		return false
	case g == "outline":
		return k.Outline() == OutlineOn || k == Trace && v != SideView
	case g == "arches", g == "lamps": // in perspective they are lines of the body
		return v != PerspectiveView || k != Answer
	}
	return true
}
