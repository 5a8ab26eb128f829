package draft

import (
	"slices"

	"hubrule/internal/geom"
	"hubrule/internal/slice"
)

// Zone is a strip of a page, from lo to hi in mm.
type Zone struct{ Lo, Hi geom.MM }

// Seams are the strips of a large sheet where its tiles overlap, upright and level ones, in ascending order. Words keep off them, so
// that each stands whole on one tile.
type Seams struct{ X, Y []Zone }

// Clear reports whether b lies off all seams.
func (s Seams) Clear(b Box) bool {
	hits := func(lo, hi geom.MM) func(Zone) bool { return func(z Zone) bool { return lo < z.Hi && hi > z.Lo } }
	return !slices.ContainsFunc(s.X, hits(b.Min.X, b.Max.X)) && !slices.ContainsFunc(s.Y, hits(b.Min.Y, b.Max.Y))
}

// After returns the least x, not before the one given, at which a block of some width lies off the upright seams.
func (s Seams) After(x, width geom.MM) geom.MM {
	for _, z := range s.X {
		if x < z.Hi && x+width > z.Lo {
			x = z.Hi
		}
	}
	return x
}

// mirrored returns the seams of a page that is turned about the upright x = axis.
func (s Seams) mirrored(axis geom.MM) Seams {
	out := slice.Map(s.X, func(z Zone) Zone { return Zone{2*axis - z.Hi, 2*axis - z.Lo} })
	slices.Reverse(out)
	return Seams{out, s.Y}
}

// LaneAcross returns a lane along x from one place to another, with the least gap between labels, off the seams.
func (b *Surface) LaneAcross(lo, hi, gap geom.MM) Lane { return Lane{lo, hi, gap, b.Seams.X} }

// LaneDown returns a lane along y from one place to another, with the least gap between labels, off the seams.
func (b *Surface) LaneDown(lo, hi, gap geom.MM) Lane { return Lane{lo, hi, gap, b.Seams.Y} }

// OffSeams returns a label at the nearest place off the seams: words on a level line along it, others up or down.
func (b *Surface) OffSeams(l PlacedLabel) PlacedLabel {
	box := l.Box()
	l.X += off(b.Seams.X, box.Min.X, box.Max.X)
	l.Top += off(b.Seams.Y, box.Min.Y, box.Max.Y)
	return l
}

// off returns how far to move what reaches from lo to hi off the zones, the shorter way off each.
func off(zones []Zone, lo, hi geom.MM) (by geom.MM) {
	for _, z := range zones {
		switch {
		case hi <= z.Lo || lo >= z.Hi:
		case hi-z.Lo < z.Hi-lo:
			by -= hi - z.Lo
		default:
			by += z.Hi - lo
		}
	}
	return by
}
