package outline

import (
	"math"
	"testing"

	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/segments"
)

// No path is stored: a changed figure of the profile moves the drawn body by as much, for every segment.
func TestOutlineFollowsTheFigures(t *testing.T) {
	reach := func(p layout.Plan) geom.Box[geom.Wheels] { return geom.BoundsOf(Of(p).Upper) }
	for _, p := range segments.All() {
		before := layout.Typical(p)
		with := func(f segments.Figure, by float64) layout.Plan {
			changed := *p
			changed.Figures[f].Value += by
			return layout.Typical(&changed)
		}
		same := func(what string, got, want geom.Wheels) {
			t.Helper()
			if math.Abs(float64(got-want)) > 1e-5 {
				t.Errorf("%s: %s: %.6f, want %.6f", p.Name, what, got, want)
			}
		}

		taller := with(segments.Height, .05)
		if p.Form == segments.Open {
			same("height moves the roof", bounds(Of(taller).Line("roof-up")).Max.Y, taller.Height())
		} else {
			same("height moves the roof", reach(taller).Max.Y, taller.Height())
		}

		longer := with(segments.WheelsBetween, .1)
		same("wheels between move the tail", reach(longer).Max.X-reach(before).Max.X, .1)
		same("wheels between leave the nose", reach(longer).Min.X, before.Nose())
		same("wheels between move the rear arch", arcCentre(t, longer)-arcCentre(t, before), .1)

		chin := with(segments.Chin, .03)
		moved := drawBody(chin).bumper[0].Y - drawBody(before).bumper[0].Y
		same("chin lifts the lower front corner", moved, .03)
		if rise := lowestAhead(chin) - lowestAhead(before); rise < .005 {
			t.Errorf("%s: chin up by .03 lifts the drawn nose by only %.4f", p.Name, rise)
		}

		if p.Form.Has(segments.TailFoot) {
			foot := with(segments.TailFoot, .05)
			same("tail-foot moves the rear screen's foot", drawBody(foot).foot.X-drawBody(before).foot.X, .05)
			if p.Form == segments.Open {
				continue // there the foot is the folding roof's, drawn dashed
			}
			if rise := mostRise(foot, before); rise < .005 {
				t.Errorf("%s: tail-foot back by .05 lifts the drawn rear screen by only %.4f", p.Name, rise)
			}
		}
	}
}

// arcCentre returns x of the centre of the body's rear arch, worked out from its arc alone.
func arcCentre(t testing.TB, p layout.Plan) geom.Wheels {
	t.Helper()
	rear := geom.Wheels(math.Inf(-1))
	var at point
	for _, s := range Of(p).Line("body") {
		if s.Verb == geom.ArcTo {
			c, _, _ := geom.ArcCentre(at, s)
			rear = max(rear, c.X)
		}
		at = s.To
	}
	return rear
}

// lowestAhead returns the height of the drawn body a twentieth of a wheel behind the nose, underneath.
func lowestAhead(p layout.Plan) geom.Wheels {
	x, low := p.Nose()+.05, geom.Wheels(math.Inf(1))
	for _, c := range Of(p).Upper {
		for i := range 41 {
			if q := c.At(float64(i) / 40); math.Abs(float64(q.X-x)) < .03 {
				low = min(low, q.Y)
			}
		}
	}
	return low
}

// mostRise returns by how much one body stands higher than another at most, between rear axle and tail.
func mostRise(a, b layout.Plan) geom.Wheels {
	over, under := drawBody(a).polyline, drawBody(b).polyline
	most := geom.Wheels(0)
	for x := b.Wheelbase(); x < b.Tail()-.1; x += .01 {
		most = max(most, heightAt(over, x)-heightAt(under, x))
	}
	return most
}
