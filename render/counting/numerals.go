package counting

import (
	"fmt"
	"math"

	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/render"
	"hubrule/render/draft"
)

// Offset is a place for a numeral near the centre of a counted wheel, in wheels.
type Offset struct{ Dx, Dy float64 }

// grid is the distance of the places that are tried, in wheels.
const gridStep = .05

// high is the grid's half height, in twentieths.
const gridRows = 8

// Search is where a numeral may stand: the wanted place first, then outwards on a grid of a twentieth of a wheel.
type Search struct {
	Wanted  Offset
	Within  float64     // of the wheel's centre; 0: anywhere on the grid
	Wide    int         // the grid's half width, in twentieths
	ceiling geom.Wheels // its top stays below this height; 0: no ceiling
}

// Numeral writes l at the free spot nearest to the wanted one and reports whether there was one.
func (d *Drawing) Numeral(l draft.Label, c layout.Point, s Search) bool {
	best, found := math.Inf(1), draft.Point{}
	// No box that is tried below reaches further than this.
	centre := d.OnPage(c)
	across := d.MM(geom.Wheels(max(float64(s.Wide)*gridStep, math.Abs(s.Wanted.Dx))))
	up := d.MM(geom.Wheels(max(gridRows*gridStep, math.Abs(s.Wanted.Dy))))
	reach := draft.Pt(across+l.Width/2+1, up+l.Height/2+1)
	around := d.Within(draft.Box{Min: centre.Sub(reach), Max: centre.Add(reach)})
	for _, p := range s.spots() {
		far := math.Hypot(p.Dx-s.Wanted.Dx, p.Dy-s.Wanted.Dy)
		if far >= best {
			continue
		}
		at := d.OnPage(c.Add(layout.Point{X: geom.Wheels(p.Dx), Y: geom.Wheels(p.Dy)}))
		at.Y -= l.Height / 2
		if s.ceiling > 0 && at.Y < d.Y(s.ceiling)+.4 {
			continue
		}
		if around.Free(l.TopAt(at.X, at.Y, render.Middle).Box(), .6) {
			best, found = far, at
		}
	}
	if math.IsInf(best, 1) {
		return false
	}
	d.Write("labels", l.TopAt(found.X, found.Y, render.Middle))
	return true
}

// spots lists the places to try: the wanted one, then the grid's.
func (s Search) spots() []Offset {
	out := append(make([]Offset, 0, (2*s.Wide+1)*(2*gridRows+1)+1), s.Wanted)
	for i := -s.Wide; i <= s.Wide; i++ {
		for j := -gridRows; j <= gridRows; j++ {
			p := Offset{float64(i) * gridStep, float64(j) * gridStep}
			if s.Within == 0 || math.Hypot(p.Dx, p.Dy) <= s.Within {
				out = append(out, p)
			}
		}
	}
	return out
}

// Numerals counts: in the upper half of each wheel, clear of axle line, sill and outline.
func (d *Drawing) Numerals() error {
	if d.Wants("between") {
		for k := 1; k <= WholeWheels(d.Plan.WheelsBetween()); k++ {
			found := d.CountIn(k, layout.Point{X: geom.Wheels(k), Y: .5}, Search{Wanted: Offset{0, .25}, Within: .38, Wide: 8})
			if !found && d.Labels.Near {
				return NoRoom("the counts between the wheels")
			}
		}
	}
	if d.Wants("stack") {
		return d.StackNumerals()
	}
	return nil
}

// CountIn writes the count k into a wheel, in smaller lettering where the larger finds no room.
func (d *Drawing) CountIn(k int, c layout.Point, s Search) bool {
	for _, height := range []geom.MM{draft.Medium, draft.Small} {
		if d.Numeral(draft.OneLine(draft.Word{Text: fmt.Sprint(k), Height: height, Weight: render.Medium, Role: draft.Words}), c, s) {
			return true
		}
	}
	return false
}

// StackNumerals counts the stack. A left-over is written inside its used part, smaller if need be, or else beside it on a leader.
func (d *Drawing) StackNumerals() error {
	p := d.Plan
	// A rear tyre of another size is no counted wheel: the strip gives the unit of the counts.
	if d.Wants("wheels") && p.TyreRatio() == 1 {
		found := d.CountIn(1, layout.Point{X: p.Wheelbase(), Y: .5}, Search{Wanted: Offset{.15, .2}, Within: .4, Wide: 8})
		if !found && d.Labels.Near {
			return NoRoom("the counts of the stack")
		}
	}
	for k := 1; float64(k) < float64(p.Height())-LeastRest; k++ {
		c := layout.Point{X: p.Wheelbase(), Y: geom.Wheels(k) + .5}
		part := min(1, p.Height()-geom.Wheels(k))
		if part >= .995 {
			if !d.CountIn(k+1, c, Search{Wanted: Offset{0, .12}, Within: .46, Wide: 8}) && d.Labels.Near {
				return NoRoom("the counts of the stack")
			}
			continue
		}
		if !d.leftOver(c, part) {
			return NoRoom("what is left over of the stack")
		}
	}
	return nil
}

// leftOver writes how much of the stack's last wheel, round c, is used.
func (d *Drawing) leftOver(c layout.Point, part geom.Wheels) bool {
	for _, height := range []geom.MM{draft.Medium, draft.Small} {
		l := draft.OneLine(draft.Word{Text: "+ " + d.FormatLength(part), Height: height, Weight: render.Medium, Role: draft.Words})
		inside := Search{Wanted: Offset{0, float64(part)/2 - .5}, Within: .46, Wide: 8, ceiling: d.Plan.Height()}
		if d.Numeral(l, c, inside) {
			return true
		}
	}
	return d.besideStack(draft.OneLine(draft.Value("+ "+d.FormatLength(part))), layout.Point{X: c.X, Y: c.Y - .5 + part/2})
}

// besideStack writes l beside the stack, at the end of a leader from the used part at p: the nearest free place wins.
func (d *Drawing) besideStack(l draft.Label, p layout.Point) bool {
	from := d.OnPage(p)
	best := math.Inf(1)
	var line draft.Segment
	var side render.Anchor
	for _, anchor := range []render.Anchor{render.Start, render.End} {
		out := geom.MM(1)
		if anchor == render.End {
			out = -1
		}
		for along := geom.MM(3); along < d.MM(1.5); along++ {
			for up := -d.MM(.6); up < d.MM(1.2); up++ {
				end := draft.Pt(from.X+out*along, from.Y-up)
				far := float64(end.Sub(from).Len())
				b := l.MiddleAt(end.X+geom.MM(out*.9), end.Y, anchor).Box()
				post := draft.Segment{A: from, B: end}
				if far < best && d.Space.Contains(b) && d.Free(b, .9) && d.ClearsLabels(post) {
					best, line, side = far, post, anchor
				}
			}
		}
	}
	if math.IsInf(best, 1) {
		return false
	}
	out := geom.MM(.9)
	if side == render.End {
		out = -out
	}
	d.Leader(line.A, line.B)
	d.Write("labels", l.MiddleAt(line.B.X+out, line.B.Y, side))
	return true
}
