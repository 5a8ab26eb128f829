package reading

import (
	"math"

	"hubrule/segments"
)

// places are the marks of a name in body space.
type places [nameCount][]vec

// x and y return a coordinate of the first mark of a name; NaN if it was not set.
func (p *places) x(n Name) float64 { return p.at(n, 0).x }
func (p *places) y(n Name) float64 { return p.at(n, 0).y }

// at returns mark i of a name.
func (p *places) at(n Name, i int) vec {
	if i >= len(p[n]) {
		return vec{math.NaN(), math.NaN()}
	}
	return p[n][i]
}

// figures returns what follows from the inputs; a figure whose marks are missing is NaN.
func (in *inputs) figures() segments.Values {
	var room [32]vec // enough for one mark a name, and for some belts
	at := in.places(room[:0])
	v := segments.Values{}
	for f := range v {
		v[f] = math.NaN()
	}
	in.alongTheSide(&v, &at)
	in.heights(&v, &at)
	in.pillar(&v, &at)
	in.lampsAndEdges(&v, &at)
	return v
}

// places returns where the marks lie; room is memory for them. The points of a name follow each other.
func (in *inputs) places(room []vec) (at places) {
	for i := range in.points {
		p := &in.points[i]
		room = append(room, in.onBody(p))
		at[p.name] = room[len(room)-1-len(at[p.name]):]
	}
	return at
}

// alongTheSide sets what is measured along the vehicle.
func (in *inputs) alongTheSide(v *segments.Values, at *places) {
	base, q := in.camera[wheelbase], in.camera[rearRatio]
	v[segments.Wheelbase], v[segments.WheelsBetween] = base, base-.5-q/2
	v[segments.FrontOverhangAxle] = -at.x(Nose)
	v[segments.FrontOverhang] = -at.x(Nose) - .5
	v[segments.RearOverhangAxle] = at.x(Tail) - base
	v[segments.RearOverhang] = at.x(Tail) - base - q/2
	v[segments.Length] = at.x(Tail) - at.x(Nose)
	v[segments.GlassEnd] = at.x(GlassEnd) - base - q/2
	v[segments.ScreenBase] = at.x(Cowl)
	v[segments.TailFoot] = at.x(TailFoot) - base
	v[segments.ChinSetback] = at.x(Chin) - at.x(Nose)
	v[segments.TailSetback] = at.x(Tail) - at.x(TailLow)
}

// heights sets what follows from belt, roof and sill.
func (in *inputs) heights(v *segments.Values, at *places) {
	slope, belt := in.belt(at)
	if len(at[BeltLine]) > 1 {
		v[segments.BeltRise] = degrees(math.Atan(slope))
	}
	v[segments.Belt], v[segments.Height], v[segments.Sill] = belt, at.y(Roof), at.y(SillEdge)
	v[segments.Greenhouse], v[segments.BodySide] = at.y(Roof)-belt, belt-at.y(SillEdge)
	v[segments.GreenhouseToBody] = v[segments.Greenhouse] / v[segments.BodySide]
	v[segments.Clearance] = at.y(Lowest)
	v[segments.HeaderDrop] = at.y(Roof) - at.y(Header)
}

// belt returns the slope of the belt line and its height at mid-wheelbase: the line of least squares through its marks.
func (in *inputs) belt(at *places) (slope, height float64) {
	marks := at[BeltLine]
	if len(marks) == 0 {
		return math.NaN(), math.NaN()
	}
	n := float64(len(marks))
	var mean vec
	for _, p := range marks {
		mean.x, mean.y = mean.x+p.x/n, mean.y+p.y/n
	}
	slope = in.assumedSlope
	if len(marks) > 1 {
		var xx, xy float64
		for _, p := range marks {
			d := p.sub(mean)
			xx, xy = xx+d.x*d.x, xy+d.x*d.y
		}
		slope = xy / xx
	}
	return slope, mean.y + slope*(in.camera[wheelbase]/2-mean.x)
}

// pillar sets what follows from the A-pillar's line.
func (in *inputs) pillar(v *segments.Values, at *places) {
	low, high := at.at(APillar, 0), at.at(APillar, 1)
	slope := (high.y - low.y) / (high.x - low.x)
	v[segments.PillarRake] = degrees(math.Atan(slope))
	v[segments.PillarAim] = low.y - slope*low.x
	beltSlope, belt := in.belt(at)
	v[segments.PillarFoot] = (belt - beltSlope*in.camera[wheelbase]/2 - v[segments.PillarAim]) / (slope - beltSlope)
	v[segments.PillarHead] = (at.y(Header) - v[segments.PillarAim]) / slope
}

// lampsAndEdges sets what follows from lamps, arches and the body's edges.
func (in *inputs) lampsAndEdges(v *segments.Values, at *places) {
	v[segments.FrontLamp], v[segments.RearLamp] = at.y(FrontLamp), at.y(RearLamp)
	v[segments.LampDepth] = at.at(FrontLamp, 1).y - at.y(FrontLamp)
	v[segments.Cowl], v[segments.BonnetEdge], v[segments.Deck] = at.y(Cowl), at.y(BonnetEdge), at.y(Deck)
	v[segments.Chin], v[segments.TailLow] = at.y(Chin), at.y(TailLow)
	front, rear := at.y(ArchFront)-1, at.y(ArchRear)-in.camera[rearRatio]
	switch {
	case math.IsNaN(front):
		v[segments.ArchGap] = rear
	case math.IsNaN(rear):
		v[segments.ArchGap] = front
	default:
		v[segments.ArchGap] = (front + rear) / 2
	}
	v[segments.LampOffset] = at.y(FrontLamp) - 1 - v[segments.ArchGap]
}

func degrees(radians float64) float64 { return radians * 180 / math.Pi }

// whole rounds a figure so that no machine's last bits show.
func whole(x float64) float64 { return math.Round(x*1e6) / 1e6 }
