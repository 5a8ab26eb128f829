package reading

import (
	"math"

	"hubrule/segments"
)

// source is one thing that a figure's uncertainty comes from, besides the camera.
type source struct {
	label string
	sd    float64
	step  float64 // of the numeric derivative; 0: figures bend with it, see bent
	shift func(*inputs, float64)
}

// What most of a figure's uncertainty may come from.
const (
	fromTyres     = "tyre marks"
	fromSkew      = "skew"
	fromLens      = "unknown lens"
	fromOwnMark   = "its own mark"
	fromHalfWidth = "half-width"
	fromInset     = "how far the wheels stand in"
)

// share is the part of every figure's variance that has one source.
type share struct {
	label    string
	variance segments.Values
}

// shares are all sources, in a fixed order.
type shares []share

// add adds the square of a figure's deviation to a source's share.
func (s *shares) add(label string, deviation segments.Values) {
	at := -1
	for i := range *s {
		if (*s)[i].label == label {
			at = i
		}
	}
	if at < 0 {
		at = len(*s)
		*s = append(*s, share{label: label})
	}
	for f, d := range deviation {
		(*s)[at].variance[f] += d * d
	}
}

// sources lists what is uncertain besides the camera.
func (m *Marks) sources(in *inputs) []source {
	var out []source
	for i, p := range in.points {
		out = append(out,
			source{fromOwnMark, p.sd, .5, func(in *inputs, d float64) { in.points[i].at.x += d }},
			source{fromOwnMark, p.sd, .5, func(in *inputs, d float64) { in.points[i].at.y += d }})
		if !in.flat {
			out = append(out, source{"depth of the " + p.name.words(), p.depthSD, 1e-3, func(in *inputs, d float64) { in.points[i].inboard += d }})
		}
	}
	if len(m.Points[BeltLine]) == 1 {
		out = append(out, source{"rise of the belt", assumedRise / twoSided, 1e-4, func(in *inputs, d float64) { in.assumedSlope += d }})
	}
	if in.flat {
		return out
	}
	out = append(out,
		source{fromHalfWidth, m.halfWidth().sd, 1e-3, func(in *inputs, d float64) { in.half += d }},
		source{fromInset, insetDeviation, 1e-3, func(in *inputs, d float64) { in.inset += d }})
	for i, name := range []string{"nose", "tail", "roof"} {
		if in.round[i] > 0 {
			g := in.round[i]
			out = append(out, source{"roundness of the " + name, roundnessDeviation[i], 0,
				func(in *inputs, d float64) { in.round[i] = max(flattest, g+d) }})
		}
	}
	return out
}

// assumedRise is how far from level a belt may be of which one point was marked: 3 degrees, as a slope.
const assumedRise = .0524

// words is a name as a sentence has it.
func (n Name) words() string {
	switch n {
	case BeltLine:
		return "belt"
	case APillar:
		return "A-pillar"
	case GlassEnd:
		return "glass's end"
	case FrontLamp, RearLamp:
		return "lamp"
	case Lowest:
		return "lowest point"
	case BonnetEdge:
		return "bonnet's edge"
	case TailFoot:
		return "rear screen's foot"
	case TailLow:
		return "lower rear corner"
	case ArchFront, ArchRear:
		return "arch"
	}
	return n.String()
}

// propagate returns the figures that a fit gives, and what their variances come from.
func (m *Marks) propagate(s *solution) (segments.Values, shares) {
	in := m.inputs()
	in.camera = s.at
	var out shares
	m.cameraShares(&in, s, &out)
	for _, source := range m.sources(&in) {
		if source.step == 0 {
			in.bent(source, &out)
			continue
		}
		d := in.derivative(source.step, source.shift)
		for f := range d {
			d[f] *= source.sd
		}
		out.add(source.label, d)
	}
	return in.figures(), out
}

// flattest is the least roundness of an end that is round at all.
const flattest = .001

// bent adds what a source contributes that figures bend with: the less round an end, the farther from the centre it is seen. The changes
// over one deviation to either side take the place of the derivative.
func (in *inputs) bent(s source, out *shares) {
	middle := in.figures()
	for _, d := range []float64{-s.sd, s.sd} {
		s.shift(in, d)
		off := in.figures()
		for f := range off {
			off[f] = (off[f] - middle[f]) / math.Sqrt2
		}
		out.add(s.label, off)
	}
	s.shift(in, 0)
}

// derivative returns how figures change with an input. In changes on the way and is put back.
func (in *inputs) derivative(step float64, shift func(*inputs, float64)) segments.Values {
	shift(in, step)
	ahead := in.figures()
	shift(in, -2*step)
	behind := in.figures()
	shift(in, step)
	for f := range ahead {
		ahead[f] = (ahead[f] - behind[f]) / (2 * step)
	}
	return ahead
}

// cameraShares adds what the camera contributes: the part that would be gone if the yaw were known is the skew's.
func (m *Marks) cameraShares(in *inputs, s *solution, out *shares) {
	var by [parameterCount]segments.Values
	for i, step := range steps {
		by[i] = in.derivative(step, func(in *inputs, d float64) { in.camera[i] += d })
	}
	var all, skew segments.Values
	for f := range all {
		variance, withYaw := 0., 0.
		for i := range parameterCount {
			row := 0.
			for j := range parameterCount {
				row += s.covariance.At(i, j) * by[j][f]
			}
			variance += by[i][f] * row
			if i == yaw {
				withYaw = row
			}
		}
		ofYaw := withYaw * withYaw / s.covariance.At(yaw, yaw)
		skew[f], all[f] = math.Sqrt(ofYaw), math.Sqrt(max(0, variance-ofYaw))
		if math.IsNaN(variance) {
			all[f] = variance
		}
	}
	out.add(fromTyres, all)
	out.add(fromSkew, skew)
}

// figures returns each figure's mean over all fits, its standard deviation, and what most of that comes from.
func (f fits) figures(m *Marks) (mean, sd segments.Values, mostFrom [segments.FigureCount]string) {
	each := make([]segments.Values, len(f))
	var all shares
	for i := range f {
		var parts shares
		each[i], parts = m.propagate(&f[i].solution)
		for _, part := range parts {
			for k := range part.variance {
				part.variance[k] = math.Sqrt(part.variance[k] * f[i].weight)
			}
			all.add(part.label, part.variance)
		}
		for k, v := range each[i] {
			mean[k] += f[i].weight * v
		}
	}
	for i := range each {
		for k := range each[i] {
			each[i][k] = math.Sqrt(f[i].weight) * (each[i][k] - mean[k])
		}
		if len(f) > 1 {
			all.add(fromLens, each[i])
		}
	}
	for k := range mean {
		most := 0.
		for _, part := range all {
			sd[k] += part.variance[k]
			if part.variance[k] > most {
				most, mostFrom[k] = part.variance[k], part.label
			}
		}
		sd[k] = math.Sqrt(sd[k])
	}
	return mean, sd, mostFrom
}
