package view

import "math"

// The side's own numbers, in wheels; judged by eye.
const (
	taperEnds  = .03  // the side's taper from the axles to nose and tail
	waist      = .66  // height of the widest line as a share of sill to belt
	doorsIn    = .012 // the doors inside the arches, at the widest line
	underArch  = .006 // tuck at the arches
	glassCurve = .03  // curve of the side glass, per w
	archReach  = .6   // over which the arches' width runs into the doors'
	underBelt  = .08  // the widest line stays this far under the belt
	overTyre   = .03  // and over the arches this far above the tyre
)

// bodySide returns the half-width of the body side and of the glass above it, before nose, tail and roof take their share, and
// its derivative by y.
func (s *Solid) bodySide(x, y float64) (z, byY float64) {
	p := s.plan
	base := float64(p.Wheelbase())
	out := math.Max(0, math.Abs(x-base/2)-base/2) / (float64(p.Tail()-p.Nose())/2 - base/2)
	full := s.width/2 - float64(taperEnds*out*out)
	door := ease(float64(p.FrontArch())+.02, float64(p.FrontArch())+.02+archReach, x) *
		ease(float64(p.RearArch())+.02, float64(p.RearArch())+.02+archReach, base-x)
	sill, belt := float64(p.Sill()), float64(p.Belt())+float64((x-base/2)*s.rise)
	wide := sill + float64(waist*(belt-sill))
	tyre := 1.
	if x > base/2 {
		tyre = 2 * float64(p.RearRadius())
	}
	// Over the arches the widest line rises to the tyre's top: a wing covers its wheel.
	wide += float64((1 - door) * math.Max(0, math.Min(belt-underBelt, tyre+overTyre)-wide))
	full -= float64(doorsIn * door)
	inset := float64(s.shape.BeltInset)
	switch {
	case y <= wide:
		tuck, t := float64(float64(s.shape.Tuck)*door)+underArch, (wide-y)/(wide-sill)
		return full - float64(tuck*t*t), 2 * tuck * t / (wide - sill)
	case y <= belt:
		t := (y - wide) / (belt - wide)
		return full - float64(inset*t*t), -2 * inset * t / (belt - wide)
	}
	v := y - belt
	return full - inset - float64(v*s.tumble) - float64(glassCurve*v*v), -s.tumble - float64(2*glassCurve*v)
}
