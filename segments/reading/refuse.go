package reading

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"hubrule/segments/strict"
)

// Refusal is why nothing can be read from marks. It is an error.
type Refusal struct{ Faults []Fault }

// Fault is one thing that is wrong with marks.
type Fault struct {
	Name  Name // of the marks that it is about; nameCount where it is about all
	Index int  // of the mark that it is about, or -1
	Text  string

	onSheet bool // it is about the sheet under a sketch
}

// Error returns one line a fault.
func (r *Refusal) Error() string {
	lines := make([]string, len(r.Faults))
	for i, f := range r.Faults {
		lines[i] = f.Text
		if f.Name < nameCount {
			lines[i] = f.Name.String() + ": " + f.Text
		}
	}
	return strings.Join(lines, "\n")
}

// Bounds of what can be read.
const (
	leastTyreMarks = 3
	leastArc       = 60.  // degrees of a tyre that its marks must span
	leastWheel     = 40.  // pixels
	leastGap       = .3   // wheels between the tyres
	mostYaw        = 35.  // degrees
	mostMisfit     = 3.   // root mean square of the marks' residuals
	mostConicGap   = 3.   // deviations between the wheelbase of the fit and that of the ellipses alone
	leastConicGap  = .015 // of the wheelbase; below that both agree well enough
)

// fault reports something about a name's marks.
func (m *Marks) fault(n Name, index int, format string, args ...any) Fault {
	return Fault{Name: n, Index: index, Text: fmt.Sprintf(format, args...)}
}

// check refuses marks from which nothing can be read, before any fit.
func (m *Marks) check() error {
	var faults []Fault
	for n := range nameCount {
		for i, k := range m.Points[n] {
			if k.At.X < 0 || k.At.Y < 0 || k.At.X > m.Width || k.At.Y > m.Height {
				faults = append(faults, m.fault(n, i, "[%s, %s] lies outside the picture; want 0 to %s and 0 to %s",
					number(k.At.X), number(k.At.Y), number(m.Width), number(m.Height)))
			}
			if slices.ContainsFunc(m.Points[n][:i], func(o Mark) bool { return o.At == k.At }) {
				faults = append(faults, m.fault(n, i, "[%s, %s] stands twice; want each point once", number(k.At.X), number(k.At.Y)))
			}
		}
	}
	for n := TyreFront; n <= TyreRear; n++ {
		faults = append(faults, m.checkTyre(n)...)
	}
	if len(faults) == 0 {
		faults = m.checkPair()
	}
	if len(faults) > 0 {
		return &Refusal{faults}
	}
	return nil
}

// number writes a coordinate for a message.
func number(x Pixel) string { return strict.FormatNumber(float64(x)) }

// checkTyre refuses marks that make no circle.
func (m *Marks) checkTyre(n Name) []Fault {
	marks, hub := m.sightings(n), len(m.Points[HubFront+n-TyreFront]) > 0
	switch {
	case len(marks) < leastTyreMarks && !(hub && len(marks) > 0):
		return []Fault{m.fault(n, -1, "%s; want at least %d of its edge, better eight, or %s and one of the edge",
			points(len(marks)), leastTyreMarks, HubFront+n-TyreFront)}
	case hub:
		return nil
	}
	c, round := algebraicCircle(marks)
	if !round {
		return []Fault{m.fault(n, -1, "the points lie on a line; want them round the tyre")}
	}
	var fault []Fault
	if arc := arcOf(marks, c.centre); arc < leastArc {
		fault = append(fault, m.fault(n, -1, "the points span %.0f° of the tyre; want at least %.0f°, better 200°", arc, leastArc))
	}
	if m.Sheet == nil && 2*c.radius < leastWheel {
		fault = append(fault, m.fault(n, -1, "the tyre is %.0f pixels wide; want at least %.0f", 2*c.radius, leastWheel))
	}
	return fault
}

// arcOf returns how many degrees about a centre marks span.
func arcOf(marks []sighting, centre vec) float64 {
	angles := make([]float64, len(marks))
	for i, m := range marks {
		d := m.at.sub(centre)
		angles[i] = degrees(math.Atan2(d.y, d.x))
	}
	slices.Sort(angles)
	gap := angles[0] + 360 - angles[len(angles)-1]
	for i := 1; i < len(angles); i++ {
		gap = max(gap, angles[i]-angles[i-1])
	}
	return 360 - gap
}

// checkPair refuses tyres that cannot belong to one vehicle.
func (m *Marks) checkPair() []Fault {
	p := m.problem()
	front, rear := p.roughCircle(0), p.roughCircle(1)
	apart := front.centre.sub(rear.centre).len()
	switch wheel := 2 * front.radius; {
	case apart < math.Abs(front.radius-rear.radius):
		return []Fault{m.fault(TyreRear, -1, "one tyre lies inside the other")}
	case rear.centre.x < front.centre.x:
		return []Fault{m.fault(TyreRear, -1, "the rear tyre lies ahead of the front one on a picture that faces %s; want the other "+
			"tyre, or facing: %s",
			m.facing(), other(m.facing()))}
	case apart-front.radius-rear.radius < leastGap*wheel:
		return []Fault{m.fault(TyreRear, -1, "%.2f wheels between the tyres; want at least %g",
			(apart-front.radius-rear.radius)/wheel, leastGap)}
	}
	if nose := m.Points[Nose]; len(nose) > 0 {
		if at, _ := m.seen(nose[0]); at.x <= front.centre.x {
			return nil
		}
		return []Fault{m.fault(Nose, 0, "the nose lies behind the front wheel on a picture that faces %s; want facing: %s, or the "+
			"mark at the other end",
			m.facing(), other(m.facing()))}
	}
	return nil
}

