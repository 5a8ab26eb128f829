package reading

import (
	"fmt"
	"math"

	"hubrule/segments"
)

// What is known of skew: how well, in degrees, the yaw must be known.
const (
	carriedYaw    = 1.5
	tellableYaw   = 2.
	usableAcross  = .15 // w: an overhang known less well is unreadable where the skew cannot be told
	closeSlope    = .2  // of the line of sight past nose or tail
	wheelbaseSlip = .01 // of a known wheelbase, besides what the reading allows
)

// Reading reads the marks. The error is a *Refusal.
func (m *Marks) Reading() (Reading, error) {
	r, _, err := m.read()
	return r, err
}

// read is Reading; it returns the cameras as well.
func (m *Marks) read() (Reading, fits, error) {
	if err := m.check(); err != nil {
		return Reading{}, nil, err
	}
	f := m.solve()
	if err := m.checkFit(f); err != nil {
		return Reading{}, nil, err
	}
	r := Reading{Name: m.Name, Source: m.Source(), Student: m.Student, Like: m.Like, Wheel: m.Tyre, RearWheel: m.RearTyre, Skew: None}
	if m.Sheet == nil {
		r.Camera = m.camera(f)
		r.Skew = m.skew(f)
	}
	m.fill(&r, f)
	if err := m.checkFigures(&r, f.best()); err != nil {
		return Reading{}, nil, err
	}
	r.Picture = &Picture{Width: m.Width, Height: m.Height, FacesRight: m.FacesRight, Projection: Projection{m, f.best().at}}
	if m.Picture != "" {
		r.Picture.Path = m.PicturePath()
	}
	r.Messages = m.messages(&r, f)
	return r, f, nil
}

// Source returns what was read, as people name it.
func (m *Marks) Source() string {
	if m.Picture != "" {
		return m.Picture
	}
	return m.Path
}

// camera describes where the picture was taken from.
func (m *Marks) camera(f fits) *Camera {
	var c Camera
	angle, sd := f.mean(func(s *solution) (float64, float64) { return degrees(s.at[yaw]), degrees(s.sd(yaw)) })
	c.Yaw, c.YawPM = whole(angle), whole(twoSided*sd)
	tilt, _ := f.mean(func(s *solution) (float64, float64) { return degrees(s.at[roll]), 0 })
	distance, sd := f.mean(func(s *solution) (float64, float64) {
		return 1 / s.at[nearness], s.sd(nearness) / (s.at[nearness] * s.at[nearness])
	})
	c.Distance, c.DistancePM = whole(distance), whole(twoSided*sd)
	focal, _ := f.mean(func(s *solution) (float64, float64) {
		return equivalent(s.at.focalPixels(), math.Hypot(float64(m.Width), float64(m.Height))), 0
	})
	c.Roll, c.Focal = whole(tilt), whole(focal)
	return &c
}

// skew says what is known of the yaw.
func (m *Marks) skew(f fits) Skew {
	angle, sd := f.mean(func(s *solution) (float64, float64) { return degrees(s.at[yaw]), degrees(s.sd(yaw)) })
	blind := !m.lensKnown() && !m.farMarked()
	switch {
	case blind && (sd > tellableYaw || math.Abs(angle) < 2*sd):
		return CannotTell
	case sd <= carriedYaw:
		return Carried
	}
	return Weak
}

// farMarked reports whether a far tyre was marked.
func (m *Marks) farMarked() bool { return len(m.Points[FarFront])+len(m.Points[FarRear]) > 0 }

