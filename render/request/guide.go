package request

// Guide is a layer of a sheet: one kind of construction help, or something around the drawing.
type Guide string

// Tile is the layer of what a tile has besides its part of the large sheet: marks to cut and glue by, and its strip.
const Tile Guide = "tile"

// Outside reports whether the layer's marks stand outside the window of a tile.
func (g Guide) Outside() bool { return g == Tile }

// guides is the table of layers in paint order.
var guides = []struct {
	guide  Guide
	title  string // for people
	chosen bool   // a user may choose it
}{
	{"frame", "Frame and centring marks", false},
	{"grid", "Ground in wheels", false},
	{"horizon", "Horizon", false},
	{"vanishing", "Where parallels meet", false},
	{"carried", "Lines carried from view to view", false},
	{"outline", "Outline", true},
	{"pillar", "A-pillar, its aim and band", true},
	{"roof", "Roof level", true},
	{"belt", "Belt line", true},
	{"sill", "Sill", true},
	{"clearance", "Clearance", true},
	{"checks", "Ground angles", true},
	{"between", "Wheels between", true},
	{"stack", "Height in wheels", true},
	{"overhangs", "Overhangs, nose and tail", true},
	{"ratio", "Greenhouse to body side", true},
	{"arches", "Wheel arches", true},
	{"lamps", "Lamps", true},
	{"glass", "End of the side glass", true},
	{"wheels", "Tyres and axle lines", true},
	{"ground", "Ground line", true},
	{"ticks", "Rules", true},
	{"sections", "Sections and centre line", false},
	{"box", "Enclosing box and its thirds", false},
	{"axis", "Axes of the ellipses", false},
	{"axles", "Axles", false},
	{"widths", "Widths", false},
	{"heights", "Levels on the box", false},
	{"labels", "Labels", false},
	{"strip", "Strip", false},
	{Tile, "Cut and glue marks, tile's strip", false},
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
func Guides() []Guide {
	var out []Guide
	for _, g := range guides {
		if g.chosen {
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
