package reading

import (
	"cmp"
	"math"

	"hubrule/internal/geom"
	"hubrule/segments"
)

// What is believed of any picture and vehicle before the picture is looked at. Means and deviations are judged by eye, except the focal
// length of a file, which is rounded to whole millimetres.
const (
	usualYaw, usualTilt = 20 * math.Pi / 180, 8 * math.Pi / 180 // deviations from square-on and level
	statedRatio         = .003                                  // deviation of rear ÷ front tyre where designations are known
	unstatedRatio       = .03
	trackDeviation      = .04 // of the track
	trackOfWidth        = .855
	usualSink           = .012
	sinkDeviation       = .008
	exact               = 1e-6 // deviation of what is certain
	usualEye            = 1400 // mm above the road
	eyeDeviation        = 350  // mm
	statedEye           = .05  // of an eye height that was measured
	usualTyre           = 700  // mm, where the tyre is not known
	lensOffset          = 5.   // pixels of the lens's axis off the picture's centre
	croppedOffset       = .15  // likewise, of the width of a picture that was cut
	usualFocal          = 50.
	focalDeviation      = .6 // of the logarithm
	statedFocal         = .03
	statedDistance      = .05
	usualHalfWidth      = 1.32
	unknownHalfWidth    = .15
	halfWidthDeviation  = .03 // of half the width, where it is known
	usualInset          = .05 // half the width less the wheels' plane
	insetDeviation      = .025
)

// halfWidth returns half the vehicle's width, as known or assumed, with its deviation.
func (m *Marks) halfWidth() belief {
	hw := float64(m.HalfWidth)
	if hw == 0 && m.Like != nil {
		hw = m.Like.Figures[segments.Width].Value / 2
	}
	if hw == 0 {
		return belief{usualHalfWidth, unknownHalfWidth}
	}
	return belief{hw, halfWidthDeviation * hw}
}

// trackKnown returns the track, as known or assumed.
func (m *Marks) trackKnown() belief {
	t := float64(m.Track)
	if t == 0 && m.HalfWidth == 0 && m.Like != nil {
		t = m.Like.Figures[segments.Track].Value
	}
	t = cmp.Or(t, trackOfWidth*2*m.halfWidth().mean)
	return belief{t, trackDeviation * t}
}

// ratioKnown returns rear ÷ front tyre diameter.
func (m *Marks) ratioKnown() belief {
	switch {
	case m.Tyre.Diameter == 0:
		return belief{1, unstatedRatio}
	case m.RearTyre.Diameter == 0:
		return belief{1, statedRatio}
	}
	return belief{float64(m.RearTyre.Diameter / m.Tyre.Diameter), statedRatio}
}

// wheel returns the front tyre's diameter, as known or assumed.
func (m *Marks) wheel() geom.MM { return cmp.Or(m.Tyre.Diameter, usualTyre) }

// beliefs gathers what is known before the picture is looked at.
func (m *Marks) beliefs() beliefs {
	if m.Sheet != nil {
		return drawingBeliefs(m.ratioKnown())
	}
	off := lensOffset
	if m.Cropped {
		off = croppedOffset * float64(m.Width)
	}
	ground := belief{usualSink, sinkDeviation}
	if m.OnCircles {
		ground = belief{0, exact}
	}
	b := beliefs{
		of: map[int]belief{
			yaw: {0, usualYaw}, pitch: {0, usualTilt}, roll: {0, usualTilt}, rearRatio: m.ratioKnown(), track: m.trackKnown(),
			sink: ground, lensX: {0, off}, lensY: {0, off},
		},
		logFocal:     belief{math.Log(usualFocal), focalDeviation},
		eyeHeight:    belief{usualEye / float64(m.wheel()), eyeDeviation / float64(m.wheel())},
		focalDivisor: math.Hypot(float64(m.Width), float64(m.Height)),
	}
	if m.Focal > 0 {
		b.logFocal = belief{math.Log(m.Focal), statedFocal}
	}
	if h := m.EyeHeight; h.Unit != "" {
		mean := float64(h.MM(m.wheel()) / m.wheel())
		b.eyeHeight = belief{mean, statedEye * mean}
	}
	if d := m.Distance; d.Unit != "" {
		b.logNearness = belief{-math.Log(float64(d.MM(m.wheel()) / m.wheel())), statedDistance}
	}
	return b
}

// drawingBeliefs are those of a drawing in its own plane: a camera that is square-on and as good as infinitely far away.
func drawingBeliefs(ratio belief) beliefs {
	none := belief{0, exact}
	return beliefs{
		of: map[int]belief{
			yaw: none, pitch: none, roll: {0, usualTilt}, rearRatio: ratio, track: {1, 1}, sink: none, lensX: none, lensY: none,
		},
		logFocal:     belief{0, math.Inf(1)},
		logNearness:  belief{math.Log(farAway), exact},
		noEye:        true,
		focalDivisor: 1,
	}
}

// farAway is the nearness of a drawing's camera.
const farAway = 1e-3

// lensKnown reports whether anything says how far away the camera was.
func (m *Marks) lensKnown() bool { return m.Focal > 0 || m.Distance.Unit != "" }

// problem gathers what a fit has to explain.
func (m *Marks) problem() *problem {
	p := &problem{beliefs: m.beliefs()}
	for i := range p.near {
		p.near[i] = m.sightings(TyreFront + Name(i))
		p.hubs[i] = m.sightings(HubFront + Name(i))
		p.far[i] = m.sightings(FarFront + Name(i))
	}
	p.ground = m.sightings(Ground)
	p.order = p.beliefs.order()
	return p
}

// order lists the parameters of which something is known.
func (b *beliefs) order() []int {
	var out []int
	for i := range parameterCount {
		if _, known := b.of[i]; known {
			out = append(out, i)
		}
	}
	return out
}

// sightings returns the marks of a name as the fit uses them.
func (m *Marks) sightings(n Name) []sighting {
	out := make([]sighting, len(m.Points[n]))
	for i, k := range m.Points[n] {
		out[i].at, out[i].sd = m.seen(k)
	}
	return out
}