// fill sets the reading's figures.
func (m *Marks) fill(r *Reading, f fits) {
	mean, sd, mostFrom := f.figures(m)
	for i := range mean {
		if math.IsNaN(mean[i]) || math.IsNaN(sd[i]) {
			continue
		}
		r.Figures[i] = Value{whole(mean[i]), whole(twoSided * sd[i]), Read, mostFrom[i]}
	}
	if r.Skew == CannotTell {
		for _, i := range acrossFigures {
			if v := &r.Figures[i]; v.State == Read && v.PM > usableAcross {
				v.State = Unreadable
			}
		}
	}
	if m.Sheet != nil {
		return
	}
	across := func(i segments.Figure, b belief, times float64, stated bool) {
		r.Figures[i] = Value{Value: whole(times * b.mean), PM: whole(twoSided * times * b.sd), State: Assumed}
		if stated {
			r.Figures[i].State = Read
		}
	}
	across(segments.Width, m.halfWidth(), 2, m.HalfWidth > 0)
	across(segments.Track, m.trackKnown(), 1, m.Track > 0)
}

// acrossFigures are the figures that a yaw of which nothing is known makes worthless.
var acrossFigures = []segments.Figure{
	segments.FrontOverhang, segments.RearOverhang, segments.FrontOverhangAxle, segments.RearOverhangAxle, segments.Length,
}

// messages says what whoever reads the figures should know.
func (m *Marks) messages(r *Reading, f fits) []string {
	var out []string
	say := func(format string, args ...any) { out = append(out, fmt.Sprintf(format, args...)) }
	for n := TyreFront; n <= TyreRear; n++ {
		if hub := HubFront + n - TyreFront; len(m.Points[hub]) > 0 && len(m.Points[n]) < leastTyreMarks {
			say("%s was read from its hub and %s: wheels between is off by 0.08 easily; mark eight points of the edge", n, points(len(m.Points[n])))
		}
	}
	if m.Tyre.Diameter == 0 && m.Sheet == nil {
		say("no tyre: no millimetres")
	}
	if m.Sheet != nil {
		if ratio, oval := m.ovalTyres(); oval {
			say("both tyres come out oval, by %.2f: a centring mark or the paper is wrong, or they are drawn so%s", ratio, m.rounder())
		}
		return append(out, m.Sheet.messages()...)
	}
	switch {
	case r.Skew == CannotTell:
		say("skew: cannot tell; treated as square-on. Mark the far tyres, or give the focal length for 35 mm film")
	case !m.lensKnown() && !m.farMarked():
		say("neither a focal length nor far tyres: overhangs depend on how far the camera was")
	}
	if m.HalfWidth == 0 && m.Like == nil {
		say("half the width is taken to be %gw ± %gw; a segment that the vehicle is like narrows the overhangs", usualHalfWidth, unknownHalfWidth)
	}
	if m.closeCamera(f) {
		say("close camera: overhangs depend on how round nose and tail are; stand twice as far off")
	}
	if text := m.wheelbaseMessage(r); text != "" {
		say("%s", text)
	}
	return out
}

// points counts points in words.
func points(n int) string {
	if n == 1 {
		return "1 point"
	}
	return fmt.Sprintf("%d points", n)
}

// closeCamera reports whether the line of sight past nose or tail is so slanted that their roundness matters most.
func (m *Marks) closeCamera(f fits) bool {
	in := m.inputs()
	in.camera = f.best().at
	for i := range in.points {
		if p := &in.points[i]; p.onCentre && (p.name == Nose || p.name == Tail) {
			depth := in.depth(p)
			at, _ := newView(&in.camera, depth).back(p.at)
			if math.Abs(in.sightSlope(at.x, depth)) > closeSlope {
				return true
			}
		}
	}
	return false
}

// wheelbaseMessage compares a known wheelbase with the one that tyre and reading give.
func (m *Marks) wheelbaseMessage(r *Reading) string {
	if m.Wheelbase == 0 || m.Tyre.Diameter == 0 {
		return ""
	}
	v := r.Figures[segments.Wheelbase]
	known := float64(m.Wheelbase / m.Tyre.Diameter)
	if math.Abs(v.Value-known) <= math.Hypot(v.PM, wheelbaseSlip*known) {
		return ""
	}
	return fmt.Sprintf("a wheelbase of %.0f mm is %.3f wheels of %s, but %.3f ± %.3f were read; is it the right tyre?",
		float64(m.Wheelbase), known, m.Tyre, v.Value, v.PM)
}
