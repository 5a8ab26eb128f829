package outline

import (
	"math"

	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/segments"
)

// sidePane is the side glass: one closed shape. Its last pane may reach past the figure's glass end, behind a pillar that stands on it.
type sidePane struct {
	line  []cubic
	split bool // that pillar is there
}

// sideGlass draws the side glass. Its rear edge begins at the profile's rake, and lies flatter where it would come out of the body. Where
// that does not help the upper edge sinks, and at last the glass ends ahead of its figure: a tail may be too short for it.
func (b *body) sideGlass() sidePane {
	const flatter, sinks, shorter = 24, 60, 100 // rounds
	end, rake, split := b.glassReach()
	var line []cubic
	for i := range shorter {
		line = b.glassAt(end-geom.Wheels(max(0, i-sinks))*.02, rake, geom.Wheels(min(max(0, i-flatter), sinks-flatter))*.008)
		if b.isOpen() || b.covers(line) {
			break
		}
		if rake = max(8, rake-1.5); split && end > b.GlassEnd()+.2 {
			end -= .01
		}
	}
	return sidePane{line, split}
}

// glassReach returns where the side glass ends and how its rear edge leans: at the figure, or behind a pillar there, a step ahead of the
// drawn rear glass and parallel to it.
func (b *body) glassReach() (end geom.Wheels, rake geom.Degrees, split bool) {
	s, figure := b.shape, b.GlassEnd()
	switch {
	case b.isOpen():
	case s.GlassTail > 0:
		return min(figure+s.GlassTail, b.foot.X-.2), s.GlassTailRake, true
	case s.QuarterLight > 0:
		low, high := b.BeltAt(figure), b.glassTop(0).On(figure).Y
		at := func(share float64) geom.Wheels {
			_, x := extentAt(b.polyline, low+geom.Wheels(share*float64(high-low)))
			return x
		}
		lean := max(0, (at(.2)-at(.75))/geom.Wheels(.55*float64(high-low))) // of the rear glass, x per unit of height
		end = at(.5) - s.QuarterLight + lean*(high-low)/2
		if end-figure >= s.QuarterLightRoom {
			return end, geom.Degrees(math.Atan2(1, float64(lean)) * 180 / math.Pi), true
		}
	}
	return figure, s.GlassRake, false
}

// glassAt draws the side glass up to end, with its rear edge at rake and its upper edge lowered by sink: the pillar's line and the roof,
// each moved inwards. The rear edge is shifted until the softened glass ends there.
func (b *body) glassAt(end geom.Wheels, rake geom.Degrees, sink geom.Wheels) []cubic {
	top, soft := b.glassTop(sink), b.shape.Fillets.Glass
	front, head := b.glassFront(), intersect(top, b.slope, b.glassAim())
	var glass []cubic
	shifted := end
	for range 8 {
		foot := b.onBelt(shifted)
		rear := glassCorner(top, head, foot, rake)
		if kick := b.shape.Kick; kick > 0 {
			foot = foot.Lerp(rear, min(.45, float64(kick/max(.05, rear.Y-foot.Y))))
		}
		lines := []quad{geom.Bowed(front, head, .006), top.Along(head.X, rear.X), geom.Bowed(rear, foot, .008)}
		fillets := soft[:]
		if b.shape.Kick > 0 {
			knee := b.onBelt(max(foot.X-b.shape.KickLength, head.X+.3))
			lines = append(lines, geom.Bowed(foot, knee, 0), geom.Bowed(knee, front, 0))
			fillets = []segments.Fillet{soft[0], soft[1], soft[2], {Before: .16, After: .16}, soft[3]}
		} else {
			lines = append(lines, geom.Bowed(foot, front, 0))
		}
		glass = geom.Blend(lines, fillets)
		miss := end - geom.BoundsOf(glass).Max.X
		if abs(miss) < 1e-9 {
			break
		}
		shifted += miss
	}
	return glass
}

