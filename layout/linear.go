package layout

import "hubrule/segments"

// variables is how many working variables the solve has: one for each declared figure.
const variables = int(segments.Tumblehome-segments.WheelsBetween) + 1

// slot is the index of a declared figure's working variable. It is the figure itself, but for
//   - greenhouse-to-body: greenhouse − typical ratio · body side, which is linear and zero at typical proportions;
//   - glass-end, where the profile counts it from the front axle: glass-end + wheels-between;
//   - pillar-aim and pillar-rake: the line's height over the typical foot, and its slope.
func slot(f segments.Figure) int { return int(f - segments.WheelsBetween) }

// amounts holds a number for each working variable.
type amounts [variables]float64

// linear is a linear form over the working variables: Σ of[i]·x[i] + plus. The zero linear is 0.
type linear struct {
	of   amounts
	plus float64
}

// just is the form that is the number x.
func just(x float64) linear { return linear{plus: x} }

// variable is the form that is one working variable.
func variable(f segments.Figure) linear {
	var l linear
	l.of[slot(f)] = 1
	return l
}

// and returns l + by·m.
func (l linear) and(by float64, m linear) linear {
	for i := range l.of {
		l.of[i] += float64(by * m.of[i])
	}
	l.plus += float64(by * m.plus)
	return l
}

func (l linear) plusJust(x float64) linear { l.plus += x; return l }

func (l linear) times(by float64) linear { return linear{}.and(by, l) }

// at returns the form's value.
func (l linear) at(x amounts) float64 {
	sum := l.plus
	for i, c := range l.of {
		sum += float64(c * x[i])
	}
	return sum
}
