package layout

import (
	_ "embed"
	"encoding/json"
	"math"
	"sync"

	"hubrule/internal/slice"
	"hubrule/segments"
)

// bodyModel is a normal distribution of the natural logarithms of a segment's body lengths in mm, those that published data sheets
// give: wheelbase, length, height, width, front and rear overhang from the axle (ISO 612), greenhouse and body side, in this order.
//
// Derived from 1,057 bodies of Transport Canada, Canadian Vehicle Specifications, 2011–2023 (Open Government Licence – Canada): mean and
// covariance of each segment, the covariance shrunk towards that of all segments together as if by ten more bodies.
type bodyModel struct {
	Bodies     int         `json:"bodies"`
	Mean       []float64   `json:"mean"`
	Covariance [][]float64 `json:"covariance"` // the lower triangle, row by row

	// Of such bodies kept back, the percentages that wheelbase, length, height and width place in their own segment, first or in the
	// first two.
	First    float64 `json:"first,omitempty"`
	FirstTwo float64 `json:"first-two,omitempty"`
}

//go:generate go test -run TestBodyModels -update

//go:embed bodies.json
var bodiesFile []byte

// bodyModels returns the models by segment; "" is that of all together, each body beside its segment's mean.
var bodyModels = sync.OnceValue(func() (models map[string]bodyModel) {
	if err := json.Unmarshal(bodiesFile, &models); err != nil {
		panic("layout: bodies.json: " + err.Error())
	}
	return models
})

// modelOf returns the model of a segment. One without measured bodies has the spread of all others about its own typical plan.
func modelOf(p *segments.Profile) bodyModel {
	if m, ok := bodyModels()[p.Name]; ok && p.InCatalogue() {
		return m
	}
	m, v := bodyModel{Covariance: bodyModels()[""].Covariance}, Typical(p).Values()
	wheel := v[segments.Wheel]
	for _, l := range []float64{v[segments.Wheelbase], v[segments.Length], v[segments.Height], v[segments.Width],
		v[segments.FrontOverhang] + .5,
		v[segments.RearOverhang] + p.RearRatio()/2, v[segments.Greenhouse], v[segments.BodySide]} {
		m.Mean = append(m.Mean, math.Log(l*wheel))
	}
	return m
}

// figures returns the figures of the mean body, with the segment's tyres.
func (m bodyModel) figures(p *segments.Profile) (v segments.Values) {
	length := func(i int) float64 { return math.Exp(m.Mean[i]) / float64(p.Wheel.Diameter) }
	q := p.RearRatio()
	v[segments.WheelsBetween] = length(0) - (1+q)/2
	v[segments.Height], v[segments.Width] = length(2), length(3)
	v[segments.FrontOverhang], v[segments.RearOverhang] = length(4)-.5, length(5)-q/2
	v[segments.GreenhouseToBody] = length(6) / length(7)
	v[segments.Sill] = length(2) - length(6) - length(7)
	return v
}

// observation is a known combination of the logarithms of body lengths: the sum of weight times each.
type observation struct {
	weights [8]float64
	value   float64
}

// expected returns the mean of what an observation says.
func (m bodyModel) expected(o observation) (sum float64) {
	for k, w := range o.weights {
		sum += float64(w * m.Mean[k])
	}
	return sum
}

// covariance returns that of two observations.
func (m bodyModel) covariance(a, b observation) (sum float64) {
	for k, row := range m.Covariance {
		for l, v := range row {
			w := float64(a.weights[k] * b.weights[l])
			if l < k {
				w += float64(a.weights[l] * b.weights[k])
			}
			sum += float64(v * w)
		}
	}
	return sum
}

// distance returns −2 × the logarithm of the model's density at what was observed, but for a constant that depends on their number only.
func (m bodyModel) distance(seen []observation) float64 {
	var off []float64
	var spread [][]float64
	for i, a := range seen {
		row := slice.Map(seen[:i+1], func(b observation) float64 { return m.covariance(a, b) })
		off, spread = append(off, a.value-m.expected(a)), append(spread, row)
	}
	return mahalanobis(off, spread)
}

// mahalanobis returns xᵀS⁻¹x + ln|S| for a positive definite S, given by its lower triangle, which it overwrites with Cholesky's factor.
func mahalanobis(x []float64, s [][]float64) (d float64) {
	for i, row := range s {
		for j := range i + 1 {
			sum := row[j]
			for k := range j {
				sum -= float64(row[k] * s[j][k])
			}
			if i == j {
				row[i] = math.Sqrt(sum)
			} else {
				row[j] = sum / s[j][j]
			}
		}
		for k := range i {
			x[i] -= float64(row[k] * x[k])
		}
		x[i] /= row[i]
		d += float64(x[i]*x[i]) + 2*math.Log(row[i])
	}
	return d
}
