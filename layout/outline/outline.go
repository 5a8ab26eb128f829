// Package outline draws the body's lines over a plan: the upper line, the arches, the side glass, the
// lamps and the shut lines. It works in plan space and knows no paper; docs/outline.md explains the construction.
// Lengths, shares and angles of shape that stand in its code, and nowhere as a source, are judged by eye.
package outline

import (
	"math"
	"slices"

	"hubrule/internal/geom"
	"hubrule/layout"
)

type (
	point    = layout.Point
	quad     = geom.Quad[geom.Wheels]
	cubic    = geom.Cubic[geom.Wheels]
	parabola = geom.Parabola[geom.Wheels]
	spline   = geom.Spline[geom.Wheels]
)

// LineKind says how a line of the outline is painted.
type LineKind uint8

// The kinds of lines: the first three are closed and may be filled.
const (
	Body     LineKind = iota // the body's own line
	Glass                    // side glass
	Lamp                     // a lamp's lens
	Hairline                 // a hint inside the body
	Dashed                   // not there now: the roof of an open car
)

// Line is one named line of the outline. A path may hold several runs.
type Line struct {
	Name string
	Kind LineKind
	Path layout.Path
}

// Outline is the body drawn over a plan, with the places that other views of the vehicle stand on: every line end comes from a
// figure, nothing is freehand. It lives in plan space and is rounded to 1e-6 w. Corners are the theoretical ones, before they are softened.
type Outline struct {
	Lines []Line // in paint order; "body" is first
	// Upper is the body's line from the lip of the front arch over nose, roof and tail to the lip of the rear arch.
	Upper []geom.Cubic[geom.Wheels]

	// ScreenEdge is the windscreen's side edge in the side view: the A-pillar's line up from the cowl, then its turn into Upper.
	ScreenEdge []geom.Cubic[geom.Wheels]

	Cowl, RoofEnd         layout.Point // the screen's foot on the centre line; end of the roof
	SillFront, SillRear   layout.Point // ends of the lower edge between the arches
	FrontArch, RearArch   Arch
	CockpitEnd            layout.Point          // open
	Mirror                geom.Box[geom.Wheels] // the door mirror
	RearCladding          [2]layout.Point       // ends of the upper edge of a clad vehicle's rear bumper: on the silhouette, and at the arch
	Spoiler               [2]layout.Point       // ends of its edge: on the silhouette, and on the side; zero without one
	Rails                 [2]geom.Wheels        // ends of the roof rails; zero without them
	Seats                 layout.Path           // open: the seats down to below the belt; the line of that name shows what is seen of them
	FrontLamp, RearLamp   Lens
	FrontBumper           [2]layout.Point // line between bumper and body: on the silhouette, and at the arch or short of it
	RearBumper            [2]layout.Point
	FrontShelf, RearShelf [2]geom.Wheels // heights between which the silhouette steps back from the bumper
	EdgeAt, DeckAt        float64        // positions on Upper of the corners at the bonnet's edge and at the tail's upper edge
}

// Lens holds the corners of a lamp's lens: the outer ones lie on the silhouette, the inner ones on the side.
type Lens struct{ LowOuter, HighOuter, LowInner, HighInner layout.Point }

// Line returns the path of the line called name, nil where this vehicle has none.
func (o Outline) Line(name string) layout.Path {
	for _, l := range o.Lines {
		if l.Name == name {
			return l.Path
		}
	}
	return nil
}

// SkinAt returns the x of the silhouette at height y, at the nose or at the tail: at most that of the corners at their upper edges.
func (o Outline) SkinAt(y geom.Wheels, front bool) geom.Wheels {
	upper := spline(o.Upper)
	over := func(at, _ point) bool { return at.Y >= y }
	if front {
		return upper.At(upper.Find(0, math.Floor(o.EdgeAt)+1, over)).X
	}
	return upper.At(upper.Find(float64(len(upper)), math.Floor(o.DeckAt), over)).X
}

