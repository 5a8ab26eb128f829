package layout

import (
	"fmt"

	"hubrule/internal/geom"
	"hubrule/segments"
)

// The screen's foot stands on the centre line, ahead of the A-pillars, which are the screen's side edges. The numbers are in wheels
// and degrees; judged by eye.
const (
	screenPillarGap = .08 // along x, from the foot to the A-pillar's line at the cowl
	screenNoseGap   = .3
	mostScreenRake  = 75. // on the centre line, from foot to header
)

// Names of the limits of the screen's foot. The A-pillar's own limit leaves it room.
var (
	screenBeforePillar = fmt.Sprintf("screen's foot %gw ahead of the A-pillar", screenPillarGap)
	screenBehindNose   = fmt.Sprintf("screen's foot %gw behind the nose", screenNoseGap)
	pillarBehindNose   = fmt.Sprintf("A-pillar %gw behind the nose at the cowl", screenNoseGap+screenPillarGap)
	screenLeans        = fmt.Sprintf("screen at most %g° from the horizontal", mostScreenRake)
)

// HeaderTop returns where the screen ends on the centre line: a little ahead of the A-pillar's head, under the roof.
func (p Plan) HeaderTop() geom.Wheels { return p.PillarHead().X - p.Profile.Shape.HeaderAhead }

// steepestRun returns how far the steepest screen of a solved body runs along x, from foot to header.
func steepestRun(body segments.Values) float64 {
	return (body[segments.Height] - body[segments.Cowl]) / geom.Degrees(mostScreenRake).Tan()
}

// screenLimits lists what a foot of the screen that is pinned at x asks of the A-pillar's line.
func (s solver) screenLimits(body segments.Values, x float64) []limit {
	header := body[segments.Height] - s.drop
	ahead := float64(s.profile.Shape.HeaderAhead)
	slope := geom.Degrees(s.typical[segments.PillarRake]).Tan()
	under := func(name string, at, height float64) limit { // the line over at, which moves with the foot, lies no higher
		room := s.lineAt(at).scaled(-1).plus(height + float64(slope*x))
		return limit{name, room.addScaled(-slope, variable(segments.ScreenBase)), segments.ScreenBase}
	}
	return []limit{
		under(screenBeforePillar, x+screenPillarGap, body[segments.Cowl]),
		under(screenLeans, x+ahead+steepestRun(body), header),
		{screenBehindNose, variable(segments.ScreenBase).plus(.5 + body[segments.FrontOverhang] - screenNoseGap), segments.ScreenBase},
	}
}

// setScreen places the screen's foot once the A-pillar stands: where it is pinned, else as far ahead of the pillar's line at the cowl as
// in the segment, as far as its limits let it.
func (s solver) setScreen(v *segments.Values, sol *solution) {
	for _, t := range s.pins {
		if t.pin.Figure == segments.ScreenBase {
			v[segments.ScreenBase] = t.value
			return
		}
	}
	pillarAt := func(v segments.Values) float64 {
		return (v[segments.Cowl] - v[segments.PillarAim]) / geom.Degrees(v[segments.PillarRake]).Tan()
	}
	x := s.typical[segments.ScreenBase] + pillarAt(*v) - pillarAt(s.segment)
	top := v[segments.PillarHead] - float64(s.profile.Shape.HeaderAhead)
	stop := func(name string, at float64) {
		x, sol.stops[segments.ScreenBase] = at, name
	}
	if least := screenNoseGap - .5 - v[segments.FrontOverhang]; x < least && !s.omitted[screenBehindNose] {
		stop(screenBehindNose, least)
	}
	if most := top - steepestRun(*v); x > most && !s.omitted[screenLeans] {
		stop(screenLeans, most)
	}
	if most := pillarAt(*v) - screenPillarGap; x > most && !s.omitted[screenBeforePillar] {
		stop(screenBeforePillar, most)
	}
	v[segments.ScreenBase] = x
}
