package outline

import (
	"fmt"
	"math"
	"testing"

	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/segments"
)

// screenFaults checks the windscreen of b: its foot stands on the screen's base, the silhouette keeps ahead of the A-pillar's line up to
// its head, and the wedge between both lies in the body and off the side glass.
func screenFaults(p layout.Plan, b *body, o Outline) []string {
	var all []string
	tell := func(format string, args ...any) { all = append(all, fmt.Sprintf(format, args...)) }
	wedge := o.Line("screen").Flatten(24)[0]
	box := geom.BoxOf(wedge[0], wedge...)
	if abs(box.Min.X-p.ScreenBase()) > 1e-6 {
		tell("screen's foot %.6f off its base", box.Min.X-p.ScreenBase())
	}
	upper := geom.Polyline(o.Upper, chords)
	for y := b.upperAtCowl().Y + .03; y < b.wedgeHead(); y += .02 {
		front := geom.Wheels(math.Inf(1))
		for i, q := range upper[1:] {
			if a := upper[i]; (a.Y-y)*(q.Y-y) <= 0 && a.Y != q.Y && q.X > b.bonnet[2].X-.2 {
				front = min(front, a.Lerp(q, float64((y-a.Y)/(q.Y-a.Y))).X)
			}
		}
		if gap := b.onPillar(y).X - front; gap < 0 {
			tell("silhouette %.4f behind the A-pillar's line at %.2f", -gap, y)
			break
		}
	}
	outline := o.Line("body").Flatten(32)[0]
	glass := o.Line("glass")
	if glass == nil {
		glass = o.Line("glass-up")
	}
	pane := glass.Flatten(24)[0]
	for _, q := range wedge {
		if under := q.Add(point{Y: -.002}); !holds(outline, under) { // the silhouette's own points lie on the line
			tell("screen leaves the body at (%.3f, %.3f)", q.X, q.Y)
			break
		}
		if holds(pane, q) {
			tell("screen runs into the side glass at (%.3f, %.3f)", q.X, q.Y)
			break
		}
	}
	edge := b.screenEdge()
	for _, q := range [3]point{edge[0][0], edge[0][3], b.wedgeFoot()} {
		if off := q.X - b.onPillar(q.Y).X; abs(off) > 1e-9 {
			tell("screen's side edge %.1e off the A-pillar's line", off)
		}
	}
	return all
}

// The rakes of the drawn centre lines, in degrees: those of production windscreens, common practice.
func TestScreenRakes(t *testing.T) {
	for _, s := range segments.All() {
		p := layout.Typical(s)
		b := drawBody(p)
		top := b.screenTop()
		run := top.Sub(b.bonnet[2])
		rake := math.Atan2(float64(run.Y), float64(run.X)) * 180 / math.Pi
		if least, most := 22., 40.; rake < least || rake > most {
			if s.Name != "off-roader" || rake < 45 || rake > 60 {
				t.Errorf("%s: screen at %.1f°", s.Name, rake)
			}
		}
		if ahead := b.onPillar(b.bonnet[2].Y).X - b.bonnet[2].X; ahead < .08 {
			t.Errorf("%s: screen's foot %.2f ahead of the A-pillar's line", s.Name, ahead)
		}
	}
}