// Of draws the body over p.
func Of(p layout.Plan) Outline {
	b := drawBody(p)
	front, rear := b.frontArch(), b.rearArch()
	frontLens, rearLens := b.frontLens(), b.rearLens()
	o := Outline{
		Lines: b.allLines(frontLens, rearLens), Upper: b.upper,
		ScreenEdge: b.screenEdge(), Cowl: quantise(b.bonnet[2]), RoofEnd: quantise(b.roofEnd(b.foot)),
		SillFront: quantise(front.at(front.From)), SillRear: quantise(rear.at(rear.To)),
		FrontArch: front, RearArch: rear,
		Mirror: b.mirror(), Spoiler: b.spoiler(), Rails: b.rails(), RearCladding: b.rearCladding(),
		FrontLamp: frontLens.corners(), RearLamp: rearLens.corners(),
		FrontShelf: [2]geom.Wheels{b.bumper[2].Y, b.faceFoot.Y}, RearShelf: [2]geom.Wheels{b.rearBumper[0].Y, b.panelFoot.Y},
		EdgeAt: b.corners[b.edgeCorner], DeckAt: b.corners[b.deckCorner],
	}
	o.FrontBumper, o.RearBumper = b.bumperEnds(frontLens)
	if b.isOpen() {
		o.CockpitEnd, o.Seats = quantise(b.cockpitEnd()), b.seats(seatBelow)
	}
	for _, run := range [2][]cubic{o.Upper, o.ScreenEdge} {
		for i, c := range run {
			run[i] = cubic{quantise(c[0]), quantise(c[1]), quantise(c[2]), quantise(c[3])}
		}
	}
	for _, l := range o.Lines {
		for i, s := range l.Path {
			s.C1, s.C2, s.To, s.R = quantise(s.C1), quantise(s.C2), quantise(s.To), layout.Quantise(s.R)
			l.Path[i] = s
		}
	}
	return o
}

func quantise(p point) point { return point{X: layout.Quantise(p.X), Y: layout.Quantise(p.Y)} }

// allLines returns the lines that this vehicle has, before rounding.
func (b *body) allLines(front, rear lens) []Line {
	glass := b.sideGlass()
	cabin := []Line{{"glass", Glass, closedPath(glass.line)}, {"pillars", Hairline, b.pillars(glass)}}
	if b.isOpen() {
		cabin = []Line{{"seats", Hairline, b.seats(0)}, {"glass-up", Dashed, closedPath(glass.line)}, {"roof-up", Dashed, openPath(b.roofUp)}}
	}
	lines := slices.Concat([]Line{{"body", Body, b.closed()}, {"cladding", Hairline, b.cladding()}, {"screen", Glass, b.windscreen()}}, cabin,
		[]Line{
			{"lamp-front", Lamp, front.path}, {"lamp-rear", Lamp, rear.path}, {"bumpers", Hairline, b.bumpers(front)},
			{"shoulder", Hairline, b.shoulder(rear)}, {"rocker", Hairline, b.rocker()}, {"doors", Hairline, b.doors()},
			{"slide", Hairline, b.slide(rear)}, {"intake", Hairline, b.intake()},
			{"spoiler", Hairline, b.spoilerEdge()}, {"rails", Hairline, b.railsEdge()},
			{"cladding-rear", Hairline, chord(b.rearCladding())},
			{"opening", Hairline, b.opening(rear)},
		})
	return slices.DeleteFunc(lines, func(l Line) bool { return len(l.Path) == 0 })
}

// openPath returns a run of cubics as an open path.
func openPath(run []cubic) layout.Path {
	path := layout.Path{}.Move(run[0][0])
	for _, c := range run {
		path = path.Curve(c[1], c[2], c[3])
	}
	return path
}

// closedPath returns a run of cubics as a closed path.
func closedPath(run []cubic) layout.Path { return openPath(run).Close() }

// chords is how many chords of each cubic stand for it: within a few 1e-4 w, enough for what keeps its distance from it.
const chords = 24

// heightAt returns the greatest height of the polyline over x, −1 where it does not reach x.
func heightAt(line []point, x geom.Wheels) geom.Wheels {
	best := geom.Wheels(-1)
	for i := 1; i < len(line); i++ {
		a, b := line[i-1], line[i]
		if (a.X-x)*(b.X-x) <= 0 && a.X != b.X {
			best = max(best, a.Lerp(b, float64((x-a.X)/(b.X-a.X))).Y)
		}
	}
	return best
}

// extentAt returns the least and the greatest x of the polyline at height y; a height it does not reach gives the nearest end's.
func extentAt(line []point, y geom.Wheels) (front, rear geom.Wheels) {
	front, rear = geom.Wheels(math.Inf(1)), geom.Wheels(math.Inf(-1))
	for i := 1; i < len(line); i++ {
		a, b := line[i-1], line[i]
		if (a.Y-y)*(b.Y-y) <= 0 && a.Y != b.Y {
			x := a.Lerp(b, float64((y-a.Y)/(b.Y-a.Y))).X
			front, rear = min(front, x), max(rear, x)
		}
	}
	if front > rear {
		return line[0].X, line[len(line)-1].X
	}
	return front, rear
}
