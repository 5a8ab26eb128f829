package counting

import (
	"math"

	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/render/draft"
)

// sideWheel is a wheel of the plan as the side view shows it.
type sideWheel struct {
	name              string
	centre            layout.Point
	radius, rim, arch geom.Wheels // radii
}

// wheels returns the front wheel and the rear one.
func (d *Drawing) wheels() [2]sideWheel {
	p := d.Plan
	return [2]sideWheel{
		{"front", planPt(0, .5), .5, geom.Wheels(p.Rim() / 2), p.FrontArch()},
		{"rear", planPt(p.Wheelbase(), p.RearRadius()), p.RearRadius(), p.RearRadius() * geom.Wheels(p.RearRim()), p.RearArch()},
	}
}

// Tyres draws both tyres with their rims.
func (d *Drawing) Tyres() {
	d.Tyre(0)
	d.Tyre(1)
	for _, w := range d.wheels() {
		d.wheelAt(RimLine().For("wheels", ""), w.centre, w.rim)
	}
}

// Tyre draws one tyre without its rim: 0 is the front one, 1 the rear one.
func (d *Drawing) Tyre(i int) {
	w := d.wheels()[i]
	d.wheelAt(TyreLine().For("wheels", "wheel-"+w.name), w.centre, w.radius)
}

// Crosses marks the wheel centres where no axle lines do.
func (d *Drawing) Crosses() {
	d.Cross(0)
	d.Cross(1)
}

// Cross marks one wheel's centre: 0 is the front one, 1 the rear one.
func (d *Drawing) Cross(i int) {
	at := d.OnPage(d.wheels()[i].centre)
	d.Tick(RimLine().For("wheels", ""), at, draft.Pt(1.2, 0))
	d.Tick(RimLine().For("wheels", ""), at, draft.Pt(0, 1.2))
}

// Arches draws the wheel arches down to the sill.
func (d *Drawing) Arches() {
	for _, w := range d.wheels() {
		dip := math.Asin(math.Max(-1, math.Min(1, float64((w.centre.Y-d.Plan.Sill())/w.arch))))
		d.arc(GuideLine().For("arches", "arch-"+w.name), arc{w.centre, w.arch, -dip, math.Pi + dip})
	}
}

// minSpacing is how far two parallel dashed guides must lie apart on paper to be read as two.
const minSpacing geom.MM = .8

// Axles draws the axle line through the wheel centres and the uprights through both axles. Where the
// sill coincides with the axle line the sill keeps the body and the axle line only crosses the wheels:
// two dash patterns on one line read as neither.
func (d *Drawing) Axles() {
	p, k := d.Plan, AxleLine()
	from, to := d.GuideExtent()
	gap := d.MM(p.Sill() - .5)
	if max(gap, -gap) < minSpacing && d.Wants("sill") {
		const off = .02
		d.Level(k.For("wheels", "axle-lead"), .5, d.X(from), d.X(p.Nose()))
		d.Level(k.For("wheels", "axle-line"), .5, d.X(-p.FrontArch()+off), d.X(p.FrontArch()-off))
		d.Level(k.For("wheels", "axle-line-rear"), .5, d.X(p.Wheelbase()-p.RearArch()+off), d.X(p.Wheelbase()+p.RearArch()-off))
	} else {
		d.Level(k.For("wheels", "axle-line"), .5, d.X(from), d.X(to))
	}
	d.Upright(k.For("wheels", "axle-front"), 0, -.06, max(1, geom.Wheels(p.AimRange().Hi))+.22)
	d.Upright(k.For("wheels", "axle-rear"), p.Wheelbase(), -.06, 1.22)
}