// glassAim is the height over the front axle of the line along the glass's front edge, a pillar's width behind the A-pillar's.
func (b *body) glassAim() geom.Wheels {
	return b.PillarAim() - b.shape.PillarWidth/geom.Wheels(math.Cos(b.PillarRake().Radians()))
}

// glassFront returns the side glass's lower front corner, on the belt.
func (b *body) glassFront() point {
	return b.onBelt(geom.Wheels(float64(b.BeltAt(0)-b.glassAim()) / (b.slope - b.BeltRise().Tan())))
}

// glassTop is the side glass's upper edge, lowered by sink.
func (b *body) glassTop(sink geom.Wheels) parabola {
	const rounder = 1.1 // the glass curves a little more than the roof above it
	return parabola{Vertex: point{X: b.roof.Vertex.X, Y: b.Height() - b.shape.Rail - sink}, Bend: b.roof.Bend * rounder}
}

// glassHead returns the side glass's upper front corner.
func (b *body) glassHead() point { return intersect(b.glassTop(0), b.slope, b.glassAim()) }

// glassCorner returns the upper rear corner, where the rear edge rises from foot to the upper edge. In a short cabin the rear
// edge stands up to leave the upper one its length.
func glassCorner(top parabola, head, foot point, rake geom.Degrees) point {
	const leastTop geom.Wheels = .10
	rear := top.On(foot.X)
	if rake < 89.9 {
		slope := rake.Tan()
		rear = intersect(top, -slope, foot.Y+geom.Wheels(slope*float64(foot.X)))
	}
	if least := min(head.X+leastTop, foot.X); rear.X < least {
		return top.On(least)
	}
	return rear
}

// covers reports whether the body's line passes over the glass with a frame to spare. The rear corner is the figure's: where the body is
// thin above it, the frame is thin all round.
func (b *body) covers(glass []cubic) bool {
	const wide, thin geom.Wheels = .04, .004
	room := heightAt(b.polyline, b.GlassEnd()+geom.Wheels(.75*wide)) - b.BeltAt(b.GlassEnd())
	frame := max(thin, min(wide, room-thin))
	for _, p := range geom.Polyline(glass, chords/4) { // nothing slips between them
		if heightAt(b.polyline, p.X+geom.Wheels(.75*frame)) < p.Y+frame {
			return false
		}
	}
	return true
}

// pillars returns the edges of the pillars behind the A-pillar, from the belt to the glass's upper edge: those of the profile, and the one
// that stands on the glass end where a pane goes on behind it.
func (b *body) pillars(glass sidePane) layout.Path {
	const onEnd geom.Wheels = .06 // width of that pillar
	var path layout.Path
	edge := geom.Polyline(glass.line, chords)
	add := func(x geom.Wheels, lean float64) {
		low := b.onBelt(x)
		high := low
		for range 8 { // the upper edge is nearly level: this settles at once
			high.Y = heightAt(edge, high.X)
			high.X = low.X + geom.Wheels(lean*float64(high.Y-low.Y))
		}
		if high.Y > low.Y+.05 && low.X < geom.BoundsOf(glass.line).Max.X {
			path = path.Move(low).Line(high)
		}
	}
	for _, hint := range b.shape.Pillars {
		mid := b.pillarAt(hint.At)
		add(mid-hint.Width/2, hint.Tilt)
		add(mid+hint.Width/2, hint.Tilt)
	}
	if glass.split {
		lean := -1 / max(b.shape.QuarterPillarRake, 20).Tan()
		add(b.GlassEnd(), lean)
		add(b.GlassEnd()+onEnd, lean)
	}
	return path
}

// pillarAt returns the x a share of the way from the header to the end of the glass.
func (b *body) pillarAt(share float64) geom.Wheels {
	return b.header.X + geom.Wheels(share*float64(b.GlassEnd()-b.header.X))
}
