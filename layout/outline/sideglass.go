package outline

import (
	"math"

	"hubrule/internal/geom"
	"hubrule/layout"
)

// sideGlass draws the side glass. Its rear edge begins at the profile's rake: steeper where the pillar's
// head leaves too short an upper edge, flatter where it would come out of the body. Where that does not
// help the upper edge sinks. The glass always ends where the figure says.
func (b *body) sideGlass() []cubic {
	if b.isOpen() {
		return b.glassAt(b.shape.GlassRake, 0)
	}
	// The rear corner is the figure's: where the body is thin above it, the frame is thin all round.
	const wide, thin geom.Wheels = .04, .004
	room := heightAt(b.polyline, b.GlassEnd()+geom.Wheels(.75*wide)) - b.BeltAt(b.GlassEnd())
	frame := max(thin, min(wide, room-thin))
	var glass []cubic
	for sink := geom.Wheels(0); sink < .3; sink += .05 {
		for rake := b.shape.GlassRake; rake >= 8; rake -= 3 {
			if glass = b.glassAt(rake, sink); b.covers(glass, frame) {
				return glass
			}
		}
	}
	return glass
}

// glassAt draws the glass with its rear edge at rake and its upper edge lowered by sink: the pillar's line and the roof, each
// moved inwards. The rear edge is shifted until the softened glass ends where the figure says.
func (b *body) glassAt(rake geom.Degrees, sink geom.Wheels) []cubic {
	top := b.glassTop(sink)
	front, head := b.glassFront(), intersect(top, b.slope, b.glassAim())
	var glass []cubic
	end := b.GlassEnd()
	for range 8 {
		foot := b.onBelt(end)
		rear := glassCorner(top, head, foot, rake)
		glass = geom.Blend([]quad{
			geom.Bowed(front, head, .006),
			top.Along(head.X, rear.X),
			geom.Bowed(rear, foot, .01),
			geom.Bowed(foot, front, 0),
		}, b.shape.Fillets.Glass[:])
		miss := b.GlassEnd() - geom.BoundsOf(glass).Max.X
		if abs(miss) < 1e-9 {
			break
		}
		end += miss
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
	const leastTop geom.Wheels = .22
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

// covers reports whether the body's line passes over the glass with a frame to spare.
func (b *body) covers(glass []cubic, frame geom.Wheels) bool {
	for _, p := range geom.Polyline(glass, chords/4) { // nothing slips between them
		if heightAt(b.polyline, p.X+geom.Wheels(.75*frame)) < p.Y+frame {
			return false
		}
	}
	return true
}

// pillars returns the edges of the pillars behind the A-pillar, from the belt to the glass's upper edge.
func (b *body) pillars(glass []cubic) layout.Path {
	var path layout.Path
	edge := geom.Polyline(glass, chords)
	for _, hint := range b.shape.Pillars {
		mid := b.pillarAt(hint.At)
		for _, x := range [2]geom.Wheels{mid - hint.Width/2, mid + hint.Width/2} {
			low := b.onBelt(x)
			high := low
			for range 8 { // the upper edge is nearly level: this settles at once
				high.Y = heightAt(edge, high.X)
				high.X = low.X + geom.Wheels(hint.Tilt*float64(high.Y-low.Y))
			}
			if high.Y > low.Y+.05 && low.X < b.GlassEnd() {
				path = path.Move(low).Line(high)
			}
		}
	}
	return path
}

// pillarAt returns the x a share of the way from the header to the end of the glass.
func (b *body) pillarAt(share float64) geom.Wheels {
	return b.header.X + geom.Wheels(share*float64(b.GlassEnd()-b.header.X))
}
