package layout

import "hubrule/segments"

// variables is how many working variables the solve has: one for each declared figure.
const variables = int(segments.Tumblehome-segments.WheelsBetween) + 1

// index returns the index of a declared figure's working variable. The variable is the figure itself, except for
//   - greenhouse-to-body: greenhouse − typical ratio · body side, which is linear and zero at typical proportions;
//   - glass-end, where the profile measures it from the front axle: glass-end + wheels-between;
//   - pillar-aim and pillar-rake: the line's height over the typical foot, and its slope.
func index(f segments.Figure) int { return int(f - segments.WheelsBetween) }

// vector holds a number for each working variable.
type vector [variables]float64

// affine is an affine form over the working variables: Σ coefficients[i]·x[i] + constant. The zero affine is 0.
type affine struct {
	coefficients vector
	constant     float64
}

func constant(x float64) affine { return affine{constant: x} }

// variable is the form that is one working variable.
func variable(f segments.Figure) affine {
	var l affine
	l.coefficients[index(f)] = 1
	return l
}

// addScaled returns l + by·m.
func (l affine) addScaled(by float64, m affine) affine {
	for i := range l.coefficients {
		l.coefficients[i] += float64(by * m.coefficients[i])
	}
	l.constant += float64(by * m.constant)
	return l
}

func (l affine) add(m affine) affine { return l.addScaled(1, m) }

func (l affine) sub(m affine) affine { return l.addScaled(-1, m) }

func (l affine) plus(x float64) affine { l.constant += x; return l }

func (l affine) scaled(by float64) affine { return affine{}.addScaled(by, l) }

// variablesBeside counts the working variables of l; 0 if it lacks one that m has.
func (l affine) variablesBeside(m affine) (n int) {
	for i, c := range l.coefficients {
		if c != 0 {
			n++
		} else if m.coefficients[i] != 0 {
			return 0
		}
	}
	return n
}

// value returns the form's value at x.
func (l affine) value(x vector) float64 {
	sum := l.constant
	for i, c := range l.coefficients {
		sum += float64(c * x[i])
	}
	return sum
}