// facing says which way the nose points, as marks files do.
func (m *Marks) facing() string {
	if m.FacesRight {
		return "right"
	}
	return "left"
}

// other is the other way.
func other(facing string) string {
	if facing == "left" {
		return "right"
	}
	return "left"
}

// checkFit refuses fits that do not explain the marks.
func (m *Marks) checkFit(f fits) error {
	if len(f) == 0 {
		return &Refusal{[]Fault{m.fault(nameCount, -1, "no camera explains these marks; look whether each lies on the tyre that it names")}}
	}
	best := f.best()
	if angle := degrees(best.at[yaw]); math.Abs(angle) > mostYaw {
		return &Refusal{[]Fault{m.fault(nameCount, -1, "the picture is taken %.0f° from square-on; want at most "+
			"%.0f°", math.Abs(angle), mostYaw)}}
	}
	fault, bad := m.worstMark(best)
	if !bad {
		fault, bad = m.checkByConics(f)
	}
	if !bad {
		return nil
	}
	if ratio, oval := m.ovalTyres(); m.Sheet != nil && oval {
		fault = m.fault(nameCount, -1, "both tyres come out oval, by %.2f; want the inner end of each centring mark, and the sheet's paper%s",
			ratio, m.rounder())
		fault.onSheet = true
	}
	return &Refusal{[]Fault{fault}}
}

// worstMark returns the mark that lies farthest off where marks disagree by more than their deviations allow.
func (m *Marks) worstMark(s *solution) (Fault, bool) {
	p := m.problem()
	p.beliefs, p.order = beliefs{noEye: true, logFocal: belief{0, math.Inf(1)}, focalDivisor: 1}, nil
	all := p.residuals(&s.at, nil)
	at, worst, name, index := 0, 0., nameCount, -1
	look := func(n Name, each int) {
		for i := range m.Points[n] {
			for range each {
				if r := math.Abs(all[at]); r > worst {
					worst, name, index = r, n, i
				}
				at++
			}
		}
	}
	look(TyreFront, 1)
	look(TyreRear, 1)
	look(HubFront, 2)
	look(HubRear, 2)
	look(Ground, 1)
	look(FarFront, 1)
	look(FarRear, 1)
	if rms := math.Sqrt(sumOfSquares(all[:at]) / float64(at)); rms <= mostMisfit {
		return Fault{}, false
	}
	k := m.Points[name][index]
	return m.fault(name, index, "the marks disagree: this one lies %.0f pixels from where the others put it; look at it again, or "+
		"give it a larger pm",
		worst*m.deviation(k)), true
}

// checkByConics compares the wheelbase with what the ellipses of the near tyres give without any camera. A tyre mark on the wrong
// edge, tyres of unequal size and a lens that bends straight lines show there.
func (m *Marks) checkByConics(f fits) (Fault, bool) {
	front, rear := m.sightings(TyreFront), m.sightings(TyreRear)
	if len(front) < 5 || len(rear) < 5 {
		return Fault{}, false
	}
	ratio := m.ratioKnown()
	value, variance, ok := conicWheelbase(front, rear, ratio)
	if !ok {
		return Fault{}, false
	}
	fitted, sd := f.mean(func(s *solution) (float64, float64) { return s.at[wheelbase], s.sd(wheelbase) })
	gap := math.Abs(value - fitted)
	if gap <= mostConicGap*math.Sqrt(variance+sd*sd) || gap <= leastConicGap*fitted {
		return Fault{}, false
	}
	return m.fault(nameCount, -1, "the tyres' ellipses give a wheelbase of %.2f wheels, the camera %.2f; look whether all marks "+
		"lie on the same edge "+
		"of the rubber, whether the tyres are alike (rear-tyre), and whether the picture's straight lines are straight", value, fitted), true
}

// conicWheelbase returns the wheelbase by the near tyres' ellipses, and its variance.
func conicWheelbase(front, rear []sighting, ratio belief) (value, variance float64, ok bool) {
	both := slices.Concat(front, rear)
	points := make([]vec, len(both))
	for i, s := range both {
		points[i] = s.at
	}
	at := func(q float64) (float64, bool) {
		a, one := fitEllipse(points[:len(front)])
		b, two := fitEllipse(points[len(front):])
		if !one || !two {
			return 0, false
		}
		return wheelbaseByConics(a, b, q)
	}
	if value, ok = at(ratio.mean); !ok {
		return 0, 0, false
	}
	const step = .5 // pixels
	for i := range points {
		for _, coordinate := range []*float64{&points[i].x, &points[i].y} {
			kept := *coordinate
			*coordinate = kept + step
			moved, still := at(ratio.mean)
			*coordinate = kept
			if !still {
				return 0, 0, false
			}
			d := (moved - value) / step * both[i].sd
			variance += d * d
		}
	}
	if moved, still := at(ratio.mean + ratio.sd); still {
		variance += (moved - value) * (moved - value)
	}
	return value, variance, true
}
